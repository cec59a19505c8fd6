"""What happens to speech on its way to a microphone, for training: on the GPU, new each time.

All take and give (batch, n_samples) float32, −1…1, 16 kHz. The lists for choosing and reporting have
surroundings of their own, from other code (`surroundings.py` of tools/accuracy) or from recordings.
"""

from __future__ import annotations

import math

import torch
from torch import Tensor

RATE_HZ = 16_000


def augment(speech: Tensor, lengths: Tensor, random: torch.Generator) -> Tensor:
    """Pace and pitch together, a band, a room, noise, level; each for a part of the batch."""
    speech = _paced(speech, random)
    speech = _coloured(speech, random)
    speech = _roomed(speech, random)
    speech = _noised(speech, lengths, random)
    gain = 10 ** (_uniform(len(speech), -1.0, 0.3, random, speech.device)[:, None])
    return torch.clamp(speech * gain, -1, 1)


def _paced(speech: Tensor, random: torch.Generator) -> Tensor:
    """Played a little faster or slower: pitch and formants move with it. One rate for the batch."""
    rate = float(_uniform(1, 0.88, 1.15, random, speech.device))
    length = speech.shape[1]
    scaled = torch.nn.functional.interpolate(speech[:, None], scale_factor=1 / rate, mode="linear")[:, 0]
    return torch.nn.functional.pad(scaled, (0, max(0, length - scaled.shape[1])))[:, :length]


def _coloured(speech: Tensor, random: torch.Generator) -> Tensor:
    """A tilt, a resonance and for some a narrow band."""
    count, length = speech.shape
    spectrum = torch.fft.rfft(speech)
    hz = torch.linspace(0, RATE_HZ / 2, spectrum.shape[1], device=speech.device)
    tilt = _uniform(count, -6, 6, random, speech.device)[:, None] * torch.log2((hz + 200) / 1000)
    centre = _uniform(count, 300, 5000, random, speech.device)[:, None]
    bump = _uniform(count, -8, 8, random, speech.device)[:, None] * torch.exp(-(((hz - centre) / 800) ** 2))
    shape = 10 ** ((tilt + bump).clamp(-24, 24) / 20)
    narrow = torch.rand(count, 1, generator=random, device=speech.device) < 0.25
    top = _uniform(count, 3000, 7000, random, speech.device)[:, None]
    low = _uniform(count, 100, 350, random, speech.device)[:, None]
    shape = torch.where(narrow & ((hz > top) | (hz < low)), 0.01 * shape, shape)
    return _peaked(torch.fft.irfft(spectrum * shape, length))


def _roomed(speech: Tensor, random: torch.Generator) -> Tensor:
    """A decaying tail for half of them."""
    count, length = speech.shape
    seconds = torch.arange(RATE_HZ, device=speech.device) / RATE_HZ
    decay_s = _uniform(count, 0.1, 0.8, random, speech.device)[:, None]
    tail = torch.randn(count, RATE_HZ, generator=random, device=speech.device)
    tail = tail * torch.exp(-6.9078 * seconds / decay_s)
    tail[:, :64] = 0
    level_db = _uniform(count, -14, 0, random, speech.device)[:, None]
    tail = tail * (10 ** (level_db / 20) / tail.square().sum(1, keepdim=True).sqrt())
    tail[:, 0] = 1
    dry = torch.rand(count, 1, generator=random, device=speech.device) < 0.5
    size = length + RATE_HZ
    wet = torch.fft.irfft(torch.fft.rfft(speech, size) * torch.fft.rfft(tail, size), size)[:, :length]
    return torch.where(dry, speech, _peaked(wet))


def _noised(speech: Tensor, lengths: Tensor, random: torch.Generator) -> Tensor:
    """Coloured noise, a hum with harmonics, blows, and other clips far away, −1 to 28 dB down."""
    count, length = speech.shape
    device = speech.device
    white = torch.fft.rfft(torch.randn(count, length, generator=random, device=device))
    hz = torch.linspace(0, RATE_HZ / 2, white.shape[1], device=device)
    power = _uniform(count, 0.0, 1.2, random, device)[:, None]
    noise = _unit(torch.fft.irfft(white / (hz + 30) ** power, length))
    time_s = torch.arange(length, device=device) / RATE_HZ
    base = _uniform(count, 20, 130, random, device)[:, None]
    hum = sum(
        torch.sin(2 * math.pi * base * n * time_s + n) * _uniform(count, 0, 1, random, device)[:, None] / n
        for n in range(1, 9)
    )
    blows = torch.zeros(count, length, device=device)
    for _ in range(4):
        at = torch.randint(0, length, (count, 1), generator=random, device=device) / RATE_HZ
        pitch = _uniform(count, 300, 4000, random, device)[:, None]
        after = (time_s - at).clamp(min=0)
        blows += (time_s > at) * torch.sin(2 * math.pi * pitch * after) * torch.exp(-after * 25)
    others = _unit(speech[torch.randperm(count, generator=random, device=device)])
    parts = torch.rand(count, 4, generator=random, device=device)
    parts[:, 3] *= torch.rand(count, generator=random, device=device) < 0.15
    mixed = (
        parts[:, :1] * noise
        + parts[:, 1:2] * _unit(hum)
        + parts[:, 2:3] * _unit(blows)
        + parts[:, 3:] * others
    )
    inside = torch.arange(length, device=device)[None] < lengths[:, None]
    loud = (speech.square() * inside).sum(1, keepdim=True) / lengths[:, None].clamp(min=1)
    down_db = _uniform(count, -1, 28, random, device)[:, None]
    clean = torch.rand(count, 1, generator=random, device=device) < 0.2
    gain = torch.where(clean, torch.zeros_like(loud), (loud / 10 ** (down_db / 10)).sqrt())
    return speech + gain * _unit(mixed)


def _uniform(count: int, low: float, high: float, random: torch.Generator, device: torch.device) -> Tensor:
    return low + (high - low) * torch.rand(count, generator=random, device=device)


def _unit(sound: Tensor) -> Tensor:
    return sound / sound.square().mean(1, keepdim=True).sqrt().clamp(min=1e-6)


def _peaked(sound: Tensor) -> Tensor:
    return sound * (0.5 / sound.abs().amax(1, keepdim=True).clamp(min=1e-6))
