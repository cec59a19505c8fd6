"""What is said of pictures at the bench, from the words to the place of each picture in the record."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.record.types import Photo
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock

CAMERA = datetime(2026, 3, 1, 22, 47, 0)  # hours off
SHEET = """
[sheet]
id = "twin"
title = "Twin pump"
revision = "A"
source = "Invented for the tests"
extends = "base"

[[component]]
id = "piston"
names = ["piston", "pistons"]
count = 2

[[component]]
id = "strainer"
names = ["strainer"]

[[component]]
id = "bowl"
names = ["bowl"]
"""
OTHERS = ((60.0, "photo of the strainer"), (131.0, "photo of the bowl"), (260.0, "picture of the strainer"))


@pytest.fixture
def bench(store: MemoryStore, clock: Clock, tmp_path: Path) -> Bench:
    """A job on a pump with two pistons, in which three other photos were announced and taken."""
    path = tmp_path / "twin.toml"
    path.write_text(SHEET, encoding="utf-8")
    made = Bench.open(store, load_sheet(path), clock=clock)
    for at_s, words in OTHERS:
        made.say(words, start_s=at_s)
        made.add_photos([shot(tmp_path, at_s + 3)])
    return made


def shot(folder: Path, at_s: float) -> Path:
    """A picture taken at this time by the camera's clock, like no other."""
    coarse = np.random.default_rng(int(at_s)).integers(0, 255, (12, 16, 3), dtype=np.uint8)
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = f"{CAMERA + timedelta(seconds=at_s):%Y:%m:%d %H:%M:%S}"
    path = folder / f"t{at_s:g}.jpg"
    Image.fromarray(coarse).resize((320, 240), Image.Resampling.NEAREST).save(path, exif=exif, quality=95)
    return path


def said_and_shot(bench: Bench, folder: Path, *said: tuple[float, str, float | None]) -> dict[str, Photo]:
    """Words at their times, each with its picture so many seconds after the start; file name → item."""
    for at_s, words, shot_s in said:
        bench.say(words, start_s=at_s)
        if shot_s is not None:
            bench.add_photos([shot(folder, shot_s)])
    bench.match_photos()
    return {p.name: p for p in bench.record().photos if p.name and p.superseded_by is None}


def test_photo_of_the_scoring_on_piston_one(bench: Bench, tmp_path: Path) -> None:
    """The picture is of the first piston, with the condition, as found; nothing asks."""
    found = said_and_shot(bench, tmp_path, (400.0, "photo of the scoring on piston one", 403.0))["t403.jpg"]
    assert ("piston", "1", ("scored",), "as_found") == (
        found.component,
        found.which,
        tuple(found.conditions),
        found.stage,
    )
    assert not found.asks
    assert 400.0 == found.start_s


def test_another_one(bench: Bench, tmp_path: Path) -> None:
    """A further mark of the same piston and condition, with a picture of its own."""
    found = said_and_shot(
        bench,
        tmp_path,
        (400.0, "photo of the scoring on piston one", 403.0),
        (421.0, "another one", 424.0),
    )
    first, second = found["t403.jpg"], found["t424.jpg"]
    assert first.id != second.id
    assert ("piston", "1", ("scored",)) == (second.component, second.which, tuple(second.conditions))
    assert (421.0, None, False) == (second.start_s, second.beside, second.asks)


def test_thats_the_after(bench: Bench, tmp_path: Path) -> None:
    """The picture announced last is as left; the one before stays as found, so the two can be compared."""
    found = said_and_shot(
        bench,
        tmp_path,
        (400.0, "photo of piston one", 403.0),
        (700.0, "photo of piston one", 703.0),
        (712.0, "that's the after", None),
    )
    stages = {name: (p.component, p.which, p.stage) for name, p in found.items() if p.component == "piston"}
    assert {
        "t403.jpg": ("piston", "1", "as_found"),
        "t703.jpg": ("piston", "1", "as_left"),
    } == stages


def test_bad_one_again(bench: Bench, tmp_path: Path) -> None:
    """The second picture is at the mark; the bad one is kept beside it and given to no other mark."""
    found = said_and_shot(
        bench,
        tmp_path,
        (400.0, "photo of the scoring on piston one", 403.0),
        (418.0, "bad one, again", 421.0),
    )
    good, bad = found["t421.jpg"], found["t403.jpg"]
    assert ("piston", "1", ("scored",), 418.0) == (
        good.component,
        good.which,
        tuple(good.conditions),
        good.start_s,
    )
    assert (good.id, "piston", "1") == (bad.beside, bad.component, bad.which)
    assert [3.0] * 3 == [found[f"t{at_s + 3:g}.jpg"].start_s - at_s + 3 for at_s, _ in OTHERS]
