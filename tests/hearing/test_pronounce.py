"""Pronunciations for words a dictionary lacks."""

from pathlib import Path

import pocketsphinx
import pytest

from saywright.hearing.adapters.sphinx import dictionary_text, read_dictionary
from saywright.hearing.pronounce import pronounce

KNOWN = {
    "split": ("S P L IH T",),
    "pin": ("P IH N",),
    "gasket": ("G AE S K AH T",),
    "psi": ("S AY",),
    "read": ("R EH D", "R IY D"),
}


@pytest.mark.parametrize(
    ("word", "phones"),
    [
        ("pin", "P IH N"),
        ("psi", "P IY EH S AY"),  # the dictionary of pocketsphinx 5 holds the Greek letter, S AY
        ("splitpin", "S P L IH T P IH N"),
        ("gaskets", "G AE S K AH T Z"),
        ("mlb", "EH M EH L B IY"),
        ("b2", "B IY T UW"),
        ("grommet", "G R AA M EH T"),
        ("spline", "S P L IH N"),
    ],
)
def test_pronunciation(word: str, phones: str) -> None:
    """Own words, then the dictionary, then two words in one, then letters, then rules."""
    assert phones == pronounce(word, KNOWN)[0]


def test_all_ways_of_the_dictionary_are_kept() -> None:
    """A word that can be said in two ways keeps both, numbered as the format wants."""
    assert "read R EH D\nread(2) R IY D\n" == dictionary_text(["read"], KNOWN)


def test_the_shop_says_it_its_own_way() -> None:
    """The shop's pronunciation comes first; what the dictionary has stays beside it."""
    sounds = {"read": "R EY D", "zwoggle": "Z W AO G AH L"}
    assert "read R EY D\nread(2) R EH D\nread(3) R IY D\nzwoggle Z W AO G AH L\n" == dictionary_text(
        ["read", "zwoggle"], KNOWN, sounds
    )


def test_any_word_gets_phones_of_the_set() -> None:
    """Whatever the word, only phones that the acoustic model has are used."""
    folder = Path(pocketsphinx.get_model_path("en-us"))
    known = read_dictionary((folder / "cmudict-en-us.dict").read_text(encoding="utf-8"))
    phones = {phone for ways in known.values() for way in ways for phone in way.split()}
    for word in (
        "zwickel",
        "o",
        "überwurf",
        "tchk",
        "quay",
        "x",
        "e",
        "'",
        "diaphragm's",
        "bowlscrew",
        "№",
        "1/3",
    ):
        assert set(pronounce(word, known)[0].split()) <= phones
        assert pronounce(word, known)[0]


def test_dictionary_has_what_was_published_of_it() -> None:
    """The dictionary has the aviation words niner, tree, fife and lacks fower, juliett, carburettor."""
    folder = Path(pocketsphinx.get_model_path("en-us"))
    known = read_dictionary((folder / "cmudict-en-us.dict").read_text(encoding="utf-8"))
    assert {"niner", "tree", "fife", "thousandths", "caliper", "carburetor"} <= set(known)
    assert not {"fower", "juliett", "carburettor"} & set(known)
