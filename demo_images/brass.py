"""Brass parts: jet, air screw, float, seat."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from render import BRASS, OLD_BRASS, STEEL, Camera, blur, noise, photograph, stamp, step
from shapes import lying, slips, spring, tarnish, turned, turned_axes
from surfaces import cloth, steel_bench, wooden_bench

Picture = npt.NDArray[np.uint8]


def jet(number: str = "128", seed: int = 11) -> Picture:
    """A main jet on its thread, slot up: the slot is chewed by a wrong screwdriver."""
    scene = cloth(seed, (0.10, 0.115, 0.14), fold=18, pitch=8)
    x, y = scene.x + 10, scene.y + 6
    r = np.hypot(x, y)
    head, edge = 372.0, 30.0
    wobble = noise(seed + 5, 60, octaves=3)
    face = 260 - np.clip((r - (head - edge)) / edge, 0, 1) ** 1.6 * 34
    face = face + turned(r, seed, 0.42) + 0.5 * wobble
    a = np.deg2rad(-24)
    along, across = np.cos(a) * x + np.sin(a) * y, -np.sin(a) * x + np.cos(a) * y
    # The blade slipped towards the ends: the walls are torn wider there, one side more than the other.
    torn = np.clip((np.abs(along) - 120) / 250, 0, 1) ** 1.3
    ragged = noise(seed + 6, 34, octaves=4)
    side = np.where(along * across > 0, 1.0, 0.35)
    half = 37 + torn * side * (26 + 17 * ragged) + 1.5 * ragged
    gap = half - np.abs(across)
    slot = step(gap, 3.0 + 10 * torn)
    floor = 160 + 1.5 * noise(seed + 7, 14, octaves=3) + 0.6 * noise(seed + 8, 5, stretch=30, angle=24)
    burr = np.exp(-((gap + 11) ** 2) / (2 * 8**2)) * torn * side * (13 + 7 * ragged)
    dent = np.exp(-((gap + 30) ** 2) / (2 * 22**2)) * torn * side * (5 * ragged - 7)
    face = face + burr + dent - 9 * blur(stamp(number, 95, 205, 118, 24), 0.9)
    hole = step(62 - r, 1.2)
    chamfer = np.clip((92 - r) / 30, 0, 1)
    slotted = face * (1 - slot) + floor * slot
    slotted = np.minimum(slotted, face - 30 * chamfer)
    body = slotted * (1 - hole) + (-60) * hole
    rough = 0.20 + 0.10 * step(noise(seed + 9, 90) - 0.4, 0.6) + 0.25 * slot
    scene.put(step(head - r, 1.0), body, BRASS, metal=1.0, rough=rough)
    tarnish(scene, step(head - r, 1.0), seed, slot)
    scene.paint(hole, (0.015, 0.012, 0.01), metal=0.0, rough=0.9)
    slips(scene, seed, a, step(head - 14 - r, 2))
    return photograph(
        scene, Camera(focus_height=255, depth_blur=0.045, exposure=0.92, warm=0.35, seed=seed, tilt=0.02)
    )


def air_screw(seed: int = 61) -> Picture:
    """The air screw with its spring: slotted head, thread, taper."""
    scene = wooden_bench(seed, angle=-8)
    u, v = turned_axes(scene, 24, -20, 0)
    wide = np.full_like(u, 92.0)
    round_angle = np.arcsin(np.clip(v / 92, -1, 1))
    wave = (u / 25.0 + round_angle / (2 * np.pi)) % 1.0
    thread = 92 - 22 * (1 - np.abs(2 * wave - 1))
    radius = np.where((u > -40) & (u < 250), thread, wide)
    radius = np.where(u <= -40, 74.0, radius)
    radius = np.where(u > 250, 78 - (u - 250) * 0.06, radius)
    radius = np.where(u > 330, np.clip(60 - (u - 330) * 0.20, 0, 60), radius)
    knurl = 4.5 * np.abs(np.sin(np.arcsin(np.clip(v / 168, -1, 1)) * 22))
    radius = np.where(u < -330, 168 - knurl - 16 * np.clip((-560 - u) / 18, 0, 1), radius)
    radius = radius + 0.4 * turned(u + 1500, seed, 1.0)
    inside = step(u + 588, 1.0) * step(626 - u, 1.0)
    height, mask = lying(v, radius.astype(np.float32), inside, 60)
    scene.put(mask, height, BRASS, metal=1.0, rough=0.19)
    groove = step(22 - np.abs(v - 12), 1.5) * step(-520 - u, 1.5) * mask
    scene.height -= 70 * groove
    scene.paint(groove * 0.7, (0.16, 0.10, 0.04), rough=0.6)
    tarnish(scene, mask, seed, 0.5 * (1 - np.abs(2 * wave - 1)) * ((u > -40) & (u < 250)))
    spring(scene, u, v, seed)
    return photograph(
        scene,
        Camera(
            focus_height=120, depth_blur=0.05, exposure=1.0, warm=0.45, seed=seed, lamp=(-0.4, -0.8, 0.75)
        ),
    )


def float_body(seed: int = 71) -> Picture:
    """The float, a pair of pontoons on a brass arm; the camera moved out of focus."""
    scene = wooden_bench(seed, angle=2)
    x, y = scene.x, scene.y - 40
    for side in (-1, 1):
        u, v = x - side * 330, y + 20
        shape = 200 - (np.abs(u) ** 3 / 200**3 + np.abs(v / 1.5) ** 3 / 200**3) ** (1 / 3) * 200
        mask = step(shape, 1.0)
        height = 40 + 150 * np.clip(shape / 120, 0, 1) ** 0.45 + 0.4 * noise(seed + 1, 60, octaves=3)
        seam = np.exp(-((shape - 46) ** 2) / 18)
        scene.put(mask, height + 5 * seam, OLD_BRASS, metal=1.0, rough=0.28)
        tarnish(scene, mask, seed + side, 0.3 * mask)
    arm = step(60 - np.abs(y + 60), 1) * step(240 - np.abs(x), 1)
    arm = np.maximum(arm, step(70 - np.abs(x), 1) * step(y + 400, 1) * step(-y, 1))
    scene.put(arm, 150 + 0.3 * noise(seed + 2, 20), BRASS, metal=1.0, rough=0.3)
    pin = step(22 - np.abs(y + 350), 1) * step(165 - np.abs(x), 1)
    scene.put(pin, 160 + np.sqrt(np.clip(22.0**2 - (y + 350) ** 2, 0, None)), STEEL, metal=1.0, rough=0.15)
    return photograph(scene, Camera(exposure=1.0, warm=0.4, seed=seed, defocus=17.0, depth_blur=0.0))


def seat(seed: int = 83) -> Picture:
    """The inlet seat, taken without enough light."""
    scene = steel_bench(seed)
    x, y = scene.x, scene.y
    r = np.hypot(x, y)
    a = np.arctan2(y, x) + 0.3
    hexagon = 380 - r * np.cos((a % (np.pi / 3)) - np.pi / 6)
    height = 150 - 46 * np.clip((r - 385) / 60, 0, 1) + turned(r, seed, 0.35)
    collar = step(240 - r, 1.2)
    height = (
        height * (1 - collar) + (195 + turned(r, seed + 1, 0.3) - 14 * np.clip((r - 226) / 14, 0, 1)) * collar
    )
    cone = np.clip((150 - r) / 75, 0, 1)
    height = height - 95 * cone
    hole = step(70 - r, 1.2)
    height = height * (1 - hole) - 80 * hole
    mask = step(hexagon, 1.0)
    scene.put(mask, height, BRASS, metal=1.0, rough=0.2)
    tarnish(scene, mask, seed, 0.5 * step(150 - r, 3))
    ring = np.exp(-((r - 112) ** 2) / (2 * 7**2))
    scene.paint(ring * mask * 0.7, (0.95, 0.80, 0.50), rough=0.12)
    scene.paint(hole, (0.01, 0.01, 0.01), metal=0.0, rough=0.9)
    return photograph(
        scene,
        Camera(
            focus_height=190,
            depth_blur=0.04,
            exposure=0.075,
            warm=0.3,
            seed=seed,
            noise=2.2,
            lamp=(0.7, -0.5, 0.5),
        ),
    )
