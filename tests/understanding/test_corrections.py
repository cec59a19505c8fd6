"""Corrections: what is taken back, and that nothing else is."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading


def standing(lexicon, lines):
    """(which, value) of the readings that still hold after *lines*."""
    state, made, gone = Discourse(), [], set()
    for line in lines:
        state, statements = understand(typed(line), state, lexicon)
        made += [s for s in statements if isinstance(s, Reading)]
        gone |= {old for s in statements if s.kind == "correction" for old in s.supersedes}
    return [(s.which, s.value) for s in made if s.id not in gone]


UPPER, LOWER = "upper bush eight point oh three", "lower bush eight point oh five"


@pytest.mark.parametrize(
    ("lines", "values"),
    [
        (
            (UPPER, LOWER, "go back the upper bush was eight point oh four"),
            [("lower", "8.05"), ("upper", "8.04")],
        ),
        ((UPPER, "no make that lower eight point oh three"), [("lower", "8.03")]),
        ((UPPER, "no oh six"), [("upper", "8.06")]),
        ((UPPER, "upper bush was eight point oh six not eight point oh three"), [("upper", "8.06")]),
        ((UPPER, "upper bush was eight point oh six not oh three"), [("upper", "8.06")]),
        ((UPPER, LOWER, "scratch that"), [("upper", "8.03")]),
        ((UPPER, LOWER, "strike the last two"), []),
    ],
)
def test_only_what_was_wrong_goes(lexicon, lines, values):
    """The reading that is corrected no longer holds, and every other one does."""
    assert values == standing(lexicon, lines)


def test_a_correction_reaches_back_over_other_talk(lexicon):
    """A named part is corrected however long ago it was read."""
    talk = (UPPER, *["what time is it"] * 30, "go back the upper bush was eight point oh four")
    assert [("upper", "8.04")] == standing(lexicon, talk)


@pytest.mark.parametrize(
    ("lines", "values"),
    [
        ((UPPER, "no that's wrong", "eight point oh four"), [("upper", "8.04")]),
        ((UPPER, "no", "eight point oh four"), [("upper", "8.04")]),
        ((UPPER, LOWER, "no the upper's eight point oh four"), [("lower", "8.05"), ("upper", "8.04")]),
        ((UPPER, LOWER, "forget that", "eight point oh six"), [("upper", "8.03"), ("lower", "8.06")]),
        (
            (UPPER, LOWER, "scratch that it was stuck eight point oh six"),
            [("upper", "8.03"), ("lower", "8.06")],
        ),
        ((UPPER, LOWER, "no it isn't"), [("upper", "8.03")]),
    ],
)
def test_a_change_of_mind_reaches_the_value_said_last(lexicon, lines, values):
    """What was said last goes, and the new value takes its place, in the same breath or two lines later."""
    assert values == standing(lexicon, lines)
