"""How alike words sound."""

from __future__ import annotations

import pytest

from saywright.understanding.sounds.consonants import likeness, sound_key


@pytest.mark.parametrize(
    ("heard", "meant"), [("chat", "jet"), ("kneel", "needle"), ("hide", "height"), ("sheet", "seat")]
)
def test_misheard_words_are_near(heard, meant):
    """Words that recognisers take for each other are above the measure for mending a name."""
    assert likeness(heard, meant) >= 0.5


@pytest.mark.parametrize(("one", "other"), [("jet", "bowl"), ("float", "screw"), ("needle", "gasket")])
def test_other_words_are_far(one, other):
    """Words of the same bench that nobody confuses stay apart."""
    assert likeness(one, other) < 0.5


@pytest.mark.parametrize("word", ["", "a", "eau", "x", "ghgh", "ñandú", "18"])
def test_any_word_has_a_key(word):
    """No spelling fails, and the likeness of a word that has a key to itself is one."""
    assert (1.0 if sound_key(word) else 0.0) == likeness(word, word)
