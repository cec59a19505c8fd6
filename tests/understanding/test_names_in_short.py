"""Short names on a small sheet: by the end of a name, by what sits on something, beside what is read."""

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import ConditionNote, Movement, Reading

SHEET = """
[sheet]
id = "drum-winch"
title = "Hand winch"
revision = "A"
source = "Invented for this test"
extends = "base"

[[component]]
id = "shaft_key"
names = ["shaft key"]

[[component]]
id = "spring_seat"
names = ["spring seat"]

[[component]]
id = "pawl_spring"
names = ["pawl spring"]

[[component]]
id = "stop"
names = ["stop peg"]
[[component.characteristic]]
id = "notch"
names = ["clip"]
unit = "1"
plausible = [1, 5]

[[component]]
id = "peg_clip"
names = ["peg clip"]
"""


@pytest.fixture(scope="module")
def lexicon(tmp_path_factory):
    """The small sheet, ready to be heard about."""
    path = tmp_path_factory.mktemp("sheets") / "drum-winch.toml"
    path.write_text(SHEET)
    return build_lexicon(load_sheet(str(path)))


def _told(lexicon, words, kind):
    _, made = understand(typed(words), Discourse(), lexicon)
    return [s for s in made if isinstance(s, kind)]


def test_the_end_of_a_name_stands_for_it(lexicon):
    """ "The spring" is a spring, not the seat of one."""
    found = _told(lexicon, "spring out", Movement)
    assert [("pawl_spring", False)] == [(s.component, s.asks) for s in found]


def test_what_a_part_sits_on_is_not_that_part(lexicon):
    """A shaft, where the sheet has only its key: it asks."""
    found = _told(lexicon, "the shaft is bent", ConditionNote)
    assert [True] == [s.asks for s in found]


@pytest.mark.parametrize("words", ["clip off", "new clip on"])
def test_a_part_that_is_called_like_a_reading_moves(lexicon, words):
    """The clip itself came off, not the peg whose notch is called the clip as well."""
    assert ["peg_clip"] == [s.component for s in _told(lexicon, words, Movement)]


@pytest.mark.parametrize("words", ["clip's bent", "clip itself is bent"])
def test_a_part_that_is_called_like_a_reading_has_states(lexicon, words):
    """The clip is bent, not the peg."""
    assert ["peg_clip"] == [s.component for s in _told(lexicon, words, ConditionNote)]


def test_with_a_number_it_is_the_reading(lexicon):
    """The notch of the peg, with its number."""
    found = _told(lexicon, "clip two", Reading)
    assert [("stop", "2")] == [(s.component, s.value) for s in found]
