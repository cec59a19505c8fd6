"""The board's sounds."""

from __future__ import annotations

import io
import itertools
import wave

import numpy as np
import pytest

from saywright.web.sounds import PEAK, RATE_HZ, SOUNDS, sound_wav


def samples(name):
    """(n_samples,) −1…1."""
    with wave.open(io.BytesIO(sound_wav(name))) as wav:
        assert (1, 2, RATE_HZ) == (wav.getnchannels(), wav.getsampwidth(), wav.getframerate())
        return np.frombuffer(wav.readframes(wav.getnframes()), dtype="<i2") / 32767


def strongest_hz(name):
    """The pitches of the notes, by the spectrum of each."""
    found, at = [], 0
    heard = samples(name)
    for note in SOUNDS[name]:
        stretch = heard[at : at + round(note.length_s * RATE_HZ)]
        at += len(stretch)
        if note.pitch_hz:
            spectrum = np.abs(np.fft.rfft(stretch, 1 << 17))
            found.append(float(np.argmax(spectrum) * RATE_HZ / (1 << 17)))
    return found


@pytest.mark.parametrize("name", SOUNDS)
def test_a_sound_is_short_and_does_not_click(name):
    """Under a second, below full scale, from silence to silence."""
    heard = samples(name)
    assert len(heard) / RATE_HZ < 1.0
    assert 0.3 < np.max(np.abs(heard)) <= PEAK + 0.001
    assert abs(heard[0]) < 0.01
    assert abs(heard[-1]) < 0.05


@pytest.mark.parametrize("name", SOUNDS)
def test_its_pitches_are_those_of_its_notes(name):
    """What is heard is what the table says."""
    wanted = [note.pitch_hz for note in SOUNDS[name] if note.pitch_hz]
    assert wanted == pytest.approx(strongest_hz(name), rel=0.02)


@pytest.mark.parametrize(("one", "other"), list(itertools.combinations(SOUNDS, 2)))
def test_two_sounds_differ_in_tune_or_rhythm(one, other):
    """Told apart by the number of notes, by their lengths, or by the way they go."""

    def tune(name):
        notes = [note for note in SOUNDS[name] if note.pitch_hz]
        return len(notes), notes[0].pitch_hz < notes[-1].pitch_hz, round(notes[-1].pitch_hz, -2)

    assert tune(one) != tune(other)
    assert sound_wav(one) != sound_wav(other)


def test_understood_asks_and_paused_have_rhythms_of_their_own():
    """Two quick notes, three with a long last one, two long ones: told apart without an ear for pitch."""
    lengths = {
        name: [note.length_s for note in SOUNDS[name] if note.pitch_hz]
        for name in ("understood", "asks", "paused")
    }
    assert [2, 3, 2] == [len(one) for one in lengths.values()]
    assert 2 * max(lengths["understood"]) < min(lengths["paused"])
