"""Tests of the sides that an utterance turns to or leaves in passing."""

import pytest

from saywright.sheets.model import Component, Sheet
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.sides.side_turns import find_turns
from saywright.understanding.tagging import tag
from saywright.understanding.tokens import tokenise

SIDES = ("left", "right")
SHEET = Sheet(
    id="bench",
    title="Bench",
    component=(
        *(Component(id=name, names=(name,), positions=SIDES, count=2) for name in ("drum", "hub", "seal")),
        Component(
            id="shoe",
            names=("shoe",),
            positions=("left upper", "left lower", "right upper", "right lower"),
            count=4,
        ),
        Component(id="bolt", names=("bolt",), count=8),
    ),
)
LEXICON = build_lexicon(SHEET)


def turns(said):
    """The sides turned to, with "-" before one that is left."""
    tokens = tokenise(said.split())
    texts = [token.text for token in tokens]
    return ["-" * turn.leaves + turn.side for turn in find_turns(tag(tokens, LEXICON), texts, SHEET)]


@pytest.mark.parametrize(
    "said",
    [
        "i think we'll take the left one first",
        "right so i shall now move over to the left side",
        "left end first bolts out",
        "drum's off now the left one",
        "turning to the left the drum's cracked",
        "i'll start with the left and that's four bolts out",
        "now the left drum's cracked",
        "starting with the left brake",
        "this is the left one",
        "left side next",
    ],
)
def test_words_that_turn_to_a_side(said):
    """What leads to a position, or tells it to come first, turns to it where nothing claims it."""
    assert ["left"] == turns(said)


@pytest.mark.parametrize(
    "said",
    [
        "same as the left one",
        "a seal for the left",
        "i'll take the left one off",
        "not the left one first",
        "do we do the left one first",
        "drum's cracked on the left",
        "left drum's cracked",
        "the left one is cracked",
        "always do the left side first",
        "wind it over to the left",
    ],
)
def test_words_that_only_name_a_side(said):
    """A comparison, an order, a movement, a state and a question turn to none."""
    assert [] == turns(said)


def test_a_side_is_left_for_another():
    """What is done is left; what is to come is not turned to yet."""
    assert ["-left", "right"] == turns("that's the left one in pieces so now i'll turn to the right")
    assert ["-left"] == turns("that completes the left")
    assert ["left"] == turns("we'll do the left side first and then the right")
    assert ["-"] == turns("hubs are dry on both sides")
