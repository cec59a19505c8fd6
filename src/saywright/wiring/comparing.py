"""Before and after: two pictures of one part laid over each other."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from saywright.photos.align import align, blend, difference, pair
from saywright.photos.intake import derived_jpeg, read_photo

GAP_SHARE = 0.02  # of the width, white between the two


@dataclass(frozen=True, slots=True)
class Comparison:
    """The two at one scale, as JPEG, and how well they fit."""

    told: str  # the quality in one line
    pair_jpeg: bytes  # side by side, before on the left
    blend_jpeg: bytes
    difference_jpeg: bytes


def compare_files(before: Path, after: Path) -> Comparison:
    """Two image files compared; InputError where they cannot be laid over each other."""
    first, second = read_photo(before).pixels, read_photo(after).pixels
    found = align(first, second)
    left, right = pair(first, second, found)
    gap = np.full((left.shape[0], max(2, round(GAP_SHARE * left.shape[1])), 3), 255, dtype=np.uint8)
    return Comparison(
        found.told,
        derived_jpeg(np.concatenate([left, gap, right], axis=1), max_px=3200),
        derived_jpeg(blend(left, right)),
        derived_jpeg(difference(left, right)),
    )
