"""How alike words sound, vowels too."""

from __future__ import annotations

import pytest

from saywright.understanding.sounds.phones import alike, phones, syllables


@pytest.mark.parametrize(
    ("heard", "meant"),
    [("watcher", "washer"), ("casket", "gasket"), ("lunger", "plunger"), ("boar", "bore"), ("sock", "soak")],
)
def test_misheard_words_are_near(heard: str, meant: str) -> None:
    """Words that recognisers take for each other are above the measure for a part."""
    assert alike(heard, meant) >= 0.76


@pytest.mark.parametrize(
    ("one", "other"), [("kettle", "needle"), ("boat", "float"), ("coffee", "collar"), ("radio", "ring")]
)
def test_other_words_are_far(one: str, other: str) -> None:
    """Words of a workshop that nobody takes for a part stay below it."""
    assert alike(one, other) < 0.76


def test_what_cannot_come_near_is_nothing() -> None:
    """Given the least that counts, what is below it is 0, and what is above it is as without."""
    assert alike("kettle", "needle", 0.9) <= alike("kettle", "needle")
    assert alike("casket", "gasket") == alike("casket", "gasket", 0.9)


@pytest.mark.parametrize(
    ("word", "vowels"), [("jet", 1), ("gasket", 2), ("plate", 1), ("needle", 1), ("", 0)]
)
def test_syllables(word: str, vowels: int) -> None:
    """A silent e is none."""
    assert vowels == syllables(word)


@pytest.mark.parametrize("word", ["", "a", "eau", "x", "ghgh", "ñandú", "18", "e", "le"])
def test_any_word_has_sounds(word: str) -> None:
    """No spelling fails; a word that sounds is its own like."""
    assert (1.0 if phones(word) else 0.0) == alike(word, word)
