"""A mended name asks only where it decides the value or its part."""

from __future__ import annotations

import pytest

from saywright.flags import FlagKind
from saywright.hearing.words import typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
from saywright.understanding.statements import ConditionNote, Reading


def _said(lexicon, *lines):
    """The statements of the last of *lines*."""
    state = Discourse()
    for words in lines:
        state, made = understand(typed(words), state, lexicon)
    return made


@pytest.mark.parametrize(
    ("lines", "value"),
    [
        (["main chat one twenty eight"], "128"),  # "main" stands for the jet by itself
        (["mane jet one twenty eight"], "128"),  # no other jet is a hundred and twenty eight
        (["flute height eighteen point four two"], "18.42"),  # only the float has a height
        (["float's out", "flote height eighteen point four"], "18.4"),
    ],
)
def test_what_the_other_words_decide_does_not_ask(lexicon, lines, value):
    """The same value comes of the words without the mended one: a note, no ask."""
    reading = next(s for s in _said(lexicon, *lines) if isinstance(s, Reading))
    assert (value, False) == (reading.value, reading.asks)
    assert FlagKind.NAME_MENDED in {f.kind for f in reading.flags}


@pytest.mark.parametrize(
    "words",
    ["float hide eighteen point four two", "float height ate hundredths"],
)
def test_what_the_mending_decides_asks(lexicon, words):
    """Without the mended word the part, the characteristic or the value would be another or in doubt."""
    readings = [s for s in _said(lexicon, words) if isinstance(s, Reading)]
    assert readings
    assert all(s.asks for s in readings)


def test_a_finding_on_a_mended_name_asks(lexicon):
    """What is found goes by the name alone."""
    assert all(s.asks for s in _said(lexicon, "inlet kneel is worn") if isinstance(s, ConditionNote))
