"""`photos measure`, `check` and `debris`, on files and on pictures of a job."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from saywright.photos.card import picture


@pytest.fixture
def card(tmp_path: Path) -> Path:
    """The card flat at 12 pixels a millimetre, two dark discs of 3 and 0.3 mm in its window."""
    plane = picture(12.0)
    rows, columns = np.mgrid[0 : plane.shape[0], 0 : plane.shape[1]]
    for x_mm, y_mm, diameter_mm in ((56, 44, 3.0), (70, 50, 0.3)):
        apart = np.hypot(columns - 12 * (x_mm + 4), rows - 12 * (y_mm + 4))
        cover = np.clip(6 * diameter_mm - apart + 0.5, 0, 1)
        plane = np.round(plane * (1 - cover) + 40 * cover).astype(np.uint8)
    path = tmp_path / "card.png"
    Image.fromarray(plane).convert("RGB").save(path)
    return path


CROSSES = ("--across", "110", "--down", "110")


def test_circle(saywright: Callable, card: Path) -> None:
    """A disc of 3 mm, shown by its middle and a place on its rim."""
    ran = saywright("photos", "measure", "circle", card, "722,575", "740,575", *CROSSES, "--json")
    assert 0 == ran.code
    found = json.loads(ran.out)
    assert pytest.approx(3.0, rel=0.01) == found["value"]
    assert "mm" == found["unit"]


def test_text_of_a_distance(saywright: Callable, card: Path) -> None:
    """A known distance scales another; the uncertainty is printed with its factor."""
    known = ("--from", "100,100", "--to", "700,100", "--known", "50")
    ran = saywright("photos", "measure", "distance", card, "100,200", "340,200", *known)
    assert ran.out.startswith("distance 20.000 mm ± 0.3")
    assert ran.out.endswith("mm (k = 2)\n")


@pytest.mark.parametrize(
    ("options", "code", "told"),
    [
        ((), 2, "the picture has no scale, so it gives no lengths"),
        (("--across", "110"), 2, "one distance between the crosses of the card is missing"),
        (("--known", "50"), 2, "A known distance needs --from, --to and --known."),
        ((*CROSSES, "--from", "1,1", "--to", "90,1", "--known", "5"), 2, "not both"),
    ],
)
def test_no_scale_no_length(
    saywright: Callable, card: Path, options: tuple[str, ...], code: int, told: str
) -> None:
    """Every way to give no scale, or half of one, is refused in one line."""
    ran = saywright("photos", "measure", "distance", card, "10,10", "300,300", *options)
    assert (code, "") == (ran.code, ran.out)
    assert told in ran.err
    assert 1 == ran.err.count("\n")


def test_a_place_outside_is_refused(saywright: Callable, card: Path) -> None:
    """A place that is not in the picture is told with the picture's size."""
    ran = saywright("photos", "measure", "distance", card, "10,10", "5000,300", *CROSSES)
    assert 2 == ran.code
    assert "5000,300 is not in the picture of 1440 × 1152 pixels" in ran.err


def test_debris(saywright: Callable, card: Path, tmp_path: Path) -> None:
    """The 3 mm disc is sized (83 µm a pixel), the small one counted; the overlay is a JPEG."""
    ran = saywright("photos", "debris", card, *CROSSES, "--overlay", "found.jpg")
    assert 0 == ran.code
    assert "compact" in ran.out
    assert "resolved from 833 µm; 1 smaller spots counted, not sized" in ran.err
    with Image.open(tmp_path / "found.jpg") as drawn:
        assert "JPEG" == drawn.format
    told = json.loads(saywright("photos", "debris", card, *CROSSES, "--json").out)
    assert pytest.approx([3000], rel=0.02) == [p["feret_max_um"] for p in told["particles"]]


def test_checked_where_the_part_is(saywright: Callable, card: Path) -> None:
    """Two corners in pixels; the box and what is wrong there are told, and one corner is none."""
    with Image.open(card) as opened:
        width, height = opened.size
    corners = f"{round(0.4 * width)},{round(0.3 * height)}", f"{round(0.7 * width)},{round(0.6 * height)}"
    ran = saywright("photos", "check", card, *corners)
    assert "looked at 40 to 70 % across, 30 to 60 % down\nnothing wrong with it" in ran.out
    found = json.loads(saywright("photos", "check", card, *corners, "--json").out)
    assert pytest.approx([0.4, 0.3, 0.3, 0.3], abs=0.002) == found["region"]
    assert "two corners" in saywright("photos", "check", card, corners[0]).err


def test_a_picture_of_a_job_is_checked_again(saywright: Callable, card: Path) -> None:
    """The record carries the box and that the part there has no detail to tell focus by."""
    job = saywright("jobs", "new", "--sheet", "outboard-float-carburetor").out.split()[0]
    saywright("photos", "add", job, card)
    ran = saywright("photos", "check", "p1", "300,300", "400,400", "--job", job, "--by", "Ada")
    assert "no detail there to tell focus by" in ran.out
    (photo,) = json.loads(saywright("export", job, "--format", "json").out)["photos"]
    assert photo["checks"]["sharpness"] is None


def test_a_job_keeps_what_was_measured(saywright: Callable, card: Path, notes: Path) -> None:
    """With --job the value stays with the picture, in the record's JSON, and no reading is made."""
    job = saywright("jobs", "new", "--sheet", "outboard-float-carburetor").out.split()[0]
    assert 0 == saywright("photos", "add", job, card).code
    ran = saywright(
        "photos", "measure", "circle", "p1", "722,575", "740,575", *CROSSES, "--job", job, "--by", "Ada"
    )
    assert 0 == ran.code, ran.err
    assert "m1 kept with picture p1: circle " in ran.err
    record = json.loads(saywright("export", job, "--format", "json").out)
    assert ["Ada"] == [m["by"] for p in record["photos"] for m in p["measurements"]]
    assert [] == record["readings"]
