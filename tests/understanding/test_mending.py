"""Names heard a little wrong."""

from __future__ import annotations

import pytest

from saywright.understanding.sounds.by_sound import by_sound
from saywright.understanding.sounds.mending import mend
from saywright.understanding.tokens import tokenise


def mended(lexicon, words):
    """The words after mending, and which of them were changed."""
    tokens, changed = mend(tokenise(words.split()), lexicon)
    return " ".join(token.text for token in tokens), sorted(changed)


@pytest.mark.parametrize(
    ("words", "meant", "changed"),
    [
        ("main chat one twenty eight", "main jet one twenty eight", [1]),
        ("float hide", "float height", [1]),
        ("nine pint eight", "nine point eight", [1]),
        ("it has know scratches", "it has no scratches", [2]),
        ("float dropped", "float drop", []),  # another form of the word is no guess
    ],
)
def test_a_name_is_mended_by_its_sound(lexicon, words, meant, changed):
    """A word that nothing knows, beside the rest of a name, becomes the name's word and is marked."""
    assert (meant, changed) == mended(lexicon, words)


@pytest.mark.parametrize("words", ["main jet", "the light is bad in here", "i know", "a pint of oil", ""])
def test_what_is_known_stays(lexicon, words):
    """Words of the sheet, of bench talk and plain English are left as they are."""
    assert (words, []) == mended(lexicon, words)


def test_what_was_asked_before_changes_nothing(lexicon):
    """A word taken for a doing where only that can stand is not taken for one where a state is told."""
    assert {3: "bin"} == by_sound(["it", "had", "a", "bene"], 3, lexicon)
    assert {} == by_sound(["been", "bene", "and"], 1, lexicon)


def test_a_state_heard_as_two_words_asks(lexicon):
    """The sound of two words together is a guess, whatever they make."""
    assert ("the body is corroded", [3]) == mended(lexicon, "the body is core oded")
