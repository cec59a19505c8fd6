"""Bodies, wear and dirt that several parts share."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from render import STEEL, Plane, Scene, noise, step, strokes


def turned(radius: Plane, seed: int, depth: float = 0.35) -> Plane:
    """Lathe marks: rings of uneven depth round the middle."""
    rng = np.random.default_rng(seed)
    profile = np.convolve(rng.normal(0, 1, 4000), np.ones(3) / 3, "same").astype(np.float32)
    return np.asarray(depth * np.interp(radius * 2.2, np.arange(4000), profile), dtype=np.float32)


def lying(v: Plane, radius: Plane, inside: Plane, lift: float) -> tuple[Plane, Plane]:
    """Height and mask of a round body along u whose radius is *radius*, its axis *lift* above the bench."""
    body = np.sqrt(np.clip(radius**2 - v**2, 0, None))
    mask = step(radius - np.abs(v), 0.8) * inside
    return (body + lift).astype(np.float32), mask.astype(np.float32)


def turned_axes(scene: Scene, angle: float, x0: float = 0.0, y0: float = 0.0) -> tuple[Plane, Plane]:
    """Coordinates along and across a body lying at *angle* degrees through (x0, y0)."""
    a = np.deg2rad(angle)
    dx, dy = scene.x - x0, scene.y - y0
    return np.cos(a) * dx + np.sin(a) * dy, -np.sin(a) * dx + np.cos(a) * dy


def joined(a: Plane, b: Plane, soft: float) -> Plane:
    """The union of two shapes given by their signed distances, with a fillet."""
    h = np.clip(0.5 + 0.5 * (a - b) / soft, 0, 1)
    return np.asarray(b * (1 - h) + a * h + soft * h * (1 - h), dtype=np.float32)


def tarnish(scene: Scene, where: Plane, seed: int, hollow: Plane) -> None:
    """Brown varnish of old fuel, thick in hollows."""
    spots = step(noise(seed + 20, 110, octaves=5) - 0.75, 0.5)
    scene.paint(where * np.clip(0.45 * spots + 0.35 * hollow, 0, 0.8), (0.30, 0.19, 0.08), rough=0.5)
    pits = step(noise(seed + 21, 7, octaves=2) - 2.9, 0.3)
    scene.height -= 3 * pits * where
    scene.paint(where * pits * 0.7, (0.10, 0.06, 0.03))


def slips(scene: Scene, seed: int, angle: float, where: Plane) -> None:
    """Bright scratches where the blade ran off."""
    rng = np.random.default_rng(seed)
    lines = []
    for _ in range(9):
        s = rng.choice([-1, 1])
        start = np.array([np.cos(angle), np.sin(angle)]) * s * rng.uniform(130, 320)
        start = start + np.array([-np.sin(angle), np.cos(angle)]) * s * rng.uniform(35, 60)
        turn = angle + rng.normal(1.1, 0.35) + (np.pi if s < 0 else 0)
        t = np.linspace(0, 1, 10)[:, None]
        lines.append(start + t * rng.uniform(40, 170) * (np.cos(turn), np.sin(turn)) + 6 * t**2)
    cut = strokes(lines, 2.2) * where
    scene.height -= 3.0 * cut
    scene.paint(cut * 0.6, (0.95, 0.74, 0.40), rough=0.15)


def grit(
    scene: Scene, seed: int, *, count: int, middle: tuple[float, float], spread: float, limit: float
) -> None:
    """Grains of sand, rust and scale, heaped about *middle*."""
    rng = np.random.default_rng(seed)
    rough_edge = noise(seed + 30, 12, octaves=3)
    for _ in range(count):
        px, py = rng.normal(middle, spread, 2)
        size = float(np.clip(rng.lognormal(2.05, 0.55), 3, 34))
        if np.hypot(px, py) > limit:
            continue
        a = rng.uniform(0, np.pi)
        flat = rng.uniform(0.55, 0.95)
        row, column = np.searchsorted(scene.y[:, 0], py), np.searchsorted(scene.x[0], px)
        reach = int(size * 2 / (scene.x[0, 1] - scene.x[0, 0])) + 2
        cut = np.s_[max(row - reach, 0) : row + reach, max(column - reach, 0) : column + reach]
        dx, dy = scene.x[cut] - px, scene.y[cut] - py
        u, v = np.cos(a) * dx + np.sin(a) * dy, (-np.sin(a) * dx + np.cos(a) * dy) / flat
        r = np.hypot(u, v) / size * (1 + 0.20 * rough_edge[cut])
        mask = step((1 - r) * size, 0.8)
        top = 12 + size * 0.9 * np.sqrt(np.clip(1 - r**2, 0, 1)) + 0.10 * size * rough_edge[cut]
        kind = rng.choice(3, p=[0.45, 0.35, 0.2])
        base = [(0.17, 0.12, 0.075), (0.095, 0.036, 0.016), (0.24, 0.22, 0.19)][kind]
        colour = np.array(base) * rng.uniform(0.6, 1.3)
        part = Scene(
            scene.height[cut],
            scene.colour[cut],
            scene.metal[cut],
            scene.rough[cut],
            scene.x[cut],
            scene.y[cut],
        )
        part.put(mask, np.maximum(top, part.height).astype(np.float32), tuple(colour), rough=0.55)
        scene.height[cut], scene.colour[cut] = part.height, part.colour
        scene.metal[cut], scene.rough[cut] = part.metal, part.rough


def hair(scene: Scene, points: npt.NDArray[np.float64], lift: float) -> None:
    """A dark hair along *points*."""
    line = strokes([points], 5.5)
    scene.put(np.clip(line * 1.6, 0, 1), lift + 3 * line, (0.030, 0.018, 0.012), rough=0.35)


def spring(scene: Scene, u: Plane, v: Plane, seed: int) -> None:
    """A steel coil round the shank."""
    coil, wire, pitch = 106.0, 13.0, 46.0
    slope = np.arcsin(np.clip(v / coil, -1, 1)) / np.pi
    phase = ((u + 330) / pitch - 0.5 * slope) % 1.0
    off = (phase - 0.5) * pitch
    top = np.sqrt(np.clip(coil**2 - v**2, 0, None)) + 60 + np.sqrt(np.clip(wire**2 - off**2, 0, None)) - 6
    mask = (
        step(wire - np.abs(off), 0.9)
        * step(coil + wire * 0.6 - np.abs(v), 1.0)
        * step(u + 326)
        * step(-38 - u)
    )
    scene.put(mask.astype(np.float32), np.maximum(top, 20).astype(np.float32), STEEL, metal=1.0, rough=0.2)
    rust = step(noise(seed + 14, 60, octaves=4) - 0.9, 0.4) * mask
    scene.paint(rust * 0.6, (0.30, 0.13, 0.05), metal=0.4, rough=0.7)
