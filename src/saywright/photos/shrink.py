"""A picture made smaller."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]


def shrunk(pixels: Pixels, max_px: int) -> Pixels:
    """*pixels*, its longer side at most *max_px*."""
    height_px, width_px = pixels.shape[:2]
    scale = max_px / max(height_px, width_px)
    if scale >= 1:
        return pixels
    size = (max(1, round(width_px * scale)), max(1, round(height_px * scale)))
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)
