"""Bursts, on pictures that scikit-image ships."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import combinations

import cv2
import numpy as np
import pytest
from skimage import data

from saywright.photos.burst import ALIKE_BITS, Shot, bursts, differing, likeness

SHIPPED = [
    "camera",
    "coins",
    "gravel",
    "page",
    "clock",
    "moon",
    "brick",
    "grass",
    "coffee",
    "chelsea",
    "rocket",
]
AT = datetime(2026, 3, 1, 9, 0, 0)


def picture(name: str) -> np.ndarray:
    """A shipped picture as (height, width, 3) uint8."""
    loaded = getattr(data, name)()
    return loaded[..., :3] if loaded.ndim == 3 else np.repeat(loaded[..., None], 3, axis=2)


def again(pixels: np.ndarray) -> np.ndarray:
    """The next of a burst: shifted by 1 %, turned by half a degree, a little darker, noise."""
    height, width = pixels.shape[:2]
    matrix = cv2.getRotationMatrix2D((width / 2, height / 2), 0.5, 1.0)
    matrix[:, 2] += 0.01 * width
    moved = cv2.warpAffine(pixels, matrix, (width, height), borderMode=cv2.BORDER_REPLICATE)
    noise = np.random.default_rng(2).normal(0, 3, moved.shape)
    return np.clip(0.93 * moved + noise, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("name", SHIPPED)
def test_the_next_of_a_burst_is_alike(name: str) -> None:
    """Within the limit, for each of the shipped pictures."""
    assert differing(likeness(picture(name)), likeness(again(picture(name)))) <= ALIKE_BITS


def test_different_things_are_not() -> None:
    """No two of the shipped pictures come within the limit."""
    least = min(differing(likeness(picture(a)), likeness(picture(b))) for a, b in combinations(SHIPPED, 2))
    assert ALIKE_BITS + 4 < least


def shot(name: str, seconds: float | None, mark: str = "0" * 16, sharpness: float | None = 0.5) -> Shot:
    """A picture so many seconds after the first."""
    return Shot(name, mark, None if seconds is None else AT + timedelta(seconds=seconds), sharpness)


def test_the_sharpest_is_first() -> None:
    """Three within seconds of each other are one group; order of time behind the sharpest."""
    found = bursts([shot("c", 9, sharpness=0.3), shot("a", 0, sharpness=0.2), shot("b", 4, sharpness=0.6)])
    assert [["b", "a", "c"]] == [[one.id for one in group] for group in found]


def test_alike_and_later_is_no_burst() -> None:
    """The same part half an hour later is before and after, not a burst; nor is what has no time."""
    assert () == bursts([shot("a", 0), shot("b", 1800), shot("c", None)])


def test_near_and_unlike_is_no_burst() -> None:
    """Two things in three seconds are two things."""
    assert () == bursts([shot("a", 0), shot("b", 3, mark="ffff" * 4)])
