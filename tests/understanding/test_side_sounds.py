"""Tests of common words heard for a side or for the part behind one."""

import pytest

from saywright.sheets.model import Component, Sheet
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.sounds.side_sounds import sides_heard
from saywright.understanding.tokens import tokenise

SHEET = Sheet(
    id="bench",
    title="Bench",
    component=(
        Component(id="wheel", names=("wheel",), positions=("left", "right"), count=2),
        Component(
            id="pad",
            names=("pad", "pads"),
            positions=("left inner", "left outer", "right inner", "right outer"),
            count=4,
        ),
        Component(id="caliper", names=("caliper",)),
    ),
)
LEXICON = build_lexicon(SHEET)


def heard(said):
    """The words as they are read."""
    return " ".join(token.text for token in sides_heard(tokenise(said.split()), LEXICON))


@pytest.mark.parametrize(
    ("read", "said"),
    [
        ("inner pad five point two", "in a pad five point two"),
        ("left outer pad is worn", "left out a pad is worn"),
        ("left wheel off", "left we'll off"),
        ("right wheel off", "right we'll off"),
    ],
)
def test_what_makes_no_sense_is_the_side_or_the_part(read, said):
    """A place before its part and what was read on it, and a part between its side and how it moved."""
    assert read == heard(said)


@pytest.mark.parametrize(
    "said",
    [
        "there is grit in a pad five wide",
        "in a caliper five point two",
        "in a pad there is grit",
        "right we will have that off",
        "right we will be off",
        "well off",
    ],
)
def test_what_makes_sense_stays(said):
    """Words that say something where they stand are left."""
    assert said == heard(said)
