"""Spectrograms as the default listener makes them, on the GPU.

faster-whisper's own, in PyTorch: 25 ms Hann windows every 10 ms, 80 mel bands, log10, the top 8 decades.
"""

from __future__ import annotations

import torch
from torch import Tensor

WINDOW_SAMPLES = 15 * 16_000
_FFT, _HOP = 400, 160


def spectrograms(sound: Tensor, filters: Tensor) -> Tensor:
    """(batch, 240,000) samples, (80, 201) filters → (batch, 80, 1500)."""
    window = torch.hann_window(_FFT, device=sound.device)
    power = torch.stft(sound, _FFT, _HOP, window=window, return_complex=True)[..., :-1].abs() ** 2
    logs = torch.clamp(filters @ power, min=1e-10).log10()
    logs = torch.maximum(logs, logs.amax(dim=(1, 2), keepdim=True) - 8.0)
    return (logs + 4.0) / 4.0
