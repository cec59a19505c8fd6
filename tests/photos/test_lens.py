"""A lens with known distortion: found from pictures of the card, and taken out of lengths."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import cv2
import numpy as np
import pytest
from PIL import Image

from saywright.errors import InputError
from saywright.photos.lens import Lens, calibrated
from saywright.wiring.lenses import load_lens, save_lens
from saywright.wiring.measuring import ScaleBy, Shown, measured

PX_PER_MM = 8.0
BENDS = np.array([-0.18, 0.05, 0.001, -0.001, 0.0])  # a wide phone lens, more than it leaves in its pictures


def bent(pixels: np.ndarray, focal_px: float) -> np.ndarray:
    """*pixels* as a lens with BENDS would show them."""
    height, width = pixels.shape[:2]
    matrix = np.array([[focal_px, 0, width / 2], [0, focal_px, height / 2], [0, 0, 1]])
    y, x = np.mgrid[0:height, 0:width].astype(np.float64)
    places = np.column_stack([x.ravel(), y.ravel()]).reshape(-1, 1, 2)
    straight = cv2.undistortPoints(places, matrix, BENDS, P=matrix).reshape(height, width, 2)
    return cv2.remap(pixels, straight.astype(np.float32), None, cv2.INTER_CUBIC, borderValue=(225, 225, 225))


@pytest.fixture(scope="module")
def views(scenes: ModuleType) -> list[np.ndarray]:
    """Six pictures of the card from different sides, a bore of 6 mm near its corner, bent."""
    made = []
    for number, (tilt, axis) in enumerate([(0, 0), (22, 0), (22, 70), (22, 140), (25, 220), (25, 300)]):
        view = scenes.View(
            px_per_mm=PX_PER_MM, tilt_deg=tilt, tilt_axis_deg=axis, seed=number, subsamples=2, noise=1.0
        )
        pixels, _ = scenes.scene((scenes.Bore(26.0, 25.0, 6.0, 12.0),), view)
        made.append(bent(pixels, 0.8 * 4000 * PX_PER_MM / 20))
    return made


@pytest.fixture(scope="module")
def lens(views: list[np.ndarray]) -> Lens:
    """The lens as found."""
    return calibrated(views)


def test_the_distortion_is_found(lens: Lens) -> None:
    """Places that the true lens moves by up to 50 pixels are put within one of where they belong."""
    width, height, focal_px = lens.width_px, lens.height_px, 0.8 * 4000 * PX_PER_MM / 20
    matrix = np.array([[focal_px, 0, width / 2], [0, focal_px, height / 2], [0, 0, 1]])
    places = np.array(
        [[0.2 * width, 0.2 * height], [0.8 * width, 0.25 * height], [0.5 * width, 0.85 * height]]
    )
    truth = cv2.undistortPoints(places.reshape(-1, 1, 2), matrix, BENDS, P=matrix).reshape(-1, 2)
    found = lens.straight_places(places, (height, width))
    assert np.abs(truth - places).max() > 5
    assert np.abs((found - truth) - (found - truth).mean(axis=0)).max() < 1.0
    assert 1.0 > lens.rms_px
    assert 6 == lens.views


def test_there_and_back(lens: Lens) -> None:
    """Straightened places come back to where they were."""
    places = np.array([[100.0, 120.0], [600.0, 500.0], [1000.0, 800.0]])
    size = (lens.height_px, lens.width_px)
    assert pytest.approx(places, abs=0.05) == lens.bent_places(lens.straight_places(places, size), size)


def test_lengths_are_truer_with_it(views: list[np.ndarray], lens: Lens) -> None:
    """The card's frame is refused or the bore is off without the profile; with it it is within 1 %."""
    pixels = views[0]
    size = pixels.shape
    plain = ScaleBy(across_mm=110.0, down_mm=110.0)
    middle = _middle_of_bore(pixels)
    shown = Shown("circle", (middle, (middle[0] + 24.0, middle[1])), ScaleBy(110.0, 110.0, lens=lens))
    found = measured(pixels, shown)
    assert pytest.approx(6.0, rel=0.01) == found.value
    assert all(0 <= x < size[1] and 0 <= y < size[0] for x, y in found.points_px)
    try:
        without = measured(pixels, Shown("circle", shown.places, plain)).value
    except InputError:
        return
    assert abs(found.value - 6.0) < abs(without - 6.0)


def _middle_of_bore(pixels: np.ndarray) -> tuple[float, float]:
    """The dark disc in its light grey face, by its own shade."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    face = ((grey > 150) & (grey < 190)).astype(np.uint8)
    face = cv2.morphologyEx(face, cv2.MORPH_OPEN, np.ones((9, 9), np.uint8))
    rows, columns = np.nonzero(face)
    return float(columns.mean()), float(rows.mean())


def test_kept_and_read_again(lens: Lens, tmp_path: Path) -> None:
    """The file gives the same profile; what is none says so."""
    path = tmp_path / "phone.json"
    save_lens(path, lens)
    assert lens == load_lens(path)
    for text in ("{}", "no json", '{"schema": "saywright.lens/1", "matrix": [1]}'):
        path.write_text(text, encoding="utf-8")
        with pytest.raises(InputError, match="lens profile"):
            load_lens(path)


def test_what_does_not_do(views: list[np.ndarray], lens: Lens) -> None:
    """Too few pictures, all from one side, other sizes, another shape of picture."""
    with pytest.raises(InputError, match="fewer than 5"):
        calibrated(views[:4])
    with pytest.raises(InputError, match="from one side"):
        calibrated([views[0]] * 6)
    smaller = np.asarray(Image.fromarray(views[0]).resize((400, 300)))
    with pytest.raises(InputError, match="different sizes"):
        calibrated([*views, smaller])
    with pytest.raises(InputError, match="lens profile is for"):
        lens.straight(np.zeros((300, 300, 3), np.uint8))
