"""The demo on a small job: its score, its files, and its exit code."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import Listener

from .conftest import HEIGHT, SHEET, Ran

RIGHT = {"component": "float", "characteristic": "height", "value": "18.42", "unit": "mm"}


@pytest.fixture
def demo(
    saywright: Callable[..., Ran], audio: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[[list[dict[str, Any]]], Ran]:
    """Run the demo on one recording and one picture against these readings."""

    def scripted(*_: object) -> Listener:
        return ScriptedListener(parse_script(f"[00:01.0] {HEIGHT}\n[00:04.0] photo of the float"))

    monkeypatch.setattr("saywright.cli.demo.make_listener", scripted)
    sounds, images = tmp_path / "sounds", tmp_path / "images"
    sounds.mkdir()
    images.mkdir()
    audio.rename(sounds / audio.name)
    Image.effect_noise((80, 60), 90).convert("RGB").save(images / "a.jpg")
    (images / "expected.json").write_text('{"a.jpg": {"component": "float", "stage": "as_found"}}')

    def call(readings: list[dict[str, Any]]) -> Ran:
        (sounds / "expected.json").write_text(json.dumps({"readings": readings}))
        return saywright("demo", "--audio", sounds, "--images", images, "--out", "out")

    return call


def test_a_right_record(demo: Callable[..., Ran], tmp_path: Path) -> None:
    """All right: exit code 0, a perfect score, and files where it says."""
    ran = demo([RIGHT])
    assert 0 == ran.code
    assert ["1", "1", "1", "1.000", "1.000", "1.000"] == line(ran.out, "readings").split()[1:]
    assert ["1", "1", "1", "1.000", "1.000", "1.000"] == line(ran.out, "pictures").split()[1:]
    assert "Silent errors: 0" in ran.out
    named = [Path(row.strip()) for row in ran.out.partition("\nFiles\n")[2].splitlines()]
    assert {"report.pdf", "report.html", "record.json", "readings.csv", "parts.csv"} == {
        p.name for p in named
    }
    assert all((tmp_path / path).stat().st_size for path in named)
    assert "18.42" == json.loads((tmp_path / "out" / "record.json").read_text())["readings"][0]["value"]


def test_a_silent_error(demo: Callable[..., Ran]) -> None:
    """A wrong value that does not ask is named, and the exit code is not 0."""
    ran = demo([RIGHT | {"value": "18.24"}])
    assert 6 == ran.code
    assert "Silent errors: 1\n  s1 float height 18.42 mm" in ran.out
    assert "readings, missed: as_found, float, –, height, 18.24, mm" in ran.out
    assert ran.err.endswith("saywright: demo: 1 silent error. See above\n")


def test_it_can_be_run_again(demo: Callable[..., Ran]) -> None:
    """A second run is a second job; nothing of the first stands in its way."""
    assert [0, 0] == [demo([RIGHT]).code for _ in range(2)]


def test_the_readme_shows_what_the_demo_prints(saywright: Callable[..., Ran]) -> None:
    """The report in README.md is line by line that of the demo's commentary and pictures."""
    root = Path(__file__).parents[2]
    page = (root / "README.md").read_text(encoding="utf-8")
    block = page[page.index("    NOT SIGNED") : page.index("    Against the expected record")]
    shown = [row.removeprefix("    ") for row in block.splitlines() if row.strip()]
    saywright("parse", root / "demo_audio" / "commentary.txt", "--sheet", SHEET, "--job", "new")
    (job,) = (row["id"] for row in json.loads(saywright("jobs", "--json").out))
    saywright("photos", "add", job, *sorted((root / "demo_images").glob("IMG_*")))
    printed = saywright("export", job, "--format", "text").out.splitlines()
    assert [] == [row for row in shown if row not in printed]


def line(text: str, start: str) -> str:
    """The first line that begins so."""
    return next(row for row in text.splitlines() if row.startswith(start))
