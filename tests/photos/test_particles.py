"""Sizes of particles against scikit-image, against drawn truth and against the classes of the standard."""

from __future__ import annotations

import math

import cv2
import numpy as np
import pytest
from skimage import data, filters, measure, morphology, segmentation

from saywright.photos.particles import form, shape, shapes, size_class


def coins_mask() -> np.ndarray:
    """The shipped coins: Otsu, closing 3 × 3, what touches the border left out."""
    coins = data.coins()
    closed = morphology.closing(coins > filters.threshold_otsu(coins), morphology.footprint_rectangle((3, 3)))
    return segmentation.clear_border(closed)


def test_coins_as_scikit_image_measures_them() -> None:
    """22 regions of 100 pixels and more; same boxes and areas, Feret diameters within a pixel.

    scikit-image 0.26.0: maximum Feret diameters 40.249 to 66.098 pixels. It draws its contour around the
    pixels of the convex hull, which lie up to half a pixel farther out on each side.
    """
    mask = coins_mask()
    regions = [r for r in measure.regionprops(measure.label(mask, connectivity=2)) if r.area >= 100]
    found = [one for one in shapes(mask) if one.area_px >= 100]
    expected = sorted((*r.bbox[:2], int(r.area), r.feret_diameter_max) for r in regions)
    ours = sorted((one.top, one.left, one.area_px, one.feret_max_px) for one in found)
    assert 22 == len(ours)
    assert [row[:3] for row in expected] == [row[:3] for row in ours]
    assert pytest.approx([row[3] for row in expected], abs=1.0) == [row[3] for row in ours]
    assert pytest.approx((40.249, 66.098), abs=1.0) == (min(r[3] for r in ours), max(r[3] for r in ours))


@pytest.mark.parametrize(
    ("drawn", "feret_max", "tolerance"),
    [
        (np.ones((16, 16)), math.hypot(16, 15), 1e-6),  # scikit-image's own test
        (np.ones((10, 10)), 13.453624, 1e-5),
        (np.ones((3, 30)), 30.066593, 1e-5),
        (np.ones((1, 50)), 50.0, 1e-6),
        (morphology.disk(20), 41.436699, 0.5),  # the hull's pixels, see above
    ],
)
def test_maximum_feret_of_drawn_shapes(drawn: np.ndarray, feret_max: float, tolerance: float) -> None:
    """As scikit-image 0.26.0 gives them."""
    assert pytest.approx(feret_max, abs=tolerance) == shape(drawn > 0).feret_max_px


def test_minimum_feret() -> None:
    """The least width of a bar is its width, however it lies; that of a disc its diameter."""
    assert pytest.approx(3.0) == shape(np.ones((3, 30), dtype=bool)).feret_min_px
    rows, columns = np.mgrid[0:200, 0:200] - 100
    for turn in (0.2, 0.7, 1.1):
        along = columns * math.cos(turn) + rows * math.sin(turn)
        aside = rows * math.cos(turn) - columns * math.sin(turn)
        bar = shape((np.abs(along) < 80) & (np.abs(aside) < 10))
        assert pytest.approx(20.0, abs=1.2) == bar.feret_min_px
    assert pytest.approx(41.0, abs=1.0) == shape(morphology.disk(20) > 0).feret_min_px


@pytest.mark.parametrize(("width", "height"), [(1, 40), (2, 40), (3, 40), (9, 30), (20, 20)])
def test_inscribed_circle_of_a_bar(width: int, height: int) -> None:
    """As wide as the bar, within half a pixel."""
    assert pytest.approx(width, abs=0.5) == shape(np.ones((height, width), dtype=bool)).inscribed_px


@pytest.mark.parametrize("width", [1, 3, 5])
def test_stretched_length_of_an_arc(width: int) -> None:
    """Half a circle of radius 60 is 188.5 pixels long though its Feret diameter is 120; within 3 %."""
    plane = np.zeros((200, 200), dtype=np.uint8)
    cv2.ellipse(plane, (100, 100), (60, 60), 0, 0, 180, 255, width)
    found = shape(plane > 0)
    assert pytest.approx(math.pi * 60, rel=0.03) == found.stretched_px
    assert found.feret_max_px < 130


@pytest.mark.parametrize(
    ("feret_um", "letter"),
    list(
        zip(
            (4.9, 5, 14.9, 15, 25, 50, 99.9, 100, 150, 200, 400, 600, 999.9, 1000, 1500, 2000, 3000),
            (None, *"BBCDEEFGHIJJKLMN"),
            strict=True,
        )
    ),
)
def test_size_classes(feret_um: float, letter: str | None) -> None:
    """ISO 16232 and VDA 19.1, lower bound included; K to N as of 2018 from memory."""
    assert letter == size_class(feret_um)


@pytest.mark.parametrize(
    ("stretched_um", "inscribed_um", "resolved", "expected"),
    [
        (1000, 40, True, "fibre"),
        (800, 40, True, "compact"),  # exactly 20 is not more than 20
        (801, 40, True, "fibre"),
        (1100, 50, True, "fibre"),  # 50 µm is still a fibre's width
        (1200, 51, True, "compact"),
        (3000, 100, False, "fibre_wide"),
        (300, 100, False, "compact"),
    ],
)
def test_the_rule_of_fibres(stretched_um: float, inscribed_um: float, resolved: bool, expected: str) -> None:
    """VDA 19: stretched length over inscribed circle more than 20, inscribed circle at most 50 µm."""
    assert expected == form(stretched_um, inscribed_um, width_resolved=resolved)
