"""Rendered cloths with particles of known size: a weave, uneven light, ellipses, curved fibres, noise."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]

_FINE = 4  # sub-pixels a side


@dataclass(frozen=True, slots=True)
class Grain:
    """An ellipse, pixels."""

    x_px: float
    y_px: float
    long_px: float  # diameters
    short_px: float
    turn_rad: float


@dataclass(frozen=True, slots=True)
class Hair:
    """Half a circle of constant width, pixels."""

    x_px: float
    y_px: float
    radius_px: float
    width_px: float

    @property
    def length_px(self) -> float:
        """Along its middle, tips included."""
        return math.pi * self.radius_px + self.width_px


def grains(count: int, size_px: tuple[int, int], *, longest_px: float, seed: int) -> list[Grain]:
    """Ellipses apart from each other, small ones the commoner; *size_px* width, height."""
    rng = np.random.default_rng(seed)
    placed: list[Grain] = []
    for _ in range(40 * count):
        long_px = float(10 ** rng.uniform(math.log10(3), math.log10(longest_px)))
        x, y = (float(rng.uniform(longest_px, side - longest_px)) for side in size_px)
        if all(math.hypot(x - g.x_px, y - g.y_px) > (long_px + g.long_px) / 2 + 12 for g in placed):
            short_px = long_px * float(rng.uniform(0.4, 1.0))
            placed.append(Grain(x, y, long_px, short_px, float(rng.uniform(0, math.pi))))
        if len(placed) == count:
            break
    return placed


def cloth(
    size_px: tuple[int, int],
    things: list[Grain | Hair],
    *,
    blur_px: float = 1.0,
    noise: float = 2.5,
    seed: int = 0,
) -> Pixels:
    """The picture, (height, width, 3) uint8."""
    width, height = size_px
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    light = (
        205 + 4 * np.sin(x * 2 * np.pi / 9) + 4 * np.sin(y * 2 * np.pi / 9) + 14 * (x / width - y / height)
    )
    cover = np.zeros((height, width), dtype=np.float32)
    for thing in things:
        reach = (thing.long_px / 2 if isinstance(thing, Grain) else thing.radius_px + thing.width_px) + 3
        left, top = max(0, int(thing.x_px - reach)), max(0, int(thing.y_px - reach))
        right, below = min(width, int(thing.x_px + reach) + 1), min(height, int(thing.y_px + reach) + 1)
        part = _covered(thing, left, top, (below - top, right - left))
        cover[top:below, left:right] = np.maximum(cover[top:below, left:right], part)
    light = light * (1 - cover) + 60 * cover
    blurred = np.asarray(cv2.GaussianBlur(light, (0, 0), blur_px)) if blur_px else light
    noisy = blurred + np.random.default_rng(seed).normal(0, noise, blurred.shape)
    grey = np.clip(np.round(noisy), 0, 255).astype(np.uint8)
    return np.repeat(grey[..., None], 3, axis=2)


def _covered(thing: Grain | Hair, left: int, top: int, size: tuple[int, int]) -> npt.NDArray[Any]:
    """Share of each pixel of a box that the thing covers."""
    down = (np.arange(size[0] * _FINE) + 0.5) / _FINE - 0.5 + top - thing.y_px
    across = (np.arange(size[1] * _FINE) + 0.5) / _FINE - 0.5 + left - thing.x_px
    y, x = down[:, None], across[None, :]
    if isinstance(thing, Grain):
        along = x * math.cos(thing.turn_rad) + y * math.sin(thing.turn_rad)
        aside = y * math.cos(thing.turn_rad) - x * math.sin(thing.turn_rad)
        inside = (2 * along / thing.long_px) ** 2 + (2 * aside / thing.short_px) ** 2 < 1
    else:
        ring = (np.abs(np.hypot(x, y) - thing.radius_px) < thing.width_px / 2) & (y > 0)
        tips = np.minimum(np.hypot(x - thing.radius_px, y), np.hypot(x + thing.radius_px, y))
        inside = ring | (tips < thing.width_px / 2)
    return np.asarray(inside.reshape(size[0], _FINE, size[1], _FINE).mean(axis=(1, 3)))
