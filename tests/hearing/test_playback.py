"""A recording in place of a microphone."""

from __future__ import annotations

import threading
import time

import numpy as np
import pytest

from saywright.errors import AudioError
from saywright.hearing.audio import wav_bytes
from saywright.hearing.listener import SAMPLE_RATE_HZ
from saywright.hearing.playback import Playback


@pytest.fixture
def recording(tmp_path):
    """Half a second of a tone."""
    path = tmp_path / "tone.wav"
    t_s = np.arange(SAMPLE_RATE_HZ // 2) / SAMPLE_RATE_HZ
    path.write_bytes(wav_bytes(np.sin(2 * np.pi * 440 * t_s).astype(np.float32) / 2))
    return path


def test_it_lasts_as_long_as_it_was_spoken(recording):
    """Half a second of sound, then two of silence, at the pace of the clock; its end is told."""
    began_s, ended = time.monotonic(), []
    with Playback(recording) as playback:
        playback.ended = lambda: ended.append(True)
        blocks = list(playback.blocks())
    took_s = time.monotonic() - began_s
    samples = np.concatenate(blocks)
    assert pytest.approx(2.5, abs=0.01) == len(samples) / SAMPLE_RATE_HZ
    assert 2.4 < took_s < 20
    assert {1600} == {len(block) for block in blocks}
    assert 0.4 < np.max(np.abs(samples[: SAMPLE_RATE_HZ // 2]))
    assert 0 == np.max(np.abs(samples[SAMPLE_RATE_HZ // 2 + 10 :]))
    assert [True] == ended
    assert ("tone.wav", 0) == (playback.name, playback.overflows)


def test_it_can_be_stopped(recording):
    """It ends at once, and that is no end of the recording."""
    playback, ended = Playback(recording), []
    playback.ended = lambda: ended.append(True)
    threading.Timer(0.25, playback.stop).start()
    began_s = time.monotonic()
    assert len(list(playback.blocks())) <= 4
    assert time.monotonic() - began_s < 10
    assert [] == ended


def test_what_is_no_recording(tmp_path):
    """Refused before anything is begun."""
    with pytest.raises(AudioError, match="no such file"):
        Playback(tmp_path / "nothing.wav")
