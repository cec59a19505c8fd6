"""Tests of values that other words of their utterance speak against, or that begin with a position."""

import pytest

from saywright.hearing.words import typed
from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand


def _read(name: str, most: int) -> Characteristic:
    return Characteristic(id=name, names=(name,), unit="mm", plausible=("0", str(most)))


LEXICON = build_lexicon(
    Sheet(
        id="bench",
        title="Bench",
        component=(
            Component(
                id="knife",
                names=("knife",),
                count=3,
                characteristic=(_read("projection", 4), _read("width", 60)),
            ),
            Component(
                id="hub",
                names=("hub",),
                positions=("left", "right"),
                count=2,
                characteristic=(_read("float", 4),),
            ),
        ),
    )
)


@pytest.mark.parametrize(
    ("before", "said", "asks"),
    [
        (
            "knife one projection one point oh five",
            "two one point oh six",
            True,
        ),  # 21.06, or 1.06 of knife two
        ("knife one projection one point oh five", "width twenty one point five", False),
        ("right hub float one point two", "right hub float one point four no left", False),  # the left one's
        ("right hub float one point two", "float one point four left no that's the right", False),
        ("right hub float one point two", "float one point four no play left", False),
        ("right hub float one point two", "float one point four no wear", False),
    ],
)
def test_what_speaks_against_a_value_asks(before, said, asks):
    """A number that may be a position, and a position behind a "no", are asked about."""
    state, _ = understand(typed(before), Discourse(), LEXICON)
    _, made = understand(typed(said), state, LEXICON)
    (reading,) = [one for one in made if one.kind == "reading"]
    assert asks == reading.asks


def test_a_position_put_right_behind_a_value_is_where_it_was_read():
    """ "Left, no, that's the right": of the right one."""
    state, _ = understand(typed("right hub float one point two"), Discourse(), LEXICON)
    _, made = understand(typed("float one point four left no that's the right"), state, LEXICON)
    assert ["right"] == [one.which for one in made if one.kind == "reading"]
