"""The board's sounds: short, told apart by pitch and by rhythm: notes → WAV bytes."""

from __future__ import annotations

import io
import wave
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

RATE_HZ = 22_050
PEAK = 0.6  # of full scale; the page sets the volume
_EDGE_S = 0.008  # rise and fall of a note, so that it does not click
_OVERTONE = 0.25  # share of the octave above: heard through ear defenders better than a bare sine


@dataclass(frozen=True, slots=True)
class Note:
    """One note, or a rest where it has no pitch."""

    pitch_hz: float  # 0: silence
    length_s: float


SOUNDS: dict[str, tuple[Note, ...]] = {
    # Two quick notes upwards: taken down.
    "understood": (Note(880.0, 0.07), Note(0, 0.03), Note(1318.5, 0.11)),
    # Short, short, long on the lower side, the last one rising like a question.
    "asks": (Note(523.3, 0.09), Note(0, 0.07), Note(523.3, 0.09), Note(0, 0.07), Note(784.0, 0.34)),
    # Two long notes downwards: the ears close.
    "paused": (Note(440.0, 0.26), Note(0, 0.05), Note(293.7, 0.38)),
    # The same upwards: the ears open.
    "resumed": (Note(293.7, 0.2), Note(0, 0.05), Note(440.0, 0.26)),
}


@cache
def sound_wav(name: str) -> bytes:
    """The sound as a WAV file, 16-bit mono; KeyError for a name not in `SOUNDS`."""
    samples = np.concatenate([_note(note) for note in SOUNDS[name]])
    pcm = np.round(samples * PEAK * 32767).astype("<i2")
    buffer = io.BytesIO()
    with wave.open(buffer, "wb") as wav:
        wav.setnchannels(1)
        wav.setsampwidth(2)
        wav.setframerate(RATE_HZ)
        wav.writeframes(pcm.tobytes())
    return buffer.getvalue()


def _note(note: Note) -> npt.NDArray[np.float64]:
    """(n_samples,) −1…1."""
    count = round(note.length_s * RATE_HZ)
    t_s = np.arange(count) / RATE_HZ
    tone = np.sin(2 * np.pi * note.pitch_hz * t_s) + _OVERTONE * np.sin(4 * np.pi * note.pitch_hz * t_s)
    edge = np.minimum(1.0, np.minimum(t_s, note.length_s - t_s) / _EDGE_S)
    return np.asarray(tone / (1 + _OVERTONE) * np.clip(edge, 0.0, 1.0))
