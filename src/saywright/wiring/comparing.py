"""Before and after: two pictures of one part laid over each other."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.align import align, blend, difference, pair
from saywright.photos.intake import read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.record.types import Record
from saywright.report.pairs import Pair, to_compare
from saywright.wiring.log import JobLog
from saywright.wiring.measuring import picture_of

Pixels = npt.NDArray[np.uint8]

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
    return compared(read_photo(before).pixels, read_photo(after).pixels)


def compared(first: Pixels, second: Pixels) -> Comparison:
    """Two pictures, (height, width, 3) uint8; InputError where they cannot be laid over each other."""
    found = align(first, second)
    left, right, seen = pair(first, second, found)
    gap = np.full((left.shape[0], max(2, round(GAP_SHARE * left.shape[1])), 3), 255, dtype=np.uint8)
    return Comparison(
        found.told,
        derived_jpeg(np.concatenate([left, gap, right], axis=1), max_px=3200),
        derived_jpeg(blend(left, right)),
        derived_jpeg(difference(left, right, seen)),
    )


def compare_photos(log: JobLog, before: str, after: str) -> Comparison:
    """Two pictures of the job; InputError where they cannot be laid over each other."""
    log.refresh()
    first, second = (
        read_photo(log.media.read(added.sha256), name=added.name).pixels
        for added in (picture_of(log, before), picture_of(log, after))
    )
    return compared(first, second)


def pairs(log: JobLog, record: Record) -> list[tuple[Pair, bytes]]:
    """Pictures before and after that fit, each with the JPEG that shows both; the others are left out."""
    found: list[tuple[Pair, bytes]] = []
    for before, after in to_compare(record):
        pixels = [
            read_photo(log.media.read(photo.sha256), name=photo.name or photo.id).pixels
            for photo in (before, after)
            if photo.sha256 is not None
        ]
        try:
            both = compared(pixels[0], pixels[1])
        except InputError:
            continue  # both are in the report by themselves
        name = hashlib.sha256(both.pair_jpeg).hexdigest()
        found.append((Pair(before, after, name, both.told), both.pair_jpeg))
    return found
