"""commentary.txt → bench-job.opus: the demo's bench job, spoken by two synthetic voices.

Needs the programs festival (with the voice cmu_us_slt_arctic_hts), flite and ffmpeg, and the
packages Saywright itself runs on. Run it from anywhere:

    python demo_audio/make_audio.py

Each line of the commentary starts at its time; a line that would run into the next one is an
error. The same programs give the same sound: the noise is seeded.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt
import soundfile
import soxr

HERE = Path(__file__).parent
RATE_HZ = 16_000
LEVEL_DB = -24.0  # of speech, RMS over a line, relative to full scale
FLOOR_DB = -66.0  # of the recorder's own hiss
TAIL_S = 2.0  # after the last line
BIT_RATE = "24k"

# Who speaks from when on, in seconds. Both work on the same job.
VOICES = (
    (0.0, "slt"),
    (15.4, "rms"),
    (20.8, "slt"),
    (53.7, "rms"),
    (61.7, "slt"),
    (280.7, "rms"),
    (379.7, "slt"),
    (383.0, "rms"),
    (427.2, "slt"),
)
# Where the workshop is loud: from, to, in seconds, and speech over noise in dB.
NOISY_S = (335.5, 367.5)
NOISY_SNR_DB = 15.0
# Spoken this much slower than the voice's own pace.
PACE = {"slt": 1.1, "rms": 1.1}
# Spelled for the synthesiser where it would say another word.
SPELLED = {"psi": "P S I"}

Samples = npt.NDArray[np.float32]  # (n_samples,) mono, −1…1, 16 kHz
_LINE = re.compile(r"\[(\d+):(\d+(?:\.\d+)?)\] (.+)")


@dataclass(frozen=True)
class Line:
    """One utterance of the commentary."""

    start_s: float
    text: str


def read_commentary(path: Path) -> list[Line]:
    """The lines of a commentary file, in order."""
    lines = []
    for row in path.read_text(encoding="utf-8").splitlines():
        match = _LINE.fullmatch(row)
        if not match:
            sys.exit(f"{path}: not '[mm:ss.s] words': {row!r}")
        lines.append(Line(int(match[1]) * 60 + float(match[2]), match[3]))
    return lines


def voice_at(start_s: float) -> str:
    """The voice that speaks at this time."""
    return [voice for from_s, voice in VOICES if from_s <= start_s][-1]


def speak(text: str, voice: str) -> Samples:
    """*text* in one of the two voices, at the common level, without silence around it."""
    for written, spelled in SPELLED.items():
        text = re.sub(rf"\b{written}\b", spelled, text)
    with tempfile.TemporaryDirectory() as folder:
        raw, paced = Path(folder) / "raw.wav", Path(folder) / "paced.wav"
        if voice == "slt":
            save = f'(utt.save.wave (utt.synth (Utterance Text "{text}")) "{raw}" \'riff)'
            _run("festival", "-b", "(voice_cmu_us_slt_arctic_hts)", save)
            _run("ffmpeg", "-v", "error", "-i", str(raw), "-af", f"atempo={1 / PACE[voice]:.4f}", str(paced))
        else:
            pace = f"duration_stretch={PACE[voice]}"
            _run("flite", "-voice", voice, "--setf", pace, "-t", text, "-o", str(paced))
        sound, rate_hz = soundfile.read(paced, dtype="float32")
    sound = soxr.resample(sound, rate_hz, RATE_HZ)
    loud = np.flatnonzero(np.abs(sound) > 0.01 * np.abs(sound).max())
    sound = sound[max(0, loud[0] - RATE_HZ // 50) : loud[-1] + RATE_HZ // 10]
    levelled = sound * 10 ** (LEVEL_DB / 20) / np.sqrt(np.mean(sound**2))
    return np.asarray(levelled, dtype=np.float32)


def workshop_noise(n_samples: int, rng: np.random.Generator) -> Samples:
    """A workshop of RMS 1: a floor that falls with frequency, a compressor, now and then a tool put down."""
    time_s = np.arange(n_samples) / RATE_HZ
    spectrum = np.fft.rfft(rng.standard_normal(n_samples))
    spectrum /= np.sqrt(np.maximum(np.fft.rfftfreq(n_samples, 1 / RATE_HZ), 20.0))
    floor = np.fft.irfft(spectrum, n_samples)
    hum = sum(np.sin(2 * np.pi * 29.0 * k * time_s + k) / k for k in range(1, 8))
    noise = floor / floor.std() + 0.6 * hum / np.std(hum)
    for at in rng.uniform(0, n_samples, max(1, n_samples // (RATE_HZ * 6))).astype(int):
        ring_s = np.arange(min(RATE_HZ // 4, n_samples - at)) / RATE_HZ
        tone = sum(np.sin(2 * np.pi * f * ring_s) for f in rng.uniform(1500, 5000, 3))
        noise[at : at + len(ring_s)] += 1.5 * tone * np.exp(-ring_s * 25)
    return np.asarray(noise / noise.std(), dtype=np.float32)


def mix(lines: list[Line]) -> Samples:
    """All lines at their times, with the hiss and the noise."""
    clips = [speak(line.text, voice_at(line.start_s)) for line in lines]
    for line, clip, after in zip(lines, clips, [*lines[1:], None], strict=False):
        if after and line.start_s + len(clip) / RATE_HZ > after.start_s:
            sys.exit(f"'{line.text}' runs into '{after.text}': move the later line")
    end_s = lines[-1].start_s + len(clips[-1]) / RATE_HZ + TAIL_S
    rng = np.random.default_rng(7)
    sound = rng.standard_normal(int(end_s * RATE_HZ)).astype(np.float32) * 10 ** (FLOOR_DB / 20)
    start, end = (int(second * RATE_HZ) for second in NOISY_S)
    if end > start:
        noise = workshop_noise(end - start, rng)
        fade = np.minimum(1, np.minimum(np.arange(end - start), np.arange(end - start)[::-1]) / RATE_HZ)
        sound[start:end] += noise * fade * 10 ** ((LEVEL_DB - NOISY_SNR_DB) / 20)
    for line, clip in zip(lines, clips, strict=True):
        at = round(line.start_s * RATE_HZ)
        sound[at : at + len(clip)] += clip
    return np.asarray(np.clip(sound, -1, 1), dtype=np.float32)


def main() -> None:
    """Write bench-job.opus beside this file."""
    sound = mix(read_commentary(HERE / "commentary.txt"))
    target = HERE / "bench-job.opus"
    with tempfile.TemporaryDirectory() as folder:
        wav = Path(folder) / "mix.wav"
        soundfile.write(wav, sound, RATE_HZ)
        encode = (
            "-c:a",
            "libopus",
            "-b:a",
            BIT_RATE,
            "-ac",
            "1",
            "-map_metadata",
            "-1",
            "-fflags",
            "+bitexact",
        )
        _run("ffmpeg", "-v", "error", "-y", "-i", str(wav), *encode, str(target))
    print(f"{target}: {len(sound) / RATE_HZ:.1f} s, {target.stat().st_size / 1e6:.2f} MB")


def _run(*command: str) -> None:
    try:
        subprocess.run(command, check=True, capture_output=True)
    except FileNotFoundError:
        sys.exit(f"the program {command[0]} is not installed")
    except subprocess.CalledProcessError as error:
        sys.exit(f"{command[0]} failed: {error.stderr.decode(errors='replace').strip()}")


if __name__ == "__main__":
    main()
