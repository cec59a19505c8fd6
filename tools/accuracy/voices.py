"""Text → speech, by the synthesisers of Debian. Edge: runs flite, festival and espeak-ng."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile
import soxr

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

LEAD_S, TAIL_S = 0.5, 1.4  # silence around; the tail ends an utterance by its pause


@dataclass(frozen=True, slots=True)
class Voice:
    """One synthetic speaker."""

    name: str
    program: str
    natural: bool  # made from recordings of a person, not from rules or diphones
    half: str  # "tuning" or "reported": no voice is in both


VOICES = (
    Voice("flite slt", "flite", True, "tuning"),
    Voice("flite awb", "flite", True, "tuning"),
    Voice("flite kal16", "flite", False, "tuning"),
    Voice("espeak-ng en-us", "espeak-ng", False, "tuning"),
    Voice("flite rms", "flite", True, "reported"),
    Voice("festival cmu_us_slt_arctic_hts", "text2wave", True, "reported"),
    Voice("festival kal_diphone", "text2wave", False, "reported"),
    Voice("espeak-ng en-gb", "espeak-ng", False, "reported"),
)


def voices_of(half: str, *, natural: bool) -> tuple[Voice, ...]:
    """The voices of one half that are installed."""
    return tuple(
        v for v in VOICES if v.half == half and v.natural == natural and shutil.which(v.program) is not None
    )


def say(text: str, voice: Voice) -> Samples:
    """*text* in *voice*, (n_samples,) at 16 kHz, peak 0.5, silence around it."""
    makers: dict[str, Callable[[str, str, Path], None]] = {
        "flite": _flite,
        "text2wave": _festival,
        "espeak-ng": _espeak,
    }
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        makers[voice.program](text, voice.name.split(" ", 1)[1], path)
        samples, rate_hz = soundfile.read(path, dtype="float32")
    return framed(soxr.resample(samples, rate_hz, SAMPLE_RATE_HZ))


def framed(samples: Samples) -> Samples:
    """Peak 0.5, silence before and after."""
    lead, tail = (np.zeros(int(s * SAMPLE_RATE_HZ), dtype=np.float32) for s in (LEAD_S, TAIL_S))
    peak = float(np.max(np.abs(samples), initial=1e-6))
    return np.concatenate([lead, (samples * (0.5 / peak)).astype(np.float32), tail])


def _flite(text: str, voice: str, path: Path) -> None:
    subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True, capture_output=True)


def _festival(text: str, voice: str, path: Path) -> None:
    command = ["text2wave", "-eval", f"(voice_{voice})", "-o", str(path)]
    subprocess.run(command, input=text.encode(), check=True, capture_output=True)


def _espeak(text: str, voice: str, path: Path) -> None:
    command = ["espeak-ng", "-v", voice, "-s", "145", "-w", str(path), text]
    subprocess.run(command, check=True, capture_output=True)
