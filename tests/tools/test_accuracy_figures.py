"""Outcomes of clips, calibration, the trade-off."""

import random

import pytest
from accuracy.calibrate import Heard, Sample, brier, cheapest, fit, prices, reliability
from accuracy.outcomes import f1, outcome

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.doubt import Evidence, probability_right
from saywright.understanding.doubt_figures import Figures
from saywright.understanding.lexicon import build_lexicon

FIGURES = Figures(base=0.0, share=1.0, outside=-3.0, odd=-1.0, crowded=-2.0, misfit=-2.0)


@pytest.fixture(scope="module")
def lexicon():
    """The words of the sheet that ships."""
    return build_lexicon(load_sheet("outboard-float-carburetor"))


def came(lexicon, heard, truth, words="float height eighteen point four two"):
    """What came of words heard as *heard*."""
    return outcome([typed(heard)], lexicon, lead="", words=words, truth=truth)


RIGHT = ("reading float.height 18.42 mm",)


def test_a_right_reading_is_exact(lexicon):
    """Everything agrees: exact, nothing silent, nothing asked, no word wrong."""
    one = came(lexicon, "float height eighteen point four two", RIGHT)
    assert (True, False, False, False, 0, 6) == (
        one.exact,
        one.silent,
        one.asks,
        one.lost,
        one.word_errors,
        one.words,
    )
    assert 1.0 == f1([one], "reading")
    assert f1([one], "action") is None


def test_a_wrong_number_that_does_not_ask_is_silent(lexicon):
    """The worst defect is counted as such."""
    one = came(lexicon, "float height eighteen point five two", RIGHT)
    assert (False, True, False, False) == (one.exact, one.silent, one.asks, one.lost)
    assert 0.0 == f1([one], "reading")


def test_a_wrong_number_that_asks_is_not_silent(lexicon):
    """Out of the plausible range it asks."""
    one = came(lexicon, "float height eighty point four two", RIGHT)
    assert (False, False, True, False) == (one.exact, one.silent, one.asks, one.lost)


def test_words_without_a_reading_lose_it(lexicon):
    """Nothing came out and nothing tells so."""
    assert came(lexicon, "the weather is nice", RIGHT).lost


def test_digits_count_as_a_number(lexicon):
    """18.4 answers for 18.40."""
    assert came(lexicon, "float height eighteen point four", ("reading float.height 18.40 mm",)).exact


def test_a_lead_names_what_the_number_is_of(lexicon):
    """The line typed before gives the part."""
    one = outcome([typed("eighteen point four two")], lexicon, lead="float height", words="", truth=RIGHT)
    assert one.exact


def samples(count=4000):
    """Readings that are right exactly as often as FIGURES say; seeded."""
    rng = random.Random(11)
    made = []
    for _ in range(count):
        known = Evidence(rng.uniform(0.05, 0.95), *(rng.random() < 0.2 for _ in range(4)))
        made.append(Sample(known, rng.random() < probability_right(known, FIGURES), asks=False))
    return made


def test_the_fit_finds_the_figures_that_made_the_samples():
    """Logistic regression gets back the coefficients the samples were drawn from, within their spread."""
    found = fit(samples())
    assert pytest.approx(FIGURES.base, abs=0.2) == found.base
    assert pytest.approx(FIGURES.share, abs=0.2) == found.share
    assert pytest.approx(FIGURES.outside, abs=0.5) == found.outside
    assert pytest.approx(FIGURES.crowded, abs=0.4) == found.crowded


def test_samples_that_are_as_right_as_said_are_reliable():
    """In each stretch of probability the share that is right is the mean probability."""
    bins = reliability(samples(), FIGURES)
    assert 4000 == sum(one.count for one in bins)
    assert all(abs(one.said - one.right) < 0.06 for one in bins if one.count > 200)


def test_brier_of_a_coin():
    """Half and half said of anything scores a quarter (Brier 1950)."""
    coin = Evidence(0.5, outside=False, odd=False)
    assert 0.25 == brier([Sample(coin, True, False), Sample(coin, False, False)], FIGURES)


def clip(share, *, right, asks=False):
    """A clip with one reading."""
    return Heard((Sample(Evidence(share, outside=False, odd=False), right, asks),), unclear=False)


def test_a_higher_threshold_buys_fewer_silent_errors_with_asks():
    """At 0.5 a wrong one with a share of 0.6 is taken, at 0.7 it asks, at 0.95 the right one asks too."""
    clips = [clip(0.6, right=False), clip(0.9, right=True)]
    found = [(p.silent, p.asks, p.needless) for p in prices(clips, FIGURES, (0.5, 0.7, 0.95))]
    assert [(0.5, 0.0, 0.0), (0.0, 0.5, 0.0), (0.0, 1.0, 0.5)] == found


def test_the_cheapest_threshold_keeps_to_the_budget():
    """No needless ask allowed: the threshold that catches the wrong one and no right one."""
    best = cheapest([clip(0.6, right=False), clip(0.9, right=True)], FIGURES, 0.0)
    assert (0.0, 0.0) == (best.silent, best.needless)
    assert 0.6 < best.threshold <= 0.9
