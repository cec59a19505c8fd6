"""The fuzz of understanding, in a small run."""

from __future__ import annotations

import fuzz_understanding as fuzz


def test_a_thousand_utterances() -> None:
    """None fails, hangs or gives an id twice."""
    found = fuzz.run(seed=7, first=0, count=1000, limit_s=20)
    assert (1000, []) == (found.utterances, found.failures)


def test_a_range_is_always_the_same_talk() -> None:
    """A run that begins in the middle says what the whole run said there."""
    made = fuzz.benches()
    whole = list(fuzz.talks(1, 0, 150, made))
    part = list(fuzz.talks(1, 100, 50, made))
    assert [(start, said) for start, _, said in whole[2:]] == [(start, said) for start, _, said in part]
