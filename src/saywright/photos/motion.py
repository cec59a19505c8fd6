"""Was the camera moved: blur that has a direction.

An even movement by L pixels multiplies the spectrum of the scene by sinc²(L·u), u being the frequency along
its way in cycles a pixel (Bracewell, The Fourier Transform and Its Applications). A scene has directions of
its own, and a lens out of focus takes fine detail in all of them; but neither changes, from coarse to fine,
which way detail runs. So the power of the spectrum is averaged in fans by band of frequency and direction,
its logarithm freed of what each band and each direction has by itself, and compared with what movements of
each length and way would leave.

Three figures come of the movement that fits best: how well it fits, how strong it is beside what it should
be, and how much of the spectrum it accounts for. The limits and what they cost are in docs/photos.md, from
tools/focus_curve.py.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

FITS, LEAST_STRENGTH = 0.6, 0.6
LEAST_SHARE, MOST_SHARE = 0.06, 1.2  # no movement leaves more: that is a scene without fine detail

_TILES_PX = (128, 64, 32)  # the largest that fits; tiles overlap by half
_MOST_TILES = 90
_BANDS = (0.04, 0.08, 0.14, 0.22, 0.32, 0.45)  # cycles a pixel
_WAYS = 18  # fans of 10°
_LENGTHS_PX = (3.0, 4.0, 5.5, 7.5, 10.0, 14.0, 19.0, 26.0)
_LEAST_VARIANCE = 60.0  # of a tile, of 255²; plainer ones show nothing
_LEFT = 0.003  # of the power along the way: hands do not move evenly, and tiles are finite
_ROUNDING = 1 / 12  # variance of whole numbers
_TOP_PERCENT = 85  # the scene's own power in a band is told from the fans that keep most


@dataclass(frozen=True, slots=True)
class Motion:
    """The movement that fits best."""

    fit: float  # correlation with what it would leave, −1…1
    strength: float  # of the trace found, over the strength that it should have
    share: float  # mean square of what it accounts for, natural logarithms of power
    length_px: float
    way_deg: float  # 0…180, from the x axis down

    @property
    def moved(self) -> bool:
        """True where the camera was moved."""
        seen = self.fit >= FITS and self.strength >= LEAST_STRENGTH
        return seen and LEAST_SHARE <= self.share <= MOST_SHARE


def motion(grey: npt.NDArray[Any], noise_variance: float) -> Motion | None:
    """The motion seen in *grey*, (height, width); None where there is nothing to see it by.

    *noise_variance* is that of the sensor's noise, of 255²: it is not moved along.
    """
    tile_px = next((size for size in _TILES_PX if size <= min(grey.shape)), None)
    tiles = None if tile_px is None else _tiles(np.asarray(grey, dtype=np.float32), tile_px)
    if tile_px is None or tiles is None:
        return None
    variance = tiles.var(axis=(1, 2))
    window = np.outer(np.hanning(tile_px), np.hanning(tile_px)).astype(np.float32)
    flat = (tiles - tiles.mean(axis=(1, 2), keepdims=True)) * window
    power = (np.abs(np.fft.rfft2(flat)) ** 2 / variance[:, None, None]).mean(axis=0) / (window**2).sum()
    fans = _fans(power, tile_px)
    floor = float(np.mean(1 / variance)) * (noise_variance + _ROUNDING)
    return _best(fans, floor, tile_px)


def _best(fans: Floats, floor: float, tile_px: int) -> Motion:
    scene = np.maximum(np.percentile(fans - floor, _TOP_PERCENT, axis=1), 0.02 * floor)[:, None]
    found = _freed(np.log(np.maximum(fans, 0.1 * floor)))
    lengths_px, ways_deg, kept = _movements(tile_px)
    expected = _freed(np.log((kept + _LEFT) * scene + floor))
    own = (expected**2).sum(axis=(1, 2)) + 1e-9
    both = (expected * found).sum(axis=(1, 2))
    fit = both / np.sqrt(own * float((found**2).sum()) + 1e-12)
    best = int(fit.argmax())
    strength = float(both[best] / own[best])
    share = strength**2 * float(own[best]) / found.size
    return Motion(float(fit[best]), strength, share, float(lengths_px[best]), float(ways_deg[best]))


def _freed(logs: Floats) -> Floats:
    """*logs* (…, bands, ways) less what each band and each way has by itself."""
    own = logs.mean(axis=-1, keepdims=True) + logs.mean(axis=-2, keepdims=True)
    return np.asarray(logs - own + logs.mean(axis=(-2, -1), keepdims=True))


def _tiles(plane: npt.NDArray[np.float32], tile_px: int) -> npt.NDArray[np.float32] | None:
    """Tiles with contrast, (n, tile_px, tile_px), spread over the plane; None without any."""
    every = np.lib.stride_tricks.sliding_window_view(plane, (tile_px, tile_px))
    cut = every[:: tile_px // 2, :: tile_px // 2].reshape(-1, tile_px, tile_px)
    telling = cut[cut.var(axis=(1, 2)) > _LEAST_VARIANCE]
    return telling[:: math.ceil(len(telling) / _MOST_TILES)] if len(telling) else None


@functools.cache
def _frequencies(tile_px: int) -> tuple[Floats, Floats, npt.NDArray[np.int64]]:
    """Across and down of each place of the spectrum, and the number of its fan, −1 outside all."""
    down, across = np.meshgrid(np.fft.fftfreq(tile_px), np.fft.rfftfreq(tile_px), indexing="ij")
    band = np.digitize(np.hypot(across, down), _BANDS) - 1
    way = np.round(np.degrees(np.arctan2(down, across)) % 180 / (180 / _WAYS)).astype(np.int64) % _WAYS
    inside = (band >= 0) & (band < len(_BANDS) - 1)
    return across, down, np.where(inside, band * _WAYS + way, -1)


def _fans(power: npt.NDArray[Any], tile_px: int) -> Floats:
    """Mean of *power* in each fan, (bands, ways)."""
    _, _, numbers = _frequencies(tile_px)
    inside, count = numbers >= 0, (len(_BANDS) - 1) * _WAYS
    sums = np.bincount(numbers[inside], weights=power[inside], minlength=count)
    places = np.maximum(np.bincount(numbers[inside], minlength=count), 1)
    return np.asarray((sums / places).reshape(-1, _WAYS), dtype=np.float64)


@functools.cache
def _movements(tile_px: int) -> tuple[Floats, Floats, Floats]:
    """Length and way of each movement, and what it leaves of the power in each fan, (n, bands, ways)."""
    across, down, _ = _frequencies(tile_px)
    rows = []
    for length_px in _LENGTHS_PX:
        for way_deg in np.arange(_WAYS) * 180 / _WAYS:
            way = math.radians(way_deg)
            along = across * math.cos(way) + down * math.sin(way)
            rows.append((length_px, way_deg, _fans(np.sinc(length_px * along) ** 2, tile_px)))
    lengths_px, ways_deg, kept = zip(*rows, strict=True)
    return np.array(lengths_px), np.array(ways_deg), np.array(kept)
