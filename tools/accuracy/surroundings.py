"""What a shop, a room and a telephone do to speech. Pure: the same clip and seed give the same samples.

All take and give (n_samples,) float32 mono, −1…1, 16 kHz.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

Floats = npt.NDArray[np.float64]

CONDITIONS = ("clean", "noise 15 dB", "noise 5 dB", "reverb", "telephone")
_HUM_HZ = 29.0  # a small piston compressor at 1740 strokes a minute, common practice
_RT60_S = 0.4
_DIRECT_TO_REVERB_DB = 4.0
_TELEPHONE_HZ = (300.0, 3400.0)  # ITU-T G.712 passband, from memory


def apply(condition: str, samples: Samples, seed: int) -> Samples:
    """*samples* as they sound in *condition*."""
    rng = np.random.default_rng(seed)
    if condition.startswith("noise"):
        return add_noise(samples, float(condition.split()[1]), rng)
    if condition == "reverb":
        return reverberate(samples, rng)
    if condition == "telephone":
        return telephone(samples)
    return samples


def shop_noise(length: int, rng: np.random.Generator) -> Floats:
    """Pink noise, a compressor's hum with its harmonics, and knocks on metal."""
    parts = (_unit(_pink(length, rng)), 0.7 * _unit(_hum(length, rng)), 0.6 * _unit(_knocks(length, rng)))
    noise: Floats = np.sum(parts, axis=0)
    return noise


def add_noise(samples: Samples, ratio_db: float, rng: np.random.Generator) -> Samples:
    """Shop noise at *ratio_db* below the power of the speech, measured where there is speech."""
    noise = shop_noise(len(samples), rng)
    loud = np.abs(samples) > 0.02 * np.max(np.abs(samples), initial=1e-9)
    power = float(np.mean(np.square(samples[loud], dtype=np.float64))) if loud.any() else 1e-6
    gain = np.sqrt(power / float(np.mean(noise**2)) / 10 ** (ratio_db / 10))
    return _fit(samples + gain * noise)


def reverberate(samples: Samples, rng: np.random.Generator) -> Samples:
    """The direct sound and a tail of noise that decays by 60 dB in 0.4 s."""
    length = int(_RT60_S * SAMPLE_RATE_HZ)
    seconds = np.arange(length) / SAMPLE_RATE_HZ
    tail = rng.standard_normal(length) * np.exp(-6.9078 * seconds / _RT60_S)
    tail[: SAMPLE_RATE_HZ // 200] = 0.0  # the nearest wall is some 5 ms away
    tail *= np.sqrt(10 ** (-_DIRECT_TO_REVERB_DB / 10) / np.sum(tail**2))
    tail[0] = 1.0
    size = len(samples) + length
    wet = np.fft.irfft(np.fft.rfft(samples, size) * np.fft.rfft(tail, size), size)[: len(samples)]
    return _fit(wet)


def telephone(samples: Samples) -> Samples:
    """Nothing below 300 Hz and above 3.4 kHz, and 8 bits a sample in the steps of the µ-law."""
    spectrum = np.fft.rfft(samples)
    frequencies = np.fft.rfftfreq(len(samples), 1 / SAMPLE_RATE_HZ)
    low, high = _TELEPHONE_HZ
    spectrum[(frequencies < low) | (frequencies > high)] = 0
    band = np.clip(np.fft.irfft(spectrum, len(samples)), -1, 1)
    coded = np.round(np.sign(band) * np.log1p(255 * np.abs(band)) / np.log(256) * 127) / 127
    return _fit(np.sign(coded) * (256 ** np.abs(coded) - 1) / 255)


def _pink(length: int, rng: np.random.Generator) -> Floats:
    spectrum = np.fft.rfft(rng.standard_normal(length))
    frequencies = np.fft.rfftfreq(length, 1 / SAMPLE_RATE_HZ)
    spectrum /= np.sqrt(np.maximum(frequencies, 20.0))
    pink: Floats = np.fft.irfft(spectrum, length)
    return pink


def _hum(length: int, rng: np.random.Generator) -> Floats:
    seconds = np.arange(length) / SAMPLE_RATE_HZ
    waves = [
        np.sin(2 * np.pi * _HUM_HZ * number * seconds + rng.uniform(0, 2 * np.pi)) / number
        for number in range(1, 25)
    ]
    hum: Floats = np.sum(waves, axis=0)
    return hum


def _knocks(length: int, rng: np.random.Generator) -> Floats:
    out = np.zeros(length)
    ring = int(0.25 * SAMPLE_RATE_HZ)
    seconds = np.arange(ring) / SAMPLE_RATE_HZ
    for _ in range(max(1, round(1.2 * length / SAMPLE_RATE_HZ))):
        start = int(rng.integers(0, max(1, length - ring)))
        tones = [
            np.sin(2 * np.pi * rng.uniform(900, 6000) * seconds) * np.exp(-seconds * rng.uniform(20, 60))
            for _ in range(4)
        ]
        knock = np.sum(tones, axis=0) * rng.uniform(0.3, 1.0)
        out[start : start + ring] += knock[: length - start]
    return out


def _unit(samples: Floats) -> Floats:
    unit: Floats = samples / np.sqrt(np.mean(samples**2) + 1e-12)
    return unit


def _fit(samples: npt.NDArray[np.floating]) -> Samples:
    """Scaled down where it would clip."""
    peak = float(np.max(np.abs(samples), initial=0.0))
    return (samples / peak * 0.98 if peak > 0.98 else samples).astype(np.float32)
