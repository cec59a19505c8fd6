"""Tests of positions told by another everyday word than the sheet's."""

import pytest

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.naming.place_synonyms import as_on_sheet, other_words
from saywright.understanding.tokens import tokenise

SHEET = Sheet(
    id="bench",
    title="Bench",
    component=(
        Component(id="drum", names=("drum",), positions=("front", "rear"), count=2),
        Component(id="pin", names=("slide pin", "pin"), positions=("left upper", "left lower"), count=2),
        Component(id="cap", names=("top cap",)),
        Component(id="cover", names=("cover",)),
    ),
)
LEXICON = build_lexicon(SHEET)


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("the back one is cracked", "the rear one is cracked"),
        ("now the back", "now the rear"),
        ("left bottom pin out", "left lower pin out"),
        ("back drum off", "rear drum off"),
        ("back drum on", "back drum on"),  # it goes back on, or it is the rear one
        ("put it back", "put it back"),
        ("back cover off", "back cover off"),  # no part that has such a place
        ("back right", "back right"),  # nothing behind it
        ("top pin out", "upper pin out"),
        ("top cap off", "top cap off"),
        ("the top one is out", "the top one is out"),  # it may be the top cap
    ],
)
def test_position_by_another_word(said, read):
    """A word of the same sense is the sheet's own word before what is so placed, and nowhere else."""
    assert read == " ".join(t.text for t in as_on_sheet.reword(tokenise(said.split()), Discourse(), LEXICON))


def test_words_of_a_group_that_the_sheet_tells_apart():
    """Where the sheet uses two words of one group they mean two places, and none is put for the other."""
    assert {} == dict(other_words({"inner", "inside"}))
    assert {"back": "rear"} == dict(other_words({"rear"}))
