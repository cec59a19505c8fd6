"""Numbers split by a pause."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading


def said(lexicon, *lines, times=None):
    """The readings that still hold after *lines*, as values."""
    state, made, gone = Discourse(), [], set()
    for index, line in enumerate(lines):
        state, statements = understand(typed(line, start_s=times[index] if times else None), state, lexicon)
        made += [s for s in statements if isinstance(s, Reading)]
        gone |= {old for s in statements if s.kind == "correction" for old in s.supersedes}
    return [s.value for s in made if s.id not in gone]


@pytest.mark.parametrize(
    ("lines", "values"),
    [
        (("float height is eighteen", "point four two"), ["18.42"]),
        (("float height is eighteen point", "four two"), ["18.42"]),
        (("air screw one", "and a half"), ["1.5"]),
        (("float height is eighteen", "uh point four"), ["18.4"]),
        (("float height is eighteen point four", "bowl is off", "point two"), ["18.4", "0.2"]),
    ],
)
def test_a_number_goes_on_behind_a_pause(lexicon, lines, values):
    """A point or a fraction at the head of an utterance goes on with the number that ended the last one."""
    assert values == said(lexicon, *lines)


def test_the_joined_value_takes_the_place_of_the_first(lexicon):
    """The half of the number that was read first no longer holds and is named as corrected."""
    state, first = understand(typed("float height is eighteen"), Discourse(), lexicon)
    _, then = understand(typed("point four two"), state, lexicon)
    assert [(first[0].id,)] == [s.supersedes for s in then if s.kind == "correction"]
