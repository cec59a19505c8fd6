"""Pictures of one thing taken in one go: grouped by how alike they look, the sharpest proposed.

The likeness is a difference hash: the picture shrunk to 9 × 8 greys, one bit for each pair of neighbours,
whether the right one is lighter. Alike is not enough, since one part is pictured before and after; so both
must be taken within seconds.

How the limit was chosen: shifted by 1 %, turned by half a degree, darkened and with noise, eleven pictures
that scikit-image ships differ from themselves in 0 to 16 bits; from each other in 24 and more, as do the
demo's rendered ones in 23 and more.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any, NamedTuple

import cv2
import numpy as np
import numpy.typing as npt

ALIKE_BITS = 18  # at most so many of 64 differ
WITHIN_S = 10.0  # from one picture of a burst to the next


class Shot(NamedTuple):
    """A picture to group."""

    id: str
    likeness: str | None  # 16 hexadecimal digits; None where it was not computed
    taken_at: datetime | None  # by the camera's clock; without it a picture is grouped with none
    sharpness: float | None


def likeness(pixels: npt.NDArray[np.uint8]) -> str:
    """The 64 bits of *pixels*, (height, width, 3) uint8, as 16 hexadecimal digits."""
    grey: npt.NDArray[Any] = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    small = np.asarray(cv2.resize(grey, (9, 8), interpolation=cv2.INTER_AREA)).astype(np.int16)
    return np.packbits((small[:, 1:] > small[:, :-1]).ravel()).tobytes().hex()


def differing(first: str, second: str) -> int:
    """Bits in which two likenesses differ, 0…64."""
    return (int(first, 16) ^ int(second, 16)).bit_count()


def bursts(shots: Sequence[Shot]) -> tuple[tuple[Shot, ...], ...]:
    """Groups of two and more, each with its sharpest first, then by time."""
    dated = [shot for shot in shots if shot.taken_at is not None and shot.likeness is not None]
    groups: list[list[Shot]] = []
    for shot in sorted(dated, key=lambda one: (one.taken_at, one.id)):
        if groups and _follows(groups[-1][-1], shot):
            groups[-1].append(shot)
        else:
            groups.append([shot])
    return tuple(_sharpest_first(group) for group in groups if len(group) > 1)


def _follows(before: Shot, shot: Shot) -> bool:
    if before.taken_at is None or shot.taken_at is None or not before.likeness or not shot.likeness:
        return False
    near = abs((shot.taken_at - before.taken_at).total_seconds()) <= WITHIN_S
    return near and differing(before.likeness, shot.likeness) <= ALIKE_BITS


def _sharpest_first(group: Sequence[Shot]) -> tuple[Shot, ...]:
    best = max(group, key=lambda shot: shot.sharpness or 0.0)
    return (best, *(shot for shot in group if shot is not best))
