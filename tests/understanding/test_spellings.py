"""Tests of one word spelled in two ways."""

import pytest

from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.naming.spellings import as_spelled, other_spellings
from saywright.understanding.tokens import tokenise


def _sheet(*components: Component) -> Sheet:
    return Sheet(id="bench", title="Bench", component=components)


@pytest.mark.parametrize(
    ("british", "american"),
    [
        ("centre", "center"),
        ("centres", "centers"),
        ("centred", "centered"),
        ("centring", "centering"),
        ("fibre", "fiber"),
        ("litre", "liter"),
        ("colour", "color"),
        ("coloured", "colored"),
        ("vapour", "vapor"),
        ("oxidised", "oxidized"),
        ("analyser", "analyzer"),
        ("swivelling", "swiveling"),
        ("tyres", "tires"),
        ("greyish", "grayish"),
        ("moulded", "molded"),
        ("aluminium", "aluminum"),
        ("carburettors", "carburetors"),
        ("gauge", "gage"),
        ("disc", "disk"),
        ("sulphur", "sulfur"),
        ("sulphated", "sulfated"),
    ],
)
def test_pairs(british, american):
    """Each is among the other spellings of the other."""
    assert american in set(other_spellings(british))
    assert british in set(other_spellings(american))


@pytest.mark.parametrize(
    "word", ["four", "for", "stalled", "filled", "sealed", "tier", "her", "size", "bore"]
)
def test_words_that_only_look_alike(word):
    """A word that is spelled in one way is put for no other English word."""
    assert {"for", "four", "staled", "filed", "tire", "hre", "boer"}.isdisjoint(other_spellings(word))


def test_reads_the_sheets_spelling():
    """What was said is read as the sheet writes it; where it knows both words, each stays itself."""
    one = build_lexicon(_sheet(Component(id="wire", names=("grey wire",))))
    both = build_lexicon(
        _sheet(Component(id="plug", names=("vice plug",)), Component(id="jaw", names=("vise jaw",)))
    )
    assert "grey wire" == " ".join(t.text for t in as_spelled(tokenise(["gray", "wire"]), one.spelled))
    assert "vise jaw" == " ".join(t.text for t in as_spelled(tokenise(["vise", "jaw"]), both.spelled))


def test_sheet_that_spells_one_word_both_ways():
    """The positions' spelling is read, and a name in the other one is known in it too."""
    lexicon = build_lexicon(
        _sheet(
            Component(id="bush", names=("bush",), positions=("front", "center"), count=2),
            Component(
                id="bolt", names=("centre bolt",), characteristic=(Characteristic(id="torque", unit="N.m"),)
            ),
        )
    )
    said = as_spelled(tokenise(["centre", "bolt"]), lexicon.spelled)
    assert ["center", "bolt"] == [t.text for t in said]
    assert ("bolt",) == lexicon.names(("center", "bolt"), 0).parts
