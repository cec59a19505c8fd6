"""`words`: a shop's own names, from the command to the record."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

SHEET = "outboard-float-carburetor"


def test_a_word_is_understood_in_the_next_job(saywright: Callable[..., Any], tmp_path: Path) -> None:
    """The reading lands on the part that the shop's word names."""
    assert 0 == saywright("words", "add", "the", "brass", "bit", "--means", "main_jet", "--sheet", SHEET).code
    lines = tmp_path / "lines.txt"
    lines.write_text("the brass bit is one twenty eight\n")
    record = json.loads(saywright("parse", lines, "--sheet", SHEET, "--json").out)
    assert [("main_jet", "128")] == [(r["component"], r["value"]) for r in record["readings"]]


def test_they_are_listed_with_their_sound(saywright: Callable[..., Any]) -> None:
    """Whether each is used on a sheet, and from where its sound is."""
    saywright("words", "add", "brass bit", "--means", "main_jet")
    saywright("words", "add", "zwoggle", "--sounds", "Z W AO G AH L")
    saywright("words", "add", "slave", "--means", "wheel_cylinder")
    out = saywright("words", "list", "--sheet", SHEET).out
    cells = [cell.strip() for cell in out.splitlines()[2].split("  ") if cell.strip()]
    assert ["brass bit", "main_jet", "used", "in its dictionary"] == cells
    assert "as you say it" in out
    assert "not on it" in out


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("add", "x", "--sounds", "Q"), "'Q' is no phone"),
        (("add", "x", "y", "--sounds", "F"), "phones go with one word"),
        (("add", "x", "--means", "mian_jet", "--sheet", SHEET), "Did you mean 'main_jet'?"),
        (("add", "float", "--means", "main_jet", "--sheet", SHEET), "already names float"),
        (("add", " "), "no word was given"),
        (("remove", "x"), "is no word of the shop's"),
    ],
)
def test_what_cannot_be_is_told(saywright: Callable[..., Any], args: tuple[str, ...], told: str) -> None:
    """One line, and nothing is kept."""
    done = saywright("words", *args)
    assert 0 != done.code
    assert told in done.err
    assert 1 == done.err.count("\n")
    assert "No words" in saywright("words", "list").out


def test_the_last_word_is_taken_out(saywright: Callable[..., Any]) -> None:
    """The list is empty again."""
    saywright("words", "add", "zwoggle")
    assert 0 == saywright("words", "remove", "Zwoggle").code
    assert "No words" in saywright("words", "list").out


def test_a_folder_that_takes_no_file_is_told(saywright: Callable[..., Any], tmp_path: Path) -> None:
    """What stands in the way gives one line."""
    (tmp_path / "data" / "words.new").mkdir(parents=True)
    done = saywright("words", "add", "zwoggle")
    assert "cannot be written" in done.err
    assert 1 == done.err.count("\n")
