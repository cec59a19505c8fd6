"""Particles on a picture's page: looked for when asked, kept by a person only."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from types import ModuleType
from urllib.parse import quote

import pytest
from PIL import Image

from loading import tool

JOB = "/jobs/20260314-1"
SIZE_PX = (1200, 900)
SCALE = "debris=look&known=12&ends=0,0.5%200.9999,0.5"  # 12 mm over 1,200 pixels: 10 µm each


@pytest.fixture(scope="module")
def cloths() -> ModuleType:
    """tools/photo_cloths.py as a module."""
    return tool("photo_cloths")


@pytest.fixture
def photo(visit, cloths: ModuleType, tmp_path: Path) -> str:
    """Id of a picture of a cloth with 40 grains."""
    path = tmp_path / "cloth.png"
    Image.fromarray(cloths.cloth(SIZE_PX, cloths.grains(40, SIZE_PX, longest_px=60, seed=5))).save(path)
    (added,) = visit.bench().add_photos([path])
    return added.photo


def test_nothing_is_looked_for_unasked(visit, photo: str) -> None:
    """The page has the form, and neither table nor outline."""
    page = visit.client.get(f"{JOB}/pictures/{photo}").text
    assert "Look for particles" in page
    assert "Particles by size class" not in page
    assert "specks" not in page


def test_table_and_outlines(visit, photo: str, cloths: ModuleType) -> None:
    """Every sized particle has an outline, the table counts them by class, and looking keeps nothing."""
    before = len(visit.bench().events())
    found = visit.client.get(f"{JOB}/pictures/{photo}?{SCALE}")
    assert 200 == found.status_code
    sized, unseen = map(int, re.search(r"(\d+) sized, (\d+) not resolved", found.text).groups())
    truth = cloths.grains(40, SIZE_PX, longest_px=60, seed=5)
    assert abs(sized - sum(grain.long_px >= 10 for grain in truth)) <= 3
    assert unseen > 0
    assert "smaller than 100 µm has fewer than 10 pixels" in found.text
    table = re.search(r"Particles by size class.*?</table>", found.text, re.S).group()
    counts = re.findall(r'<th scope="row">([E-N])</th><td[^>]*>(\d+)</td><td[^>]*>(\d+)</td>', table)
    assert sized == sum(int(compact) + int(fibres) for _, compact, fibres in counts)
    assert ["F", "G", "H", "I", "J"] == [letter for letter, *_ in counts][:5]  # 10 pixels are 100 µm: class F
    assert f">{unseen}</td>" in table
    assert 2 * sized == len(re.findall(r'<path d="M[^"]*Z"', found.text))
    assert before == len(visit.bench().events())
    assert not visit.bench().record().readings[-1].picture


def test_a_person_keeps_one(visit, photo: str) -> None:
    """Kept, it is a box on the picture in the person's name, and the page still shows what was found."""
    page = visit.client.get(f"{JOB}/pictures/{photo}?{SCALE}").text
    row = re.search(r'<tr><th scope="row">1</th>.*?</tr>', page, re.S).group()
    form = dict(re.findall(r'name="(\w+)" value="([^"]*)"', row))
    form = {name: unescape(value) for name, value in form.items()} | {"token": visit.token()}
    sent = visit.client.post(f"{JOB}/pictures/{photo}/draw", data=form, follow_redirects=False)
    assert 303 == sent.status_code
    assert "debris=look" in sent.headers["location"]
    shown = visit.client.get(sent.headers["location"]).text
    assert "Drawn on the picture" in shown
    assert "Particles by size class" in shown
    (kept,) = visit.bench().photo(photo).annotations
    assert "box" == kept["kind"]
    assert re.fullmatch(r"[E-N] compact \d+ µm", kept["text"])
    assert visit.bench().events()[-1].actor != "saywright"


def test_a_person_keeps_the_counts(visit, photo: str) -> None:
    """Written on the picture as words, with what was not resolved."""
    page = visit.client.get(f"{JOB}/pictures/{photo}?{SCALE}").text
    form = re.search(r"<form[^>]*>(?:(?!</form>).)*Write the counts", page, re.S).group()
    values = {name: unescape(value) for name, value in re.findall(r'name="(\w+)" value="([^"]*)"', form)}
    visit.client.post(f"{JOB}/pictures/{photo}/draw", data=values | {"token": visit.token()})
    (kept,) = visit.bench().photo(photo).annotations
    assert "text" == kept["kind"]
    assert kept["text"].startswith("ISO 16232: ")
    assert kept["text"].endswith("below 100 µm not resolved")


def test_within_a_box(visit, photo: str) -> None:
    """A box that a person shows leaves out what lies outside."""
    whole = visit.client.get(f"{JOB}/pictures/{photo}?{SCALE}").text
    part = visit.client.get(f"{JOB}/pictures/{photo}?{SCALE}&within={quote('0,0 0.5,0.5')}").text
    sized = [int(re.search(r"(\d+) sized", one).group(1)) for one in (whole, part)]
    assert 0 < sized[1] < sized[0]


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("debris=look", "no scale"),
        ("debris=look&known=12", "two ends"),
        ("debris=look&known=twelve&ends=0,0.5%200.9,0.5", "no number of millimetres"),
        ("debris=look&across=110", "is missing"),
        ("debris=look&across=110&down=110", "card"),
        (f"{SCALE}&within=0.1,0.1", "two corners"),
    ],
)
def test_without_a_scale_nothing_is_sized(visit, photo: str, asked: str, told: str) -> None:
    """One line says what is missing; there is no table."""
    page = visit.client.get(f"{JOB}/pictures/{photo}?{asked}")
    assert 200 == page.status_code
    assert told in unescape(page.text).lower() or told in unescape(page.text)
    assert "Particles by size class" not in page.text
