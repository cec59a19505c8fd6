"""Will a microphone do: levels worked out by hand, and what is to be changed."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.trial import tried


def _noise(level_dbfs: float, seconds: float = 3.0) -> Samples:
    """White noise whose mean square is the level, the same each time."""
    wave = np.random.default_rng(7).standard_normal(round(seconds * SAMPLE_RATE_HZ))
    return (wave * 10 ** (level_dbfs / 20)).astype(np.float32)


def _voice(level_dbfs: float, noise_dbfs: float) -> Samples:
    """Two seconds of a sine of this mean square in the middle of six seconds of noise."""
    spoken = _noise(noise_dbfs, 6.0).copy()
    time_s = np.arange(2 * SAMPLE_RATE_HZ) / SAMPLE_RATE_HZ
    sine = np.sqrt(2) * 10 ** (level_dbfs / 20) * np.sin(2 * np.pi * 200 * time_s)
    spoken[2 * SAMPLE_RATE_HZ : 4 * SAMPLE_RATE_HZ] += sine.astype(np.float32)
    return np.clip(spoken, -1, 1)


def test_the_levels_are_those_put_in() -> None:
    """Noise at −60, voice at −20: both come out, and 40 dB between them."""
    trial = tried(_noise(-60), _voice(-20, -60), right=True)
    assert -60 == pytest.approx(trial.noise_dbfs, abs=0.5)
    assert -20 == pytest.approx(trial.speech_dbfs, abs=0.5)
    assert 40 == pytest.approx(trial.above_db, abs=1)
    assert ("good", ()) == (trial.verdict, trial.advice)


@pytest.mark.parametrize(
    ("voice", "noise", "verdict"),
    [(-20, -60, "good"), (-20, -36, "asks_more"), (-20, -28, "unfit"), (-60, -90, "good")],
)
def test_the_verdict_goes_by_voice_above_noise(voice: float, noise: float, verdict: str) -> None:
    """20 dB and more is good, below 12 dB it will not do."""
    assert verdict == tried(_noise(noise), _voice(voice, noise)).verdict


def test_a_faint_voice_is_told() -> None:
    """Good enough against the noise, and still worth turning up."""
    (advice,) = tried(_noise(-90), _voice(-60, -90)).advice
    assert "turn the input level up" in advice


def test_clipping_is_told_first() -> None:
    """A voice that is cut off at full scale."""
    trial = tried(_noise(-60), _voice(3, -60))
    assert 0.1 < trial.clipped
    assert "unfit" == trial.verdict
    assert "too loud" in trial.advice[0]


def test_a_muted_microphone_is_told() -> None:
    """All zeros."""
    silence = np.zeros(SAMPLE_RATE_HZ, np.float32)
    trial = tried(silence, silence)
    assert "unfit" == trial.verdict
    assert "muted" in trial.advice[0]


def test_noise_alone_is_no_voice() -> None:
    """Nobody spoke: no level of speech is made up."""
    trial = tried(_noise(-50), _noise(-50, 6.0))
    assert (-120, "unfit") == (trial.speech_dbfs, trial.verdict)
    assert "No speech" in trial.advice[0]


def test_a_reading_that_came_out_wrong_lowers_it() -> None:
    """The levels are good; what was heard was not."""
    trial = tried(_noise(-60), _voice(-20, -60), right=False)
    assert "asks_more" == trial.verdict
    assert "test reading" in trial.advice[0]


@pytest.mark.parametrize("length", [0, 1, 319, 320])
def test_very_short_stretches_do_no_harm(length: int) -> None:
    """A microphone that broke off at once."""
    few = np.full(length, 0.1, np.float32)
    assert "unfit" == tried(few, few).verdict


@given(st.floats(-70, -10))
def test_more_noise_never_does_better(noise: float) -> None:
    """The order of the verdicts follows the noise."""
    order = ("unfit", "asks_more", "good")
    ranks = [order.index(tried(_noise(n), _voice(-20, n)).verdict) for n in (noise, noise + 6)]
    assert all(first >= second for first, second in pairwise(ranks))
