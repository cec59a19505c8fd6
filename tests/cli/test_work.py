"""`across`, `parts` and `time` as a person runs them."""

from __future__ import annotations

import json
import re
from pathlib import Path

from .conftest import SHEET, Ran
from .test_commands import Saywright, stored


def test_across(saywright: Saywright, notes: Path) -> None:
    """Jobs of a sheet together; a sheet nobody used is told so."""
    for _ in range(2):
        stored(saywright, notes)
    data = json.loads(saywright("across", SHEET, "--json").out)
    assert (2, 30) == (data["jobs"], data["capability_from"])
    out = saywright("across", SHEET).out
    assert "2 jobs" in out
    assert "Float height: 2 values; capability is told from 30 on." in out
    assert 5 == saywright("across", "no-such-sheet").code


def test_parts(saywright: Saywright, tmp_path: Path) -> None:
    """Off, on and what is short, now and when an item had been said; another id is told."""
    text = tmp_path / "talk.txt"
    text.write_text("bowl screws off four\nfloat height is eighteen point four two\nthree bowl screws in\n")
    job = saywright("jobs", "new", "--sheet", SHEET).out.strip()
    assert "No part was said to come off or to go on." == saywright("parts", job).out.strip()
    saywright("parse", text, "--job", job)
    assert ["bowl screw", "4", "3", "0", "1 not back on"] == cells(saywright("parts", job).out)
    assert ["bowl screw", "4", "0", "0", "4 not back on"] == cells(saywright("parts", job, "--at", "s2").out)
    (line,) = json.loads(saywright("parts", job, "--json").out)
    assert (4, 3, ["1 not back on"]) == (line["removed"], line["fitted_unsaid"], line["told"])
    ran = saywright("parts", job, "--at", "s99")
    told = "saywright: nothing said has the id 's99'. Take the id of an item from the record, like s12\n"
    assert (5, told) == (ran.code, ran.err)


def cells(out: str) -> list[str]:
    """The fields of the last line of a table."""
    return re.split(r" {2,}", out.splitlines()[-1].strip())


def test_time(saywright: Saywright, tmp_path: Path) -> None:
    """Shown by part, corrected by a person, and in the report where wished."""
    text = tmp_path / "talk.txt"
    text.write_text("[00:00.0] now the float\n[00:10.0] height is eighteen point four two\n"
                    "[00:40.0] main jet is a one twenty eight\n", encoding="utf-8")  # fmt: skip
    job = saywright("jobs", "new", "--sheet", SHEET).out.strip()
    saywright("parse", text, "--job", job)
    lines = json.loads(saywright("time", job, "--json").out)["lines"]
    assert 30 == next(one["seconds"] for one in lines if one["component"] == "float")
    ran: Ran = saywright("time", job, "--set", "float", "--minutes", "2,5", "--by", "Ines", "--why", "phone")
    assert "2 min 30 s, corrected by Ines" in ran.out
    assert 0 == saywright("report", job, "--format", "html", "--time", "--out", tmp_path).code
    assert "corrected by Ines" in (tmp_path / f"saywright-{job}.html").read_text(encoding="utf-8")
    for wrong in (
        ("--set", "flaot", "--minutes", "1"),
        ("--set", "float", "--minutes", "long"),
        ("--set", "float"),
    ):
        ran = saywright("time", job, *wrong)
        assert 1 == len(ran.err.strip().splitlines())
        assert 0 != ran.code
