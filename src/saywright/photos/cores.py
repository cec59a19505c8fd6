"""How many cores the picture library may use."""

from __future__ import annotations

import cv2


def one_core() -> None:
    """Let OpenCV start no threads of its own in this process: its neighbours have the other cores."""
    cv2.setNumThreads(1)
