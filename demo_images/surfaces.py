"""What the parts lie on."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from render import Plane, Scene, blur, grid, noise, step, strokes


def tinted(base: tuple[float, float, float], *layers: tuple[Plane, float]) -> npt.NDArray[np.float32]:
    """*base* made lighter and darker by noise planes, (height, width, 3)."""
    factor = np.ones_like(layers[0][0])
    for plane, strength in layers:
        factor = factor * np.exp(strength * plane)
    return np.clip(factor[..., None] * np.array(base, np.float32), 0, 1)


def wooden_bench(seed: int, angle: float = 4.0) -> Scene:
    """An oily, scratched bench top of beech."""
    grain = noise(seed, 26, octaves=5, stretch=22, angle=angle)
    fine = noise(seed + 1, 5, octaves=3, stretch=40, angle=angle)
    stains = noise(seed + 2, 420, octaves=4)
    colour = tinted((0.165, 0.112, 0.072), (grain, 0.13), (fine, 0.09), (np.minimum(stains, 0.3), 0.45))
    colour[..., 2] *= 1 - 0.06 * np.clip(grain, -1, 1)
    scene = Scene.on(0.5 * grain + 0.45 * fine, colour, 0.7)
    rng = np.random.default_rng(seed)
    lines = []
    for _ in range(26):
        start = rng.uniform((-900, -700), (900, 700))
        turn = rng.uniform(0, np.pi)
        length = rng.uniform(60, 500)
        t = np.linspace(0, 1, 12)[:, None]
        bend = np.sin(t * 3) * rng.normal(0, 12)
        lines.append(start + t * length * (np.cos(turn), np.sin(turn)) + bend)
    cuts = strokes(lines, 1.6)
    scene.height -= 2.5 * cuts
    scene.paint(cuts * 0.5, (0.07, 0.045, 0.03))
    return scene


def steel_bench(seed: int) -> Scene:
    """A dull sheet-steel bench with swirls of scratches and spots of oil."""
    brushed = noise(seed, 3, octaves=2, stretch=90, angle=-7)
    cloud = noise(seed + 1, 300, octaves=5)
    colour = tinted((0.20, 0.21, 0.22), (cloud, 0.12), (brushed, 0.05))
    scene = Scene.on(0.22 * brushed + 0.5 * blur(cloud, 2), colour, 0.55)
    scene.metal += 0.55
    oil = step(noise(seed + 2, 200, octaves=3) - 1.2, 0.8)
    scene.paint(oil * 0.45, (0.13, 0.11, 0.085), metal=0.4, rough=0.3)
    return scene


def cloth(seed: int, base: tuple[float, float, float], fold: float = 40.0, pitch: float = 7.0) -> Scene:
    """A woven shop rag in soft folds, with old oil in it."""
    x, y = grid()
    folds = fold * (
        noise(seed, 520, octaves=3, stretch=1.6, angle=30) + 0.35 * noise(seed + 3, 200, octaves=2)
    )
    u, v = x + 0.3 * folds, y - 0.25 * folds
    warp = np.sin(np.pi * u / pitch) * np.sign(np.sin(np.pi * v / pitch + 0.001))
    weave = np.abs(np.sin(np.pi * u / pitch)) * (0.5 + 0.5 * np.sign(warp)) + np.abs(
        np.sin(np.pi * v / pitch)
    ) * (0.5 - 0.5 * np.sign(warp))
    weave = blur(weave.astype(np.float32), 0.7)
    fuzz = noise(seed + 1, 9, octaves=3)
    stains = step(noise(seed + 2, 300, octaves=4) - 0.9, 0.5)
    colour = tinted(base, (weave, 0.45), (fuzz, 0.10), (stains, -0.9))
    return Scene.on(folds + 2.2 * weave + 0.8 * fuzz, colour, 0.95)
