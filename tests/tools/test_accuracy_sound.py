"""What a shop, a room and a telephone do to speech."""

import numpy as np
import pytest
from accuracy.clips import half_of
from accuracy.human import strings
from accuracy.surroundings import CONDITIONS, add_noise, apply, telephone

RATE_HZ = 16_000


def tone(hz, seconds=2.0):
    """A sine of 0.3."""
    return (0.3 * np.sin(2 * np.pi * hz * np.arange(int(seconds * RATE_HZ)) / RATE_HZ)).astype(np.float32)


@pytest.mark.parametrize("condition", CONDITIONS)
def test_surroundings_are_repeatable_and_in_range(condition):
    """The same seed gives the same samples, as many as before, none above 1."""
    speech = tone(440)
    first, again = apply(condition, speech, 3), apply(condition, speech, 3)
    assert np.array_equal(first, again)
    assert len(speech) == len(first)
    assert 1.0 >= np.max(np.abs(first))


@pytest.mark.parametrize("ratio_db", [5.0, 15.0])
def test_noise_is_as_far_below_the_speech_as_asked(ratio_db):
    """Power of the speech over power of what was added."""
    speech = 0.3 * tone(440)  # soft, so that nothing is scaled down
    noise = add_noise(speech, ratio_db, np.random.default_rng(1)) - speech
    assert pytest.approx(ratio_db, abs=0.5) == 10 * np.log10(np.mean(speech**2) / np.mean(noise**2))


@pytest.mark.parametrize(("hz", "passes"), [(100, False), (1000, True), (5000, False)])
def test_a_telephone_passes_its_band(hz, passes):
    """Nothing below 300 Hz and above 3.4 kHz (ITU-T G.712, from memory)."""
    assert passes == (np.std(telephone(tone(hz))) > 0.1)


def test_halves_do_not_depend_on_chance():
    """The half of an utterance is fixed by its words, and both are used."""
    words = [one.words for one in strings(100)]
    halves = [half_of(one) for one in words]
    assert halves == [half_of(one) for one in words]
    assert 35 < halves.count("tuning") < 65
