"""Several hypotheses: the mass of each value, and the threshold below which it asks."""

from __future__ import annotations

import pytest

from saywright.flags import FlagKind
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand


def heard(*hypotheses):
    """An utterance of (text, probability), best first."""
    return Utterance(
        hypotheses=tuple(
            Hypothesis(words=tuple(Word(text=w) for w in text.split()), probability=p)
            for text, p in hypotheses
        ),
        start_s=0.0,
        end_s=2.0,
    )


def reading(lexicon, *hypotheses):
    """The first reading understood from them."""
    _, statements = understand(heard(*hypotheses), Discourse(), lexicon)
    return next(s for s in statements if s.kind == "reading")


def test_the_mass_of_a_value_is_summed(lexicon):
    """Two wordings of one value count together: 0.3 + 0.3 of 1."""
    made = reading(
        lexicon,
        ("float height is eighteen point four", 0.3),
        ("float height eighteen point four", 0.3),
        ("float height is eighteen point five", 0.4),
    )
    assert ("18.4", 0.6, False) == (made.value, made.probability, made.asks)


def test_a_value_below_the_threshold_asks(lexicon):
    """The best of three values with 0.4 of the mass is asked about."""
    made = reading(
        lexicon,
        ("float height is eighteen point four", 0.4),
        ("float height is eighteen point five", 0.3),
        ("float height is eighteen point three", 0.3),
    )
    assert ("18.4", 0.4) == (made.value, made.probability)
    assert FlagKind.HEARINGS_DISAGREE in {f.kind for f in made.flags}


def test_the_plausible_value_wins(lexicon):
    """A hypothesis outside the plausible range weighs a fifth: 0.6 × 0.2 against 0.4."""
    made = reading(
        lexicon, ("float height is eighty point four", 0.6), ("float height is eighteen point four", 0.4)
    )
    assert "18.4" == made.value
    assert pytest.approx(0.4 / 0.52, abs=1e-3) == made.probability


def test_one_hypothesis_has_no_probability(lexicon):
    """Typed words carry no doubt of the listener."""
    assert reading(lexicon, ("float height is eighteen point four", 1.0)).probability is None
