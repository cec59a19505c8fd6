"""docs/speech.md, held to the cases: what the page says one can say is tested to be understood."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "speech.md").read_text(encoding="utf-8")


def said_in(folder: str) -> set[str]:
    """Every utterance of the cases in *folder*."""
    files = (ROOT / "tests" / "cases" / folder).glob("*.txt")
    lines = [line for path in files for line in path.read_text(encoding="utf-8").splitlines()]
    return {line[1:].strip() for line in lines if line.startswith(">")}


def examples(text: str) -> list[str]:
    """The phrases of speech on the page: in the first cell of a table, or in a list."""
    rows = [line.split("|")[1] for line in text.splitlines() if line.startswith("| `")]
    items = [line for line in text.splitlines() if line.startswith("- ")]
    return [said for row in (*rows, *items) for said in re.findall(r"`([^`]+)`", row)]


UNDERSTOOD, NOT_YET = PAGE.split("## What it does not understand yet")


@pytest.mark.parametrize("example", examples(UNDERSTOOD))
def test_an_example_stands_in_the_cases(example):
    """What the page shows as understood is a row of tests/cases/speech."""
    assert example in said_in("speech")


@pytest.mark.parametrize("example", examples(NOT_YET))
def test_what_is_not_understood_stands_there_too(example):
    """What the page shows as not understood is a row of tests/cases/not_yet."""
    assert example in said_in("not_yet")
