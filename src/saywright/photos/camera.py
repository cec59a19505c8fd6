"""A USB camera or microscope → one sharp picture, when asked. Nothing else opens a camera.

A camera keeps frames in a buffer, so the first ones read may show what was there before; they are thrown
away. Of the frames that follow the sharpest is kept, since a hand shakes and a lens hunts for focus.
"""

from __future__ import annotations

from types import TracebackType
from typing import Any, Protocol

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import DeviceError
from saywright.photos.checks import sharpness

Pixels = npt.NDArray[np.uint8]

STALE = 4  # frames that a driver may hold from before
FRAMES = 5  # of which the sharpest is kept
WIDEST_PX = 10_000  # asked for; a driver gives its largest


class Capture(Protocol):
    """What is needed of cv2.VideoCapture."""

    def isOpened(self) -> bool:  # noqa: N802
        """True where it gives frames."""
        ...

    def read(self) -> tuple[bool, Any]:
        """Whether there was a frame, and the frame, (height, width, 3) uint8 BGR."""
        ...

    def release(self) -> None:
        """Give it back."""
        ...


class Camera:
    """A camera that is open. Use it in a `with`."""

    def __init__(self, source: int | str, *, capture: Capture | None = None) -> None:
        """*source* is the camera's number, or a video file; DeviceError where it gives no picture."""
        self.name = f"camera {source}" if isinstance(source, int) else str(source)
        self._live = isinstance(source, int)
        self._capture = capture if capture is not None else _opened(source)
        if not self._capture.isOpened():
            self._capture.release()
            raise DeviceError("there is no such camera", where=self.name, to_do="Plug it in, or name another")

    def __enter__(self) -> Camera:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Give the camera back."""
        self._capture.release()

    def shoot(self, frames: int = FRAMES) -> Pixels:
        """The sharpest of the next *frames*, (height, width, 3) uint8 RGB; DeviceError where none comes."""
        for _ in range(STALE if self._live else 0):
            self._capture.read()
        best, best_score = None, -1.0
        for _ in range(frames):
            there, frame = self._capture.read()
            if not there or frame is None:
                break
            pixels = np.asarray(cv2.cvtColor(np.asarray(frame, dtype=np.uint8), cv2.COLOR_BGR2RGB), np.uint8)
            score = sharpness(pixels) or 0.0
            if score > best_score:
                best, best_score = pixels, score
        if best is None:
            raise DeviceError("the camera gives no picture", where=self.name, to_do="Plug it in again")
        return best


def _opened(source: int | str) -> Capture:
    # That there is no such camera is told by us, in one line.
    cv2.utils.logging.setLogLevel(cv2.utils.logging.LOG_LEVEL_ERROR)
    capture = cv2.VideoCapture(source)
    if isinstance(source, int):
        # The driver takes the nearest it has; without this many give 640 × 480.
        capture.set(cv2.CAP_PROP_FRAME_WIDTH, WIDEST_PX)
        capture.set(cv2.CAP_PROP_FRAME_HEIGHT, WIDEST_PX)
    return capture
