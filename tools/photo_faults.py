"""Pictures with a known fault, made from those that scikit-image ships.

A part (one picture within an ellipse) on a bench (another one), each with a blur of its own; motion along a
way; glare. So what is told of the part does not depend on what lies behind it.
"""

# mypy: disallow-untyped-calls=False

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from skimage import data

Pixels = npt.NDArray[np.uint8]

NAMES = (
    "astronaut", "brick", "camera", "cell", "chelsea", "coffee", "coins", "grass", "gravel",
    "hubble_deep_field", "immunohistochemistry", "page", "rocket", "text", "retina", "microaneurysms",
)  # fmt: skip
SIZE_PX = (640, 480)


def shipped(name: str, size_px: tuple[int, int] = SIZE_PX) -> Pixels:
    """A shipped picture as (height, width, 3) uint8, its middle cut to *size_px* (width, height)."""
    loaded: npt.NDArray[Any] = np.asarray(getattr(data, name)())
    pixels = np.repeat(loaded[..., None], 3, axis=2) if loaded.ndim == 2 else loaded[..., :3]
    width_px, height_px = size_px
    scale = max(width_px / pixels.shape[1], height_px / pixels.shape[0])
    how = cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC
    grown = np.asarray(cv2.resize(pixels, None, fx=scale, fy=scale, interpolation=how))
    top, left = (grown.shape[0] - height_px) // 2, (grown.shape[1] - width_px) // 2
    return np.ascontiguousarray(grown[top : top + height_px, left : left + width_px].astype(np.uint8))


def soft(pixels: Pixels, sigma_px: float) -> Pixels:
    """Out of focus."""
    return np.asarray(cv2.GaussianBlur(pixels, (0, 0), sigma_px) if sigma_px else pixels, dtype=np.uint8)


def noisy(pixels: Pixels, spread: float, seed: int) -> Pixels:
    """With a sensor's noise."""
    noise = np.random.default_rng(seed).normal(0, spread, pixels.shape[:2])[..., None]
    return np.clip(pixels + noise, 0, 255).astype(np.uint8)


def part_on_bench(part: Pixels, bench: Pixels, share: float = 0.55) -> Pixels:
    """*part* within an ellipse of this share of both sides, *bench* around it."""
    height_px, width_px = bench.shape[:2]
    small = (round(share * width_px), round(share * height_px))
    y, x = np.mgrid[0:height_px, 0:width_px]
    inside = ((x / width_px - 0.5) / share) ** 2 + ((y / height_px - 0.5) / share) ** 2 < 0.25
    left, top = (width_px - small[0]) // 2, (height_px - small[1]) // 2
    laid = bench.copy()
    cut = part[top : top + small[1], left : left + small[0]]
    laid[top : top + small[1], left : left + small[0]] = cut
    return np.asarray(np.where(inside[..., None], laid, bench), dtype=np.uint8)


def moved(pixels: Pixels, length_px: float, way_deg: float) -> Pixels:
    """The camera moved evenly by this much while the shutter was open."""
    reach = math.ceil(length_px / 2) + 1
    kernel = np.zeros((2 * reach + 1, 2 * reach + 1), dtype=np.float32)
    for along in np.linspace(-length_px / 2, length_px / 2, 8 * math.ceil(length_px) + 1):
        x, y = (
            reach + along * math.cos(math.radians(way_deg)),
            reach + along * math.sin(math.radians(way_deg)),
        )
        left, top = int(x), int(y)
        for right, below in itertools.product((0, 1), (0, 1)):
            weight = (1 - abs(x - left - right)) * (1 - abs(y - top - below))
            kernel[top + below, left + right] += weight
    return np.asarray(cv2.filter2D(pixels, -1, kernel / kernel.sum()), dtype=np.uint8)


def glaring(pixels: Pixels, share: float, seed: int) -> Pixels:
    """With round highlights that cover about this *share* of the middle ninth, where all detail is gone."""
    height_px, width_px = pixels.shape[:2]
    glow = np.zeros((height_px, width_px), dtype=np.float32)
    random = np.random.default_rng(seed)
    radius_px = math.sqrt(share * height_px * width_px / 9 / 4 / math.pi)
    for _ in range(4):
        x = width_px * random.uniform(0.4, 0.6)
        y = height_px * random.uniform(0.4, 0.6)
        cv2.circle(glow, (round(x), round(y)), round(radius_px), 400.0, -1)
    glow = np.asarray(cv2.GaussianBlur(glow, (0, 0), max(1.0, radius_px / 6)))
    return np.asarray(np.clip(pixels + glow[..., None], 0, 255), dtype=np.uint8)


def pairs() -> Iterator[tuple[str, str]]:
    """Each picture as a part on the two that follow it as benches."""
    for place, name in enumerate(NAMES):
        for step in (3, 7):
            yield name, NAMES[(place + step) % len(NAMES)]
