"""The marker card: a millimetre on the page is a millimetre, and another program draws it the same."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import cv2
import numpy as np
import pytest
from PIL import Image

from saywright.photos import card
from saywright.photos.scale import Print, card_scale

MM_PER_POINT = 25.4 / 72  # ISO 32000: a unit of default user space is 1/72 inch


def test_rectangles_are_millimetres() -> None:
    """Each black rectangle of the PDF has the size of a square or a run of marker modules."""
    sizes = re.findall(rb"^[\d.]+ [\d.]+ ([\d.]+) ([\d.]+) re f$", card.card_pdf(), re.MULTILINE)
    widths = np.array([float(width) for width, _ in sizes]) * MM_PER_POINT
    heights = np.array([float(height) for _, height in sizes]) * MM_PER_POINT
    assert len(list(card.black_mm())) == len(sizes)
    assert pytest.approx(np.round(widths), abs=1e-4) == widths
    assert {1.0, 8.0} == set(np.round(heights, 4))


def test_crosses_are_as_far_apart_as_said() -> None:
    """The two lines through each upper cross lie 110 mm apart, as the page says."""
    left, right, below = card.CROSSES_MM
    assert (card.ACROSS_MM, 0.0) == (right[0] - left[0], right[1] - left[1])
    assert (0.0, card.DOWN_MM) == (below[0] - left[0], below[1] - left[1])
    page = card.card_pdf()
    assert b"upper crosses 110.00 mm apart" in page
    assert b"/PrintScaling /None" in page


def test_frame_is_the_boards() -> None:
    """OpenCV finds its own board in the frame: each corner that has four printed squares, at its place."""
    corners, numbers, _, _ = cv2.aruco.CharucoDetector(card.board()).detectBoard(card.picture(10.0))
    found = dict(zip(numbers.ravel().tolist(), corners.reshape(-1, 2), strict=True))
    known = card.corners_mm()
    assert 42 == len(known)
    assert set(known) <= set(found)
    for number, (x_mm, y_mm) in known.items():
        # 4 mm of white around; a pixel's middle has whole numbers
        assert pytest.approx((10 * (x_mm + 4) - 0.5, 10 * (y_mm + 4) - 0.5), abs=0.15) == tuple(found[number])


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs pdftoppm: install poppler-utils")
def test_the_page_as_another_program_draws_it(tmp_path: Path) -> None:
    """Poppler's raster of the page at 254 dots an inch has 0.1 mm a pixel, within 0.05 %."""
    (tmp_path / "card.pdf").write_bytes(card.card_pdf())
    subprocess.run(
        ["pdftoppm", "-r", "254", "-png", "-singlefile", "card.pdf", "card"], cwd=tmp_path, check=True
    )
    pixels = np.array(Image.open(tmp_path / "card.png").convert("RGB"))
    assert pytest.approx((2970, 2100), abs=1) == pixels.shape[:2]
    scale = card_scale(pixels, Print())
    assert 42 == scale.corners
    assert pytest.approx(0.1, rel=5e-4) == scale.mm_per_px((1050.0, 1000.0))
