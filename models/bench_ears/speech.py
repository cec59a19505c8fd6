"""Text → speech for the lists. Edge: runs flite and espeak-ng. No speaker of one list is in another."""

from __future__ import annotations

import os
import random
import subprocess
import tempfile
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np
import numpy.typing as npt

Samples = npt.NDArray[np.float32]  # (n_samples,) mono, −1…1, 16 kHz

RATE_HZ = 16_000


@dataclass(frozen=True, slots=True)
class Voice:
    """One synthetic speaker in one manner."""

    program: str  # flite, espeak-ng or text2wave
    name: str
    pace: float = 1.0  # length over the usual length
    pitch: int = 50  # espeak-ng only, 0…99


_ACCENTS = ("en-us", "en-029", "en-gb-x-gbclan", "en-gb-x-gbcwmd")
_VARIANTS = ("f1", "f2", "f4", "m1", "m2", "m4", "m6", "m8", "klatt", "klatt2", "croak")
EVALUATED = {
    "choose": (
        Voice("flite", "awb"),
        Voice("flite", "awb", 1.15),
        Voice("flite", "kal16"),
        Voice("espeak-ng", "en-gb-scotland+f3"),
    ),
    "report": (
        Voice("flite", "rms"),
        Voice("flite", "rms", 0.9),
        Voice("text2wave", "ked_diphone"),
        Voice("espeak-ng", "en-gb+m3"),
    ),
    "again": (
        Voice("flite", "rms", 1.1),
        Voice("flite", "rms", 0.95),
        Voice("text2wave", "ked_diphone"),
        Voice("espeak-ng", "en-gb-x-rp+m7"),
    ),
}


def training_voice(rng: random.Random) -> Voice:
    """One of the training speakers, in a manner of its own."""
    if rng.random() < 0.5:
        return Voice("flite", "slt", round(rng.uniform(0.75, 1.35), 2))
    name = f"{rng.choice(_ACCENTS)}+{rng.choice(_VARIANTS)}"
    return Voice("espeak-ng", name, round(rng.uniform(0.75, 1.35), 2), rng.randint(25, 80))


def say(words: str, voice: Voice) -> Samples:
    """*words* in *voice*, peak 0.5, silence trimmed."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(
            _command(words, voice, path), input=words.encode(), check=True, capture_output=True, timeout=60
        )
        return trimmed(read_wav(path))


def say_all(wanted: Sequence[tuple[str, Voice]], workers: int, kept: Path | None = None) -> list[Samples]:
    """`say` for each, side by side; what is in the folder *kept* is not said again."""
    with ThreadPoolExecutor(workers) as pool:
        return list(pool.map(lambda one: say(*one) if kept is None else _kept(*one, kept), wanted))


def _kept(words: str, voice: Voice, folder: Path) -> Samples:
    path = folder / f"{sha256(repr((words, voice)).encode()).hexdigest()[:24]}.npy"
    if not path.exists():
        part = path.with_suffix(f".{os.getpid()}.part")
        with part.open("wb") as file:
            np.save(file, say(words, voice))
        part.replace(path)
    samples: Samples = np.load(path)
    return samples


def read_wav(path: Path) -> Samples:
    """A 16-bit mono WAV file at 16 kHz."""
    import wave  # noqa: PLC0415

    with wave.open(str(path)) as file:
        rate_hz = file.getframerate()
        samples = np.frombuffer(file.readframes(file.getnframes()), dtype="<i2").astype(np.float32) / 32768
    return samples if rate_hz == RATE_HZ else resampled(samples, rate_hz)


def resampled(samples: Samples, rate_hz: int) -> Samples:
    """At 16 kHz, by the spectrum."""
    length = round(len(samples) * RATE_HZ / rate_hz)
    spectrum = np.fft.rfft(samples)
    kept = np.zeros(length // 2 + 1, dtype=np.complex128)
    count = min(len(kept), len(spectrum))
    kept[:count] = spectrum[:count]
    out: Samples = (np.fft.irfft(kept, length) * (length / len(samples))).astype(np.float32)
    return out


def trimmed(samples: Samples) -> Samples:
    """Without the silence around it, peak 0.5."""
    peak = float(np.max(np.abs(samples), initial=1e-6))
    loud = np.flatnonzero(np.abs(samples) > 0.02 * peak)
    if not len(loud):
        return np.zeros(RATE_HZ // 10, np.float32)
    margin = RATE_HZ // 50
    cut: Samples = samples[max(0, loud[0] - margin) : loud[-1] + margin] * np.float32(0.5 / peak)
    return cut


def _command(words: str, voice: Voice, path: Path) -> list[str]:
    if voice.program == "flite":
        stretch = f"duration_stretch={voice.pace}"
        return ["flite", "-voice", voice.name, "--setf", stretch, "-t", words, "-o", str(path)]
    if voice.program == "text2wave":
        return ["text2wave", "-eval", f"(voice_{voice.name})", "-o", str(path)]
    speed = str(round(150 / voice.pace))
    return ["espeak-ng", "-v", voice.name, "-s", speed, "-p", str(voice.pitch), "-w", str(path), words]
