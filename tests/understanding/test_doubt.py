"""Several hypotheses: the mass of each value, and the threshold below which it asks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from saywright.flags import FlagKind
from saywright.hearing.adapters.bench_ears import NAME
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.understanding.discourse import Discourse
from saywright.understanding.doubt import Evidence, figures_of, probability_right
from saywright.understanding.doubt_figures import FIGURES
from saywright.understanding.parse import understand


def heard(*hypotheses, listener="scripted"):
    """An utterance of (text, probability), best first."""
    return Utterance(
        hypotheses=tuple(
            Hypothesis(words=tuple(Word(text=w) for w in text.split()), probability=p)
            for text, p in hypotheses
        ),
        start_s=0.0,
        end_s=2.0,
        listener=listener,
    )


def reading(lexicon, *hypotheses, listener="scripted"):
    """The first reading understood from them."""
    _, statements = understand(heard(*hypotheses, listener=listener), Discourse(), lexicon)
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


def test_heard_words_carry_a_probability(lexicon):
    """One hypothesis of a recogniser is heard, not typed: it may still be wrong."""
    made = reading(lexicon, ("float height is eighteen point four two", 1.0), listener="whisper tiny.en")
    assert made.probability is not None
    assert 0.5 < made.probability < 1
    assert not made.asks


def test_a_number_beside_something_unclear_asks(lexicon):
    """ "Nine void five" for "nine point five": the nine is not taken."""
    made = reading(lexicon, ("float weight reads nine void five grams", 1.0), listener="whisper tiny.en")
    assert FlagKind.SECOND_NUMBER in {f.kind for f in made.flags}


@pytest.mark.parametrize(
    ("words", "asks"),
    [
        ("needle length twenty two point six four", False),
        ("needle length twenty two point six", True),  # the limits are 22.40 and 22.80
        ("float height eighteen point four four", False),  # limits 18.0 and 18.8, caliper of 0.01
        ("float height eighteen point four", False),
        ("float height eighteen point four four four", True),
    ],
)
def test_decimals_that_are_not_read_here_ask(lexicon, words, asks):
    """A digit lost or said twice leaves other decimals than those of the limits and the instrument."""
    assert asks == reading(lexicon, (words, 1.0), listener="whisper tiny.en").asks
    assert not reading(lexicon, (words, 1.0)).asks  # typed as it is


def test_of_the_same_meaning_the_plainer_words_are_taken(lexicon):
    """The recogniser's odd spelling of a name does not ask where another hypothesis has the name."""
    made = reading(
        lexicon,
        ("float hight is eighteen point four two", 0.6),
        ("float height is eighteen point four two", 0.4),
        listener="whisper tiny.en",
    )
    assert ("float height is eighteen point four two", False) == (made.heard, made.asks)


def test_a_reading_in_a_part_of_the_hypotheses_is_not_dropped(lexicon):
    """Words without a reading hold 0.6, a reading 0.4: it is asked about, not lost."""
    made = reading(
        lexicon,
        ("floating hide his a teen four", 0.6),
        ("float height is eighteen point four two", 0.4),
        listener="another",
    )
    assert ("18.42", True) == (made.value, made.asks)


def test_an_untrusted_listener_always_asks(lexicon):
    """PocketSphinx is too sure of what it mishears."""
    made = reading(lexicon, ("float height is eighteen point four two", 1.0), listener="sphinx en-us")
    assert FlagKind.POORLY_HEARD in {f.kind for f in made.flags}


@pytest.mark.parametrize("listener", FIGURES)
def test_more_speaks_for_a_value_the_higher_its_probability(listener):
    """Rises with the share, falls with each thing that speaks against."""
    plain = Evidence(share=0.7, outside=False, odd=False)
    figures = FIGURES[listener]
    shares = [probability_right(replace(plain, share=share), figures) for share in (0.0, 0.3, 0.7, 0.95, 1.0)]
    assert sorted(shares) == shares
    for name in ("outside", "odd", "crowded", "misfit"):
        assert probability_right(replace(plain, **{name: True}), figures) < probability_right(plain, figures)


def test_an_unlikely_value_is_not_lost_to_words_without_one(lexicon):
    """Of a value outside what is plausible and of words without a number, the value is asked about."""
    made = reading(lexicon, ("float height ninety", 0.6), ("float height nine d", 0.4), listener="whisper x")
    assert ("90", True) == (made.value, made.asks)


def test_figures_are_the_listeners_own_then_its_engines():
    """Bench ears are doubted by what was fit for them; another Whisper by Whisper's; the rest as unknown."""
    assert FIGURES[NAME] is figures_of(NAME)
    assert FIGURES["whisper"] is figures_of("whisper tiny.en")
    assert FIGURES["whisper"] is figures_of("whisper large")
    assert FIGURES[""] is figures_of("vosk small")
    assert FIGURES[NAME] != FIGURES["whisper"]
