"""`photos compare` on files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import cv2
from PIL import Image
from skimage import data


def test_pair_blend_and_difference(saywright: Callable, tmp_path: Path) -> None:
    """Three JPEGs, the pair twice as wide as the blend and a gap; the quality on one line."""
    Image.fromarray(data.coffee()).save(tmp_path / "before.png")
    turned = cv2.warpAffine(data.coffee(), cv2.getRotationMatrix2D((300, 200), 8, 0.95), (600, 400))
    Image.fromarray(turned).save(tmp_path / "after.png")
    ran = saywright("photos", "compare", "before.png", "after.png", "--out", "compared")
    assert 0 == ran.code, ran.err
    assert "features agree within" in ran.err
    sizes = {}
    for name in ("pair", "blend", "difference"):
        with Image.open(tmp_path / "compared" / f"{name}.jpg") as made:
            sizes[name] = made.size
    assert sizes["blend"] == sizes["difference"]
    assert (2 * sizes["blend"][0] + 12, sizes["blend"][1]) == sizes["pair"]


def test_what_does_not_fit_is_refused(saywright: Callable, tmp_path: Path) -> None:
    """One line, nothing written."""
    Image.fromarray(data.coffee()).save(tmp_path / "before.png")
    Image.fromarray(data.chelsea()).save(tmp_path / "after.png")
    ran = saywright("photos", "compare", "before.png", "after.png", "--out", "compared")
    assert 2 == ran.code
    assert "cannot be laid over each other" in ran.err
    assert 1 == ran.err.count("\n")
    assert not (tmp_path / "compared").exists()
