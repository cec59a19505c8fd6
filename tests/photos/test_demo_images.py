"""The demo's pictures: what they carry, how they are judged, and that they find their marks."""

from __future__ import annotations

import io
import json
from datetime import datetime
from pathlib import Path

import pytest
from PIL import Image

from saywright.photos.checks import check_picture
from saywright.photos.intake import read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.match import Picture, SpokenMark, match_photos

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo_images"
EXPECTED = json.loads((FOLDER / "expected.json").read_text(encoding="utf-8"))
NAMES = sorted(EXPECTED)


def test_expected_names_every_picture() -> None:
    """expected.json and the folder hold the same pictures."""
    found = {p.name for p in FOLDER.iterdir() if p.suffix in {".jpg", ".png", ".heic"}}
    assert set(NAMES) == found
    assert {".jpg", ".png", ".heic"} == {Path(name).suffix for name in NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_each_is_read_judged_and_small(name: str) -> None:
    """Each picture is read upright and dated; only the two meant to be are called blurred or dark."""
    path = FOLDER / name
    assert path.stat().st_size < 350_000
    photo = read_photo(path)
    assert photo.taken_at is not None
    assert photo.width_px > photo.height_px
    checks = check_picture(photo.pixels)
    component = (EXPECTED[name] or {}).get("component")
    assert (component == "float", component == "seat", False) == (checks.blurred, checks.dark, checks.bright)


def exif_of(data: bytes) -> Image.Exif:
    """The tags in a picture's bytes."""
    return Image.open(io.BytesIO(data)).getexif()


@pytest.mark.parametrize("name", NAMES)
def test_marked_as_rendered(name: str) -> None:
    """Each file says that it is no photograph."""
    assert "Rendered, not a photograph" == exif_of((FOLDER / name).read_bytes())[0x010E]


def test_place_is_there_and_does_not_leave() -> None:
    """Some originals carry a place and all a serial number; what is derived from them carries neither."""
    placed = [name for name in NAMES if exif_of((FOLDER / name).read_bytes()).get_ifd(0x8825)]
    assert len(placed) >= 1
    for name in placed:
        assert b"DEMO-SERIAL-0001" in (FOLDER / name).read_bytes()
        photo = read_photo(FOLDER / name)
        assert (FOLDER / name).read_bytes() == photo.original
        derived = derived_jpeg(photo.pixels, 400, 80)
        assert {} == dict(exif_of(derived))
        assert b"DEMO-SERIAL-0001" not in derived


def test_every_picture_finds_its_mark() -> None:
    """With the marks of the recording each announced picture is placed for sure, the other left over."""
    marks = json.loads((ROOT / "demo_audio" / "marks.json").read_text(encoding="utf-8"))
    spoken = [SpokenMark(mark["component"], mark["start_s"]) for mark in marks]
    photos = [Picture(name, read_photo(FOLDER / name).taken_at, name) for name in NAMES]
    result = match_photos(spoken, photos, started_at=datetime(2026, 9, 14, 9, 12))
    wanted = {name: mark["component"] for name, mark in EXPECTED.items() if mark}
    assert wanted == {match.photo: match.mark for match in result.matches if match.sure}
    assert () == result.unmatched_marks
    assert tuple(name for name in NAMES if EXPECTED[name] is None) == result.unmatched_photos
    assert pytest.approx(-460 + 3.5, abs=3) == result.clock_offset_s
