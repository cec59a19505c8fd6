"""A number that can be read in two ways, beside a value of the same kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.flags import FlagKind
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading

SHEETS = Path(__file__).parents[1] / "cases" / "sheets"


@pytest.fixture(scope="module")
def fork() -> Lexicon:
    """The lexicon of a suspension fork: stanchions to hundredths, foot bolts with two limits."""
    return build_lexicon(load_sheet(str(SHEETS / "suspension-fork.toml")))


def _last(lexicon: Lexicon, *lines: str) -> Reading:
    """The last reading of the talk."""
    state = Discourse()
    found: list[Reading] = []
    for words in lines:
        state, made = understand(typed(words), state, lexicon)
        found += [s for s in made if isinstance(s, Reading)]
    return found[-1]


FIRST = "left stanchion diameter thirty one point nine seven"


@pytest.mark.parametrize(
    ("words", "value"),
    [("right stanchion thirty one nine six", "31.96"), ("right stanchion thirty one ninety five", "31.95")],
)
def test_a_value_of_the_other_one_tells_where_the_point_goes(fork, words, value):
    """With as many decimals and within the limits' width of it, the value is taken, with a note."""
    reading = _last(fork, FIRST, words)
    assert (value, False) == (reading.value, reading.asks)
    assert FlagKind.POINT_NOT_SAID in {f.kind for f in reading.flags}


@pytest.mark.parametrize(
    "words",
    [
        "right stanchion thirty one nine",
        "right stanchion thirty four nine six",
        "damper rod diameter nine forty eight",
    ],
)
def test_what_it_does_not_confirm_asks(fork, words):
    """Fewer decimals, a value far from it, or one of something else is asked about as before."""
    assert _last(fork, FIRST, words).asks


def test_alone_it_asks(fork):
    """Nothing said before confirms it."""
    assert _last(fork, "left stanchion diameter thirty one nine seven").asks


def test_one_that_asks_confirms_nothing(fork):
    """Two values without their points do not vouch for each other."""
    assert _last(fork, "left stanchion thirty one nine seven", "right stanchion thirty one nine six").asks


def test_the_value_of_the_other_tells_whether_one_is_the_part(fork):
    """ "The other one seven and a half" beside seven is not seventeen and a half."""
    reading = _last(fork, "left foot bolt seven newton meters", "and the other one seven and a half")
    assert ("7.5", "right", False) == (reading.value, reading.which, reading.asks)
