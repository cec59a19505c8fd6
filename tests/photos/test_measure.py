"""Distance, circle and angle against rendered truth."""

from __future__ import annotations

import math
from types import ModuleType

import numpy as np
import pytest

from saywright.errors import InputError
from saywright.photos.measure import angle, circle, distance
from saywright.photos.scale import Print, card_scale, two_point_scale

BORES = ((36.0, 34.0, 2.0), (58.0, 46.0, 3.0), (78.0, 58.0, 6.0))  # x, y, diameter, mm


def drawn(shape: tuple[int, int], middle: tuple[float, float], radius_px: float) -> np.ndarray:
    """A dark disc on grey, its edge shaded by how much of a pixel it covers."""
    rows, columns = np.mgrid[0 : shape[0], 0 : shape[1]]
    cover = np.clip(radius_px - np.hypot(columns - middle[0], rows - middle[1]) + 0.5, 0, 1)
    grey = np.round(180 - 140 * cover).astype(np.uint8)
    return np.repeat(grey[..., None], 3, axis=2)


@pytest.mark.parametrize("tilt_deg", [0, 15, 30])
def test_a_bore_is_within_one_per_cent(scenes: ModuleType, tilt_deg: float) -> None:
    """At 20 pixels a millimetre bores of 2, 3 and 6 mm come out within 1 %, and within 2 u."""
    bores = tuple(scenes.Bore(x, y, d, 2 * d) for x, y, d in BORES)
    pixels, forward = scenes.scene(bores, scenes.View(tilt_deg=tilt_deg, subsamples=2, seed=tilt_deg))
    scale = card_scale(pixels, Print())
    for x_mm, y_mm, diameter_mm in BORES:
        x, y, w = forward @ np.array([x_mm, y_mm, 1.0])
        found = circle(pixels, scale, (x / w + 3, y / w - 2), 0.58 * diameter_mm * 20)
        assert pytest.approx(diameter_mm, rel=0.01) == found.value
        assert abs(found.value - diameter_mm) < 2 * found.u
        assert 0.95 < found.share


def test_a_drawn_disc() -> None:
    """A disc of radius 40.3 pixels, 0.1 mm each: 8.06 mm, within a fiftieth of a pixel."""
    scale = two_point_scale((0.0, 0.0), (100.0, 0.0), 10.0, u_mm=0.0)
    found = circle(drawn((160, 180), (88.4, 79.7), 40.3), scale, (90.0, 78.0), 44.0)
    assert pytest.approx(8.06, abs=0.002) == found.value


def test_a_broken_rim_still_measures() -> None:
    """A burr over a quarter of the rim does not pull the circle."""
    pixels = drawn((160, 180), (90.0, 80.0), 40.0)
    pixels[80:160, 90:180][np.hypot(*np.mgrid[0:80, 0:90]) < 47] = 40
    scale = two_point_scale((0.0, 0.0), (100.0, 0.0), 10.0, u_mm=0.0)
    found = circle(pixels, scale, (91.0, 79.0), 42.0)
    assert pytest.approx(8.0, abs=0.02) == found.value
    assert 0.6 < found.share < 0.85


def test_no_circle_is_refused() -> None:
    """Noise, and a straight edge, give no diameter."""
    scale = two_point_scale((0.0, 0.0), (100.0, 0.0), 10.0, u_mm=0.0)
    noise = np.random.default_rng(3).integers(90, 140, (200, 200, 3)).astype(np.uint8)
    edge = np.full((200, 200, 3), 60, dtype=np.uint8)
    edge[:, 110:] = 200
    for pixels in (noise, noise[::-1], edge, np.full((200, 200, 3), 90, dtype=np.uint8)):
        with pytest.raises(InputError, match="no circle goes around this place"):
            circle(pixels, scale, (100.0, 100.0), 40.0)


def test_too_small_a_circle_is_refused() -> None:
    """Five pixels across are no diameter."""
    scale = two_point_scale((0.0, 0.0), (100.0, 0.0), 10.0, u_mm=0.0)
    with pytest.raises(InputError, match="5 pixels is too small"):
        circle(drawn((60, 60), (30.0, 30.0), 2.5), scale, (30.0, 30.0), 2.5)


def test_distance_and_its_uncertainty() -> None:
    """60 by 80 pixels at 0.1 mm: 10 mm; pointing, known distance and unseen tilt add as squares."""
    scale = two_point_scale((0.0, 0.0), (0.0, 200.0), 20.0, u_mm=0.01)
    found = distance(scale, (10.0, 10.0), (70.0, 90.0))
    assert pytest.approx(10.0) == found.value
    relative = math.hypot(0.01 / 20, math.sqrt(2) * 0.5 / 200, 0.015 / math.sqrt(3))
    assert pytest.approx(math.hypot(math.sqrt(2) * 0.5 * 0.1, relative * 10)) == found.u


def test_angle(scenes: ModuleType) -> None:
    """A right angle of the card seen at 25 degrees of tilt is a right angle."""
    pixels, forward = scenes.scene((), scenes.View(px_per_mm=8, tilt_deg=25))
    scale = card_scale(pixels, Print())
    places = [(80.0, 40.0), (40.0, 40.0), (40.0, 64.0)]
    shown = [tuple((forward @ [*p, 1])[:2] / (forward @ [*p, 1])[2]) for p in places]
    found = angle(scale, *shown)
    assert pytest.approx(90.0, abs=0.1) == found.value
    assert 0.1 < found.u < 0.5


def test_no_scale_no_lengths() -> None:
    """Without a scale every length is refused in one line that says what to do."""
    told = "no scale, so it gives no lengths. Lay the marker card"
    pixels = drawn((160, 180), (90.0, 80.0), 40.0)
    with pytest.raises(InputError, match=told):
        distance(None, (0.0, 0.0), (50.0, 50.0))
    with pytest.raises(InputError, match=told):
        circle(pixels, None, (90.0, 80.0), 40.0)
    with pytest.raises(InputError, match=told):
        angle(None, (0.0, 0.0), (50.0, 50.0), (90.0, 0.0))
