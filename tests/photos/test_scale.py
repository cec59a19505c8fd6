"""Millimetres per pixel on rendered pictures with known millimetres."""

from __future__ import annotations

import math
from types import ModuleType

import cv2
import numpy as np
import pytest

from saywright.errors import InputError
from saywright.photos.card import picture
from saywright.photos.scale import POINTING_PX, Print, _fitted, _mapped, card_scale, two_point_scale

ENDS_MM = (((30.0, 40.0), (80.0, 46.0)), ((25.0, 60.0), (85.0, 30.0)), ((56.0, 22.0), (56.0, 66.0)))


def seen(forward: np.ndarray, place_mm: tuple[float, float]) -> tuple[float, float]:
    """Where a place of the card lies in the picture."""
    x, y, w = forward @ np.array([*place_mm, 1.0])
    return float(x / w), float(y / w)


@pytest.mark.parametrize("tilt_deg", [0, 10, 20, 30])
def test_lengths_are_true_whatever_the_tilt(scenes: ModuleType, tilt_deg: float) -> None:
    """Three lengths in the window come out within 0.1 % and within three of the fit's own uncertainties."""
    pixels, forward = scenes.scene((), scenes.View(px_per_mm=8, tilt_deg=tilt_deg, seed=tilt_deg))
    scale = card_scale(pixels, Print())
    for start_mm, end_mm in ENDS_MM:
        ends = np.array([seen(forward, start_mm), seen(forward, end_mm)])
        start_px, end_px = (tuple(map(float, end)) for end in ends)
        true_mm = math.dist(start_mm, end_mm)
        found_mm = float(np.linalg.norm(np.diff(scale.mm(ends), axis=0)))
        assert pytest.approx(true_mm, rel=1e-3) == found_mm
        assert abs(found_mm - true_mm) < max(3 * scale.fit_u_mm(start_px, end_px), 0.01)
        u_mm = scale.u_mm(start_px, end_px, point_px=POINTING_PX)
        assert u_mm > scale.fit_u_mm(start_px, end_px)
    assert 42 == scale.corners


def test_there_and_back(scenes: ModuleType) -> None:
    """Millimetres of pixels of millimetres are the same millimetres."""
    pixels, _ = scenes.scene((), scenes.View(px_per_mm=6, tilt_deg=20))
    scale = card_scale(pixels, Print())
    places = np.array([[10.0, 20.0], [100.0, 70.0]])
    assert pytest.approx(places.ravel(), abs=1e-9) == scale.mm(scale.px(places)).ravel()


def test_the_measured_print_counts() -> None:
    """A card printed at 97 % is told by its crosses: the same pixels are then 3 % fewer millimetres."""
    pixels = np.repeat(picture(10.0)[..., None], 3, axis=2)
    whole = card_scale(pixels, Print()).mm_per_px((500.0, 400.0))
    small = card_scale(pixels, Print(across_mm=106.7, down_mm=106.7)).mm_per_px((500.0, 400.0))
    assert pytest.approx(0.1, rel=1e-3) == whole
    assert pytest.approx(0.97, rel=1e-6) == small / whole


def test_an_unchecked_print_is_refused() -> None:
    """Without the distances between the crosses there is no scale."""
    with pytest.raises(InputError, match="the print of the marker card was not checked"):
        card_scale(np.repeat(picture(10.0)[..., None], 3, axis=2), None)


def test_a_slip_of_the_caliper_is_refused() -> None:
    """A distance between the crosses that no printer makes is no measurement."""
    with pytest.raises(InputError, match="11 mm between the crosses cannot be"):
        card_scale(np.repeat(picture(10.0)[..., None], 3, axis=2), Print(across_mm=11.0))


def test_no_card_no_scale() -> None:
    """A picture without the card says so."""
    with pytest.raises(InputError, match=r"not seen whole \(0 of 42 corners\)"):
        card_scale(np.full((600, 800, 3), 120, dtype=np.uint8), Print())


def test_a_bent_card_is_refused() -> None:
    """Corners that lie on no plane give no scale."""
    flat = picture(8.0)
    rows, columns = np.mgrid[0 : flat.shape[0], 0 : flat.shape[1]].astype(np.float32)
    bent = rows + 14 * np.sin(columns / flat.shape[1] * 2 * np.pi).astype(np.float32)
    pixels = cv2.remap(flat, columns, bent, cv2.INTER_LINEAR, borderValue=255)
    with pytest.raises(InputError, match="does not lie flat"):
        card_scale(np.repeat(pixels[..., None], 3, axis=2), Print())


def test_two_points() -> None:
    """100 pixels that are 25 mm: 0.25 mm a pixel, with the tilt that two points cannot show in its doubt."""
    scale = two_point_scale((100.0, 50.0), (200.0, 50.0), 25.0, u_mm=0.02)
    assert pytest.approx(0.25) == scale.mm_per_px((10.0, 10.0))
    expected = math.hypot(0.02 / 25, math.sqrt(2) * 0.5 / 100, 0.015 / math.sqrt(3))  # JCGM 100, 5.1.2
    assert pytest.approx(expected) == scale.relative_u


@pytest.mark.parametrize(
    ("end_px", "known_mm", "told"),
    [((110.0, 50.0), 5.0, "too near for a scale"), ((300.0, 50.0), 0.0, "0 mm is no distance")],
)
def test_two_points_that_give_no_scale(end_px: tuple[float, float], known_mm: float, told: str) -> None:
    """Points that nearly coincide, and a distance of nothing, are refused."""
    with pytest.raises(InputError, match=told):
        two_point_scale((100.0, 50.0), end_px, known_mm, u_mm=0.02)


@pytest.mark.parametrize("count", [12, 42, 303])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_homography_as_the_accuracy_test_of_opencv(count: int, seed: int) -> None:
    """Points in a square of 100, turned and moved: 0.01 off at most; with noise of 0.01, 0.02 beyond it.

    The truth and the bounds are those of Calib3d_Homography.accuracy, OpenCV's own test
    (modules/calib3d/test/test_homography.cpp); the code is ours and fits the card.
    """
    rng = np.random.default_rng(seed)
    points = rng.uniform(0, 100, (count, 2))
    turn, (across, down) = rng.uniform(0, 2 * math.pi), rng.uniform(0, 10, 2)
    c, s = math.cos(turn), math.sin(turn)
    truth = np.array([[c, -s, across], [s, c, down], [0, 0, 1]])
    there = points @ truth[:2, :2].T + truth[:2, 2]
    exact, _, rms_px, used = _fitted(points, there)
    assert count == used
    assert np.linalg.norm(exact - truth) <= 1e-2
    assert rms_px < 1e-6
    noise = rng.normal(0, 0.01, there.shape)
    found, _, _, used = _fitted(points, there + noise)
    assert count == used
    off = np.linalg.norm(_mapped(found, points) - there, axis=1)
    assert (off - np.linalg.norm(noise, axis=1)).max() <= 2e-2
