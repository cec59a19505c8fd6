"""What of a picture is looked at: the largest textured stretch about its middle, or a box that is given.

Texture is told after smoothing, so that what is out of focus has it as well as what is in focus: where the
part is must not depend on whether it is sharp.
"""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError

Box = tuple[float, float, float, float]  # left, top, width, height as shares of the picture's sides, 0…1

WHOLE: Box = (0.0, 0.0, 1.0, 1.0)
LEAST_TEXTURE = 4.0  # standard deviation within a tile after smoothing, of 255
_TILES_ACROSS = 24  # the shorter side
_SMOOTH_PX = 2.0  # sigma
_MIDDLE_SPREAD = 0.15  # of the picture's sides: how fast weight falls away from the middle
_KEPT = 0.96  # of the stretch's weight lies in the box, so that a thin arm does not widen it


def region(grey: npt.NDArray[Any], window: Box | None = None) -> Box:
    """The box about the largest textured stretch of *grey*, (height, width); the whole without any.

    Where a *window* is given, such as that of the marker card, what has texture in it comes first.
    """
    if window is not None and (inner := _stretch(cut_out(grey, window))) is not None:
        left, top, width, height = window
        return (left + inner[0] * width, top + inner[1] * height, inner[2] * width, inner[3] * height)
    return _stretch(grey) or WHOLE


def _stretch(grey: npt.NDArray[Any]) -> Box | None:
    tile_px = max(8, min(grey.shape) // _TILES_ACROSS)
    rows, columns = grey.shape[0] // tile_px, grey.shape[1] // tile_px
    if rows < 3 or columns < 3:
        return None
    smooth = cv2.GaussianBlur(np.asarray(grey, dtype=np.float32), (0, 0), _SMOOTH_PX)
    textured = (tile_spread(smooth, tile_px) > LEAST_TEXTURE).astype(np.uint8)
    count, labels = cv2.connectedComponents(textured, connectivity=8)
    if count < 2:
        return None
    weight = middle_weights(rows, columns)
    sums = np.bincount(np.asarray(labels).ravel(), weights=weight.ravel(), minlength=count)
    chosen = weight * (np.asarray(labels) == 1 + int(sums[1:].argmax()))
    top, bottom = _span(chosen.sum(axis=1))
    left, right = _span(chosen.sum(axis=0))
    wide, high = tile_px / grey.shape[1], tile_px / grey.shape[0]
    return (left * wide, top * high, (right - left) * wide, (bottom - top) * high)


def box_between(first: tuple[float, float], second: tuple[float, float]) -> Box:
    """The box with these two corners across from each other, each as shares of the sides."""
    (left, right), (top, bottom) = (sorted(side) for side in zip(first, second, strict=True))
    return (left, top, right - left, bottom - top)


def grown(box: Box, size: tuple[int, ...], least_px: int) -> Box:
    """*box* with sides of *least_px* at least, as far as a picture of *size* (rows, columns) reaches."""
    across, down = _grown(box[0], box[2], least_px / size[1]), _grown(box[1], box[3], least_px / size[0])
    return (across[0], down[0], across[1], down[1])


def _grown(start: float, length: float, least: float) -> tuple[float, float]:
    wide = min(1.0, max(length, least))
    return min(max(0.0, start + length / 2 - wide / 2), 1.0 - wide), wide


def tile_spread(plane: npt.NDArray[Any], tile_px: int) -> npt.NDArray[Any]:
    """Standard deviation in each tile, (rows, columns); what does not fill a tile is left out."""
    rows, columns = plane.shape[0] // tile_px, plane.shape[1] // tile_px
    cut = plane[: rows * tile_px, : columns * tile_px].reshape(rows, tile_px, columns, tile_px)
    return np.asarray(cut.std(axis=(1, 3)))


def middle_weights(rows: int, columns: int) -> npt.NDArray[np.float64]:
    """1 in the middle of a grid, less towards its rim, (rows, columns)."""
    y, x = np.mgrid[0:rows, 0:columns]
    distance = np.hypot((y + 0.5) / rows - 0.5, (x + 0.5) / columns - 0.5)
    return np.asarray(np.exp(-0.5 * (distance / _MIDDLE_SPREAD) ** 2), dtype=np.float64)


def cut_out(plane: npt.NDArray[Any], box: Box) -> npt.NDArray[Any]:
    """The part of *plane*, (height, width, …), within *box*; InputError for a box that is none."""
    left, top, width, height = box
    if not (0 <= left < 1 and 0 <= top < 1 and 0 < width <= 1.001 - left and 0 < height <= 1.001 - top):
        raise InputError(
            f"{left:g},{top:g},{width:g},{height:g} is no part of the picture",
            to_do="Give left, top, width and height as shares of its sides, 0 to 1",
        )
    rows, columns = plane.shape[:2]
    first, start = int(top * rows), int(left * columns)
    last = max(first + 1, min(rows, round((top + height) * rows)))
    end = max(start + 1, min(columns, round((left + width) * columns)))
    return plane[first:last, start:end]


def _span(weights: npt.NDArray[Any]) -> tuple[int, int]:
    """First and behind the last of the stretch that holds _KEPT of the weight."""
    reached = np.cumsum(weights) / weights.sum()
    first = int(np.searchsorted(reached, (1 - _KEPT) / 2))
    last = int(np.searchsorted(reached, (1 + _KEPT) / 2))
    return first, min(last, weights.size - 1) + 1
