"""Before and after in the report."""

from __future__ import annotations

from pathlib import Path

import cv2
import pytest
from PIL import Image
from skimage import data

from saywright.bench import Bench
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock, tmp_path: Path) -> Bench:
    """A strainer pictured as found and, turned a little, as left; a float as left only."""
    Image.fromarray(data.coffee()).save(tmp_path / "a.png")
    turned = cv2.warpAffine(data.coffee(), cv2.getRotationMatrix2D((300, 200), 8, 0.95), (600, 400))
    Image.fromarray(turned).save(tmp_path / "b.png")
    Image.fromarray(data.chelsea()).save(tmp_path / "c.png")
    made = Bench.open(store, sheet, clock=clock)
    made.say("photo of the strainer")
    made.say("going back together")
    made.say("photo of the strainer")
    made.say("photo of the float")
    made.add_photos([tmp_path / f"{name}.png" for name in "abc"])
    assert ["as_found", "as_left", "as_left"] == [p.stage for p in made.record().photos if p.heard]
    return made


def place(bench: Bench, order: str) -> None:
    """The pictures p1 to p3 at the marks, in this order."""
    marks = [photo.id for photo in bench.record().photos if photo.heard]
    for picture, mark in zip(order, marks, strict=True):
        bench.place_photo(f"p{picture}", mark=mark, actor="Ada")


def test_a_pair_that_fits_is_shown(bench: Bench) -> None:
    """One pair, of the strainer, with how well it fits; PDF and HTML are made."""
    place(bench, "123")
    made = bench.report(["html", "pdf"])
    html = made["html"].decode()
    assert 1 == html.count("as found on the left, as left on the right, at one scale</")
    assert "Laid over each other: " in html
    assert made["pdf"].startswith(b"%PDF")


def test_what_does_not_fit_is_no_pair(bench: Bench) -> None:
    """A picture of something else at the second mark: no pair, both pictures still there."""
    place(bench, "132")
    html = bench.report(["html"])["html"].decode()
    assert "at one scale" not in html
    assert "a.png" in html
    assert "c.png" in html


def test_a_picture_that_asks_makes_no_pair(bench: Bench) -> None:
    """Pictures that no one placed are not compared."""
    assert "at one scale" not in bench.report(["html"])["html"].decode()
