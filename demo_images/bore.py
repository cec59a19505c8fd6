"""Down the throttle bore: painted by depth, since a height field has no view into a tube."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from render import ALUMINIUM, Plane, Scene, blur, grid, noise, photograph_inlaid, step
from shapes import turned
from surfaces import tinted

Picture = npt.NDArray[np.uint8]

MOUTH_PX = 430.0  # radius of the bore at its near end
CAMERA_PX = 900.0  # above the near end
LEAN_PX = (150.0, 95.0)  # where the bore leads, seen by a camera that does not look straight in


def bore(seed: int = 41) -> Picture:
    """Down the throttle bore, clean: throttle plate on its shaft, two screws, light at the far end."""
    x, y = grid()
    scene = Scene.on(0.0, np.zeros((*x.shape, 3), np.float32))
    depth = np.zeros_like(x)
    for _ in range(14):
        shift = depth / (CAMERA_PX + depth)
        r = np.hypot(x - LEAN_PX[0] * shift, y - LEAN_PX[1] * shift)
        depth = np.clip(CAMERA_PX * (MOUTH_PX / np.maximum(r, 1) - 1), 0, 4000)
    shift = depth / (CAMERA_PX + depth)
    px, py = x - LEAN_PX[0] * shift, y - LEAN_PX[1] * shift
    around = np.arctan2(py, px)
    light = bore_wall(seed, depth, around)
    light = bore_end(seed, x, y, light, depth)
    r = np.hypot(x, y)
    scene.height = (60 - np.clip((MOUTH_PX + 34 - r) / 34, 0, 1) ** 2 * 40).astype(np.float32)
    skin = noise(seed, 8, octaves=3)
    scene.height += 0.35 * turned(np.hypot(x - 1400, y + 900), seed, 1.0) + 0.04 * skin
    scene.colour[:] = tinted(ALUMINIUM, (noise(seed + 1, 260, octaves=4), 0.08)) * 0.62
    scene.metal[:], scene.rough[:] = 1.0, 0.38
    for hx, hy in ((-640, -430), (640, -430), (-640, 430), (640, 430)):
        away = np.hypot(x - hx, y - hy)
        scene.height -= np.clip((76 - away) / 12, 0, 1) * 6
        scene.height -= step(58 - away, 1.5) * 130
        scene.paint(step(57 - away), (0.02, 0.02, 0.02), metal=0.0, rough=0.9)
    scene.height -= 400 * step(MOUTH_PX - r, 1.0)
    return photograph_inlaid(scene, light, step(MOUTH_PX - r, 1.2), seed)


def bore_wall(seed: int, depth: Plane, around: Plane) -> npt.NDArray[np.float32]:
    """Light from the wall of the bore, by depth and angle: bright where it mirrors the lamp."""
    rng = np.random.default_rng(seed)
    rings = np.interp(
        depth * 0.9, np.arange(4000), np.convolve(rng.normal(0, 1, 4000), np.ones(3) / 3, "same")
    )
    flow = np.interp((around + np.pi) * 300, np.arange(1900), rng.normal(0, 1, 1900))
    streak = np.exp(-(np.angle(np.exp(1j * (around - 0.75))) ** 2) / (2 * 0.22**2)) * 1.1
    streak += np.exp(-(np.angle(np.exp(1j * (around + 2.3))) ** 2) / (2 * 0.13**2)) * 0.75
    streak += np.exp(-(np.angle(np.exp(1j * (around - 2.6))) ** 2) / (2 * 0.35**2)) * 0.3
    falling = np.exp(-depth / 620)
    light = (0.10 + 0.20 * falling + streak * (0.15 + 0.75 * falling)) * np.exp(0.085 * rings + 0.03 * flow)
    light *= 1 - 0.35 * np.exp(-((depth - 250) ** 2) / (2 * 9**2))
    return np.asarray(light[..., None] * np.array((0.95, 0.96, 1.0)), dtype=np.float32)


def bore_end(
    seed: int, x: Plane, y: Plane, light: npt.NDArray[np.float32], depth: Plane
) -> npt.NDArray[np.float32]:
    """The far end with daylight behind, and before it the throttle plate, nearly edge on, with its shaft."""
    end = 1500.0
    scale = CAMERA_PX / (CAMERA_PX + end)
    ex, ey = x - LEAN_PX[0] * (1 - scale), y - LEAN_PX[1] * (1 - scale)
    far = step(MOUTH_PX * scale - np.hypot(ex, ey), 2.5)
    sky = 0.85 + 0.25 * blur(noise(seed + 5, 200, octaves=2), 12)
    light = light * (1 - far[..., None]) + sky[..., None] * np.array((0.98, 1.0, 1.03)) * far[..., None]
    at = 640.0
    scale = CAMERA_PX / (CAMERA_PX + at)
    qx, qy = x - LEAN_PX[0] * (1 - scale), y - LEAN_PX[1] * (1 - scale)
    size = MOUTH_PX * scale
    inside = step(size - np.hypot(qx, qy), 1.5)
    a = np.deg2rad(8)
    u, v = np.cos(a) * qx + np.sin(a) * qy, -np.sin(a) * qx + np.cos(a) * qy
    tip = np.sqrt(np.clip(1 - (u / size) ** 2, 0, 1))
    grain = noise(seed + 6, 4, octaves=2, stretch=60, angle=-8)
    plate = step(tip * 58 - np.abs(v + 10), 1.2) * inside
    tone = (
        0.34 + 0.22 * np.clip(v / 60, -1, 1) + 0.035 * grain + 0.25 * np.exp(-((u - 90) ** 2) / (2 * 60**2))
    )
    light = light * (1 - plate[..., None]) + tone[..., None] * np.array((1.0, 0.80, 0.42)) * plate[..., None]
    shaft_half = 33.0
    shaft = step(shaft_half - np.abs(v), 1.0) * inside
    bend = np.clip(v / shaft_half, -1, 1)
    gleam = (
        0.16
        + 0.75 * np.exp(-((bend + 0.45) ** 2) / 0.05)
        + 0.3 * np.exp(-((bend - 0.62) ** 2) / 0.02)
        + 0.02 * grain
    )
    light = (
        light * (1 - shaft[..., None]) + gleam[..., None] * np.array((0.92, 0.93, 0.96)) * shaft[..., None]
    )
    for side in (-1, 1):
        d = np.hypot(u - side * 105, v)
        head = step(29 - d, 1.0)
        dome = 0.42 + 0.5 * np.exp(-((u - side * 105 + 9) ** 2 + (v + 11) ** 2) / 160) - 0.006 * d
        slot = step(4.5 - np.abs(0.8 * (u - side * 105) + 0.6 * v), 0.9)
        dome = dome * (1 - 0.85 * slot)
        light = (
            light * (1 - head[..., None]) + dome[..., None] * np.array((0.95, 0.75, 0.40)) * head[..., None]
        )
    shade = np.exp(-((depth - at) ** 2) / (2 * 40**2)) * (1 - plate) * (1 - shaft)
    return np.asarray(light * (1 - 0.25 * shade[..., None]), dtype=np.float32)
