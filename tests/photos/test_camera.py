"""A camera on the bench: the sharpest of a few frames, from a stand-in and from a video file."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType
from typing import Any

import cv2
import numpy as np
import pytest

from saywright.errors import DeviceError
from saywright.photos.camera import STALE, Camera


class Reel:
    """Gives the frames it was given, in order."""

    def __init__(self, *frames: np.ndarray) -> None:
        self.frames = list(frames)
        self.released = False

    def isOpened(self) -> bool:  # noqa: N802
        """Always."""
        return True

    def read(self) -> tuple[bool, Any]:
        """The next frame, as OpenCV has it: blue first."""
        return (True, self.frames.pop(0)[..., ::-1]) if self.frames else (False, None)

    def release(self) -> None:
        """Note it."""
        self.released = True


def test_the_sharpest_of_fresh_frames(faults: ModuleType) -> None:
    """What the driver held is thrown away; of the next five the sharp one is kept, colours right."""
    sharp = faults.shipped("coffee", (320, 240))
    old = [faults.shipped("coins", (320, 240))] * STALE
    reel = Reel(*old, faults.soft(sharp, 3), faults.soft(sharp, 1), sharp, faults.soft(sharp, 2), sharp // 2)
    with Camera(0, capture=reel) as camera:
        assert np.array_equal(sharp, camera.shoot())
    assert reel.released


def test_a_video_file_gives_its_sharpest(faults: ModuleType, tmp_path: Path) -> None:
    """A recording of a microscope goes through OpenCV's own reader."""
    sharp = faults.shipped("coins", (320, 240))
    path = tmp_path / "scope.avi"
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"MJPG"), 5.0, (320, 240))
    for sigma_px in (4, 2, 0, 3):
        writer.write(faults.soft(sharp, sigma_px)[..., ::-1])
    writer.release()
    with Camera(str(path)) as camera:
        shot = camera.shoot()
    assert 6 > np.abs(shot.astype(int) - sharp).mean()


def test_a_camera_that_gives_nothing(tmp_path: Path) -> None:
    """One line for no camera, and for one that was pulled out."""
    with pytest.raises(DeviceError, match="no such camera"):
        Camera(str(tmp_path / "none.avi"))
    with Camera(0, capture=Reel()) as camera, pytest.raises(DeviceError, match="gives no picture"):
        camera.shoot()
