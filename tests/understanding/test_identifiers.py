"""Marks spelled out."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.aside.identifiers import spelled, spelled_after
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("delta papa three one four", "DP314"),  # alphabet: ICAO Annex 10, volume II
        ("four four one dash seven alpha", "441-7A"),
        ("double four seven", "447"),
        ("a b twelve", "AB12"),
        ("twenty one x ray", "21X"),
        ("niner tree fife", "935"),
        ("4 4 1", "441"),
        ("seven slash two", "7/2"),
    ],
)
def test_a_mark_is_spelled(words, value):
    """Letters, alphabet words and digits give the mark in upper case."""
    found = spelled(words.split(), 0)
    assert found is not None
    assert value == found.value


def test_a_mark_ends_where_other_talk_begins():
    """The words behind a mark are no part of it."""
    found = spelled(["delta", "three", "on", "the", "body"], 0)
    assert found is not None
    assert ("D3", 2) == (found.value, found.end)


def test_a_mark_behind_a_few_words():
    """ "on the body is" may stand before the mark."""
    found = spelled_after(["on", "the", "body", "is", "kilo", "nine"], 0)
    assert found is not None
    assert "K9" == found.value


@pytest.mark.parametrize("words", ["", "the body", ", , ,"])
def test_nothing_spelled(words):
    """Talk without letters or digits spells nothing."""
    assert spelled(words.split(), 0) is None


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("serial number foxtrot four seven two one nine kilo", None),
        ("serial number on the body is foxtrot four seven two one nine kilo", "body"),
    ],
)
def test_whose_serial_number_it_is(said, component, lexicon):
    """A serial number is of the part named with it; else of none, where the sheet lists no such whole."""
    _, (mark,) = understand(typed(said), Discourse(), lexicon)
    assert (component, "F47219K") == (mark.component, mark.value)


@pytest.fixture(scope="module")
def bilge_pump():
    """A sheet of a pump, which it lists too."""
    path = Path(__file__).parents[1] / "cases" / "sheets" / "bilge-pump.toml"
    return build_lexicon(load_sheet(str(path)))


@pytest.mark.parametrize(
    ("words", "component"),
    [
        ("serial number's delta papa one four two seven", "pump"),
        ("serial number on the strainer is delta four two seven one", "strainer"),
    ],
)
def test_a_serial_number_is_of_the_whole(words, component, bilge_pump):
    """Where no part is named with it, it is of what the sheet is of."""
    _, statements = understand(typed(words), Discourse(), bilge_pump)
    assert [component] == [s.component for s in statements if s.kind == "identifier"]
