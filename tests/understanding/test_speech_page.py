"""docs/speech.md, held to the cases: what the page says one can say is tested to be understood."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from understanding import test_cases as cases

PAGE = (Path(__file__).parents[2] / "docs" / "speech.md").read_text(encoding="utf-8")


@dataclass(frozen=True)
class Row:
    """A row of a table of the page."""

    examples: tuple[str, ...]
    goes_on: bool  # from what was said before
    sheet: str


def rows(text: str) -> list[Row]:
    """The rows of the tables whose first cell shows what one says."""
    cells = [line.strip("|").split("|") for line in text.splitlines() if re.match(r"\| (… )?`", line)]
    return [
        Row(tuple(re.findall(r"`([^`]+)`", said)), said.startswith(" …"), sheet.strip())
        for said, *_, sheet in cells
    ]


@cache
def every_talk(folder: str) -> list[cases.Talk]:
    """The cases in *folder*."""
    return [talk for path in sorted((cases.CASES / folder).glob("*.txt")) for talk in cases.talks_in(path)]


def talks(folder: str, sheet: str | None = None) -> list[cases.Talk]:
    """The cases in *folder*, those of one sheet where it is given."""
    every = every_talk(folder)
    return [talk for talk in every if sheet in (None, talk.sheet.removesuffix(".toml"))]


@pytest.fixture(scope="module")
def lexicons() -> dict[str, cases.Lexicon]:
    """The words of the sheets met so far."""
    return {}


UNDERSTOOD, NOT_YET = PAGE.split("## What it does not understand yet")


@pytest.mark.parametrize("row", rows(UNDERSTOOD), ids=lambda row: row.examples[0])
def test_an_example_stands_in_the_cases(row: Row) -> None:
    """What the page shows as understood is a row of tests/cases/speech, on the sheet that it names."""
    said = {words for talk in talks("speech", row.sheet) for words, _ in talk.lines}
    assert row.examples
    assert said.issuperset(row.examples)


@pytest.mark.parametrize("row", rows(UNDERSTOOD), ids=lambda row: row.examples[0])
def test_an_example_comes_out_alone_unless_it_goes_on(row: Row, lexicons: dict[str, cases.Lexicon]) -> None:
    """Who tries a row gets what it says; where that needs what was said before, the row begins with …"""
    whole = [t for t in talks("speech", row.sheet) if {w for w, _ in t.lines}.issuperset(row.examples)]
    assert whole or not row.goes_on
    for talk in whole[:1]:
        expected = dict(talk.lines)
        lines = [(words, expected[words]) for words in row.examples]
        assert row.goes_on != _comes_out(lines, cases.lexicon_of(talk.sheet, lexicons))


def _comes_out(lines: list[tuple[str, tuple[str, ...]]], lexicon: cases.Lexicon) -> bool:
    """True where *lines* alone are understood as written."""
    state = cases.Discourse()
    try:
        for words, expected in lines:
            state = cases.check(words, expected, state, lexicon)
    except AssertionError:
        return False
    return True


@pytest.mark.parametrize("item", NOT_YET.split("\n- ")[1:])
def test_what_is_not_understood_stands_there_too(item: str) -> None:
    """What the page shows as not understood is a row of tests/cases/not_yet, on the sheet in brackets."""
    (example,) = re.findall(r"`([^`]+)`", item)
    (sheet,) = re.findall(r"\(([\w-]+)\)", item)
    assert example in {words for talk in talks("not_yet", sheet) for words, _ in talk.lines}


def test_examples_in_running_text_stand_there_too() -> None:
    """Those outside of the tables as well."""
    text = "\n".join(line for line in UNDERSTOOD.splitlines() if not line.startswith(("|", "    ")))
    shown = {said for said in re.findall(r"`([^`]+)`", text) if " " in said}
    said = {words for talk in talks("speech") for words, _ in talk.lines}
    assert {"main chat one twenty eight", "cover gleaned and refitted", "going back together"} == shown & said
    assert shown <= said
