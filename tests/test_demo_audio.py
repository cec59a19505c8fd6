"""The demo's spoken job: commentary, marks and expected record fit each other and the sheet."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from saywright.quantity import parse_value
from saywright.record import types
from saywright.sheets import load_sheet

FOLDER = Path(__file__).parents[1] / "demo_audio"
SHEET = load_sheet("outboard-float-carburetor")


def _lines() -> list[tuple[float, str]]:
    rows = (FOLDER / "commentary.txt").read_text(encoding="utf-8").splitlines()
    found = [re.fullmatch(r"\[(\d\d):(\d\d\.\d)\] (.+)", row) for row in rows]
    return [(int(m[1]) * 60 + float(m[2]), m[3]) for m in found if m]


def _load(name: str) -> Any:
    return json.loads((FOLDER / name).read_text(encoding="utf-8"))


def test_every_line_has_a_time_and_times_rise() -> None:
    """65 utterances or more within six to ten minutes."""
    rows = (FOLDER / "commentary.txt").read_text(encoding="utf-8").splitlines()
    times = [start_s for start_s, _ in _lines()]
    assert len(rows) == len(times)
    assert 65 <= len(times)
    assert sorted(set(times)) == times
    assert 360 <= times[-1] <= 600


def test_readings_are_of_the_sheet() -> None:
    """Each expected reading is of a part and a characteristic of the sheet, a number, in a known unit."""
    readings = _load("expected.json")["readings"]
    assert 28 <= len(readings)
    for reading in readings:
        characteristic = SHEET.find(reading["component"], reading["characteristic"])
        component = SHEET.get(reading["component"])
        assert characteristic is not None
        assert component is not None
        assert characteristic.unit == reading["unit"]
        assert parse_value(reading["value"]) > 0
        assert (reading["which"] in component.whiches) if component.whiches else (reading["which"] is None)


@pytest.mark.parametrize(
    ("table", "key", "known"),
    [
        ("conditions", "condition", {c.id for c in SHEET.condition}),
        ("actions", "action", {a.id for a in SHEET.action}),
        ("movements", "component", {c.id for c in SHEET.component}),
        ("photos", "component", {c.id for c in SHEET.component}),
    ],
)
def test_ids_are_of_the_sheet(table: str, key: str, known: set[str]) -> None:
    """No expected item names something the sheet lacks."""
    assert {item[key] for item in _load("expected.json")[table]} <= known


def test_expected_fields_are_fields_of_the_record() -> None:
    """The expected record has the shape of the record, so that they can be compared field by field."""
    expected = _load("expected.json")
    assert types.SCHEMA == expected.pop("schema")
    kinds: dict[str, type[BaseModel]] = {
        "readings": types.Reading, "conditions": types.Condition, "actions": types.Action,
        "movements": types.Movement, "identifiers": types.Identifier, "photos": types.Photo,
        "unclear": types.Unclear,
    }  # fmt: skip
    assert set(kinds) == set(expected)
    for table, items in expected.items():
        for item in items:
            assert set(item) <= set(kinds[table].model_fields)


def test_what_came_off_went_back() -> None:
    """Each part that was removed is fitted again, as many as came off; renewed ones are new."""
    movements = _load("expected.json")["movements"]
    off = {m["component"]: m["count"] for m in movements if m["movement"] == "removed"}
    on = {m["component"]: m["count"] for m in movements if m["movement"] == "fitted"}
    assert off == on
    for movement in movements:
        component = SHEET.get(movement["component"])
        assert component is not None
        if component.renew and movement["movement"] == "fitted":
            assert "new" == movement["part"]


def test_marks_are_lines_and_photos() -> None:
    """Each mark begins where a line speaks of a picture, and each is an expected photo."""
    marks = _load("marks.json")
    spoken = {start_s for start_s, text in _lines() if "photo" in text or "picture" in text}
    assert spoken == {mark["start_s"] for mark in marks}
    photos = [(p["stage"], p["component"]) for p in _load("expected.json")["photos"]]
    assert photos == [(mark["stage"], mark["component"]) for mark in marks]


def test_the_sound_is_small_and_as_long_as_the_commentary() -> None:
    """The committed recording is below 2 MB and ends a few seconds after the last line begins."""
    import soundfile

    path = FOLDER / "bench-job.opus"
    assert path.stat().st_size < 2_000_000
    info = soundfile.info(path)
    assert 1 == info.channels
    assert 0 < info.frames / info.samplerate - _lines()[-1][0] < 8
