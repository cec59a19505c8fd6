"""`photos watch`, `photos shoot`, `photos calibrate`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
import pytest
from PIL import Image
from skimage import data

from saywright.photos.card import picture


@pytest.fixture
def job(saywright: Callable) -> str:
    """A job with nothing in it."""
    ran = saywright("jobs", "new", "--sheet", "outboard-float-carburetor")
    assert 0 == ran.code, ran.err
    return str(ran.out.split()[0])


def test_a_folder_once(saywright: Callable, job: str, tmp_path: Path) -> None:
    """What is there is taken in and told with its faults; a file that is none is told and fails."""
    folder = tmp_path / "card" / "DCIM"
    folder.mkdir(parents=True)
    Image.fromarray(data.coffee()).save(folder / "good.jpg", quality=95)
    blurred = cv2.GaussianBlur(data.coffee(), (0, 0), 6)
    Image.fromarray(blurred).save(folder / "soft.jpg", quality=95)
    ran = saywright("photos", "watch", job, tmp_path / "card", "--once")
    assert 0 == ran.code
    assert "good.jpg: no part yet: good; without the marker card" in ran.err
    assert "soft.jpg: no part yet: the picture is not sharp: shoot it again" in ran.err
    (folder / "bad.jpg").write_text("no picture")
    ran = saywright("photos", "watch", job, tmp_path / "card", "--once")
    assert 0 != ran.code
    assert "bad.jpg" in ran.err


def test_a_shot(saywright: Callable, job: str, tmp_path: Path) -> None:
    """A video file stands for the camera; one that is not there is one line."""
    path = tmp_path / "scope.avi"
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"MJPG"), 5.0, (600, 400))
    for _ in range(3):
        writer.write(data.coffee()[..., ::-1])
    writer.release()
    ran = saywright("photos", "shoot", job, "--camera", path, "--by", "Ada")
    assert 0 == ran.code, ran.err
    assert "shot-" in ran.err
    ran = saywright("photos", "shoot", job, "--camera", tmp_path / "none.avi", "--by", "Ada")
    assert 0 != ran.code
    assert "no such camera" in ran.err


def test_a_profile_needs_views(saywright: Callable, tmp_path: Path) -> None:
    """One picture of the card is too few, and no file is written."""
    path = tmp_path / "card.png"
    Image.fromarray(np.repeat(picture(8.0)[..., None], 3, axis=2)).save(path)
    ran = saywright("photos", "calibrate", path, "--out", tmp_path / "lens.json")
    assert 0 != ran.code
    assert "fewer than 5" in ran.err
    assert not (tmp_path / "lens.json").exists()
    ran = saywright("photos", "measure", "distance", path, "1,1", "90,1", "--lens", tmp_path / "lens.json")
    assert "lens profile cannot be read" in ran.err
