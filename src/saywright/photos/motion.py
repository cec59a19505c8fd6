"""Was the camera moved: blur that has a direction.

The gradients of a fine and of a coarse scale, each as a structure tensor (Bigün and Granlund, ICCV 1987). A
moved camera takes fine detail away along its way and leaves it across; the scene's own direction is in both
tensors and falls out of their ratio. Its eigenvalues are the fine detail kept in the best and in the worst
direction; their directions need not be those of the picture's sides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

FINE_PX, COARSE_PX = 0.8, 3.0  # sigmas
EVEN = 0.84  # fine detail kept along the way, of that kept across, below which the camera moved …
KEPT = 1.4  # … where along the way no more is kept than this; a sharp page of print has a direction too


@dataclass(frozen=True, slots=True)
class Motion:
    """How fine detail is kept, by direction."""

    even: float  # 0…1, least over most
    kept: float  # fine over coarse gradient in the worst direction
    way_deg: float  # of the worst direction, 0…180, from the x axis down

    @property
    def moved(self) -> bool:
        """True where the camera was moved."""
        return self.even < EVEN and self.kept < KEPT


def motion(grey: npt.NDArray[Any]) -> Motion | None:
    """The motion seen in *grey*, (height, width); None where there is nothing to see it by."""
    plane = np.asarray(grey, dtype=np.float32)
    if min(plane.shape) < 32:
        return None
    fine, coarse = _tensor(plane, FINE_PX), _tensor(plane, COARSE_PX)
    if np.linalg.det(coarse) <= 1e-3:
        return None
    values, vectors = np.linalg.eig(np.linalg.solve(coarse, fine))
    values = np.maximum(values.real, 0.0)
    worst = int(values.argmin())
    if values.max() <= 0:
        return None
    along = vectors[:, worst].real
    way_deg = math.degrees(math.atan2(float(along[1]), float(along[0]))) % 180.0
    return Motion(math.sqrt(values[worst] / values.max()), math.sqrt(values[worst]), way_deg)


def _tensor(plane: npt.NDArray[np.float32], sigma_px: float) -> npt.NDArray[np.float64]:
    """Mean of the outer product of the gradient, (2, 2)."""
    smooth = cv2.GaussianBlur(plane, (0, 0), sigma_px)
    across = np.asarray(cv2.Sobel(smooth, cv2.CV_32F, 1, 0, ksize=3)) / 8
    down = np.asarray(cv2.Sobel(smooth, cv2.CV_32F, 0, 1, ksize=3)) / 8
    mixed = float((across * down).mean())
    return np.array([[float((across**2).mean()), mixed], [mixed, float((down**2).mean())]])
