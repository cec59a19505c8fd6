"""What a lens bends, from pictures of the marker card, and taken out again.

The camera matrix and the distortion of Brown (Photogrammetric Engineering 32(3), 1966: two radial and two
tangential numbers), fitted to the corners of the card in several pictures (Zhang, IEEE Trans. PAMI 22(11),
2000) as OpenCV does it. It holds for one camera at one zoom and focus; nothing in a picture tells whether
that is the one it was taken with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.card import corners_mm
from saywright.photos.scale import FEWEST_CORNERS, detected

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.floating[Any]]

FEWEST_VIEWS = 5
LARGEST_RMS_PX = 1.5
LEAST_TURN = 0.12  # spread of the card's outward direction over the views: all from one side tell nothing
_ASPECT_STRAY = 0.01


@dataclass(frozen=True, slots=True)
class Lens:
    """A lens profile."""

    width_px: int  # of the pictures it was made from
    height_px: int
    matrix: tuple[float, ...]  # camera matrix, nine numbers row by row, pixels
    distortion: tuple[float, ...]  # k1, k2, p1, p2, k3
    rms_px: float  # of the corners, after the fit
    views: int  # pictures used

    def straight(self, pixels: Pixels) -> Pixels:
        """*pixels*, (height, width, 3) uint8, as a lens without distortion would show them; same size."""
        matrix, bent = self._for(pixels.shape)
        return np.asarray(cv2.undistort(pixels, matrix, bent), dtype=np.uint8)

    def straight_places(self, places_px: Floats, size: tuple[int, ...]) -> Floats:
        """Places of a picture of this (height, width) in its straightened copy, (n, 2)."""
        matrix, bent = self._for(size)
        found = cv2.undistortPoints(places_px.reshape(-1, 1, 2).astype(np.float64), matrix, bent, P=matrix)
        return np.asarray(found, dtype=np.float64).reshape(-1, 2)

    def bent_places(self, places_px: Floats, size: tuple[int, ...]) -> Floats:
        """The way back: places of the straightened copy in the picture as taken, (n, 2)."""
        matrix, bent = self._for(size)
        lifted = np.column_stack([places_px, np.ones(len(places_px))]) @ np.linalg.inv(matrix).T
        found, _ = cv2.projectPoints(lifted.reshape(-1, 1, 3), np.zeros(3), np.zeros(3), matrix, bent)
        return np.asarray(found, dtype=np.float64).reshape(-1, 2)

    def _for(self, size: tuple[int, ...]) -> tuple[Floats, Floats]:
        """Matrix and distortion for pictures of this size; InputError for another shape of picture."""
        height_px, width_px = size[:2]
        if abs(width_px * self.height_px / (height_px * self.width_px) - 1) > _ASPECT_STRAY:
            raise InputError(
                f"the lens profile is for pictures of {self.width_px} × {self.height_px} pixels, "
                f"not {width_px} × {height_px}",
                to_do="Give the profile of this camera, or leave it out",
            )
        matrix = np.array(self.matrix, dtype=np.float64).reshape(3, 3)
        matrix[:2] *= width_px / self.width_px
        return matrix, np.array(self.distortion, dtype=np.float64)


def calibrated(pictures: Sequence[Pixels]) -> Lens:
    """The lens that took *pictures* of the card, all of one size, from different sides.

    InputError for too few, for pictures all from one side, and where the fit is poor.
    """
    sizes = {picture.shape[:2] for picture in pictures}
    if len(sizes) > 1:
        raise InputError("the pictures are of different sizes", to_do="Take all with one camera, one zoom")
    drawn = corners_mm()
    plane: list[npt.NDArray[np.float32]] = []
    seen: list[npt.NDArray[np.float32]] = []
    for picture in pictures:
        numbers, places = detected(np.asarray(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY), dtype=np.uint8))
        kept = [index for index, number in enumerate(numbers) if number in drawn]
        if len(kept) >= FEWEST_CORNERS:
            flat = [(*drawn[numbers[index]], 0.0) for index in kept]
            plane.append(np.array(flat, dtype=np.float32))
            seen.append(places[kept].astype(np.float32).reshape(-1, 1, 2))
    if len(seen) < FEWEST_VIEWS:
        raise InputError(
            f"the marker card is seen well in {len(seen)} pictures, fewer than {FEWEST_VIEWS}",
            to_do="Take more, the card filling the picture, from different sides and turned",
        )
    height_px, width_px = next(iter(sizes))
    rms_px, matrix, bent, turns, _ = cv2.calibrateCamera(
        plane, seen, (width_px, height_px), np.eye(3), np.zeros(5), flags=cv2.CALIB_FIX_K3
    )
    outward = np.array([np.asarray(cv2.Rodrigues(turn)[0])[:, 2] for turn in turns])
    if float(outward.std(axis=0).max()) < LEAST_TURN:
        raise InputError("all pictures are from one side", to_do="Lean the camera by 20 degrees each way")
    if rms_px > LARGEST_RMS_PX:
        what = f"the card's corners are {rms_px:.1f} pixels off after the fit"
        raise InputError(what, to_do="Lay the card flat, keep zoom and focus, take them again")
    numbers_of = tuple(float(value) for value in np.asarray(matrix).ravel())
    bends = tuple(float(value) for value in np.asarray(bent).ravel()[:5])
    return Lens(width_px, height_px, numbers_of, bends, float(rms_px), len(seen))
