"""Strainer, gasket, needle, and the bench with nothing announced."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from render import ALUMINIUM, OLD_BRASS, STEEL, Camera, Plane, Scene, noise, photograph, step
from shapes import grit, hair, joined, lying, tarnish, turned, turned_axes
from surfaces import cloth, steel_bench, tinted, wooden_bench

Picture = npt.NDArray[np.uint8]


def strainer(seed: int = 23) -> Picture:
    """The round fuel strainer, from above: grit on its mesh and a hair across it."""
    scene = wooden_bench(seed, angle=86)
    x, y = scene.x, scene.y
    r = np.hypot(x, y)
    outer, inner, pitch, wire = 440.0, 372.0, 24.0, 4.6
    ring = (r - (outer + inner) / 2) / ((outer - inner) / 2)
    rim = 26 + 34 * np.sqrt(np.clip(1 - ring**2, 0, 1)) + turned(r, seed, 0.25)
    scene.put(step(inner + 6 - r), -46 + 3 * noise(seed + 1, 50), (0.05, 0.038, 0.025), rough=0.7)
    sag = 8 * np.clip(1 - (r / inner) ** 2, 0, 1)
    u, v = turned_axes(scene, 17)
    u = u + 1.6 * noise(seed + 2, 180, octaves=2)
    v = v + 1.6 * noise(seed + 3, 180, octaves=2)
    mesh, at = np.full_like(r, -90.0), np.zeros_like(r)
    for a, b, turn in ((u, v, 0.0), (v, u, 1.0)):
        index = np.round(a / pitch)
        off = a - index * pitch
        crest = 4.2 * np.cos(np.pi * (b / pitch + index + turn))
        thread = np.sqrt(np.clip(wire**2 - off**2, 0, None)) + crest + 10 - sag
        here = step(wire - np.abs(off), 0.7)
        mesh = np.where((here > 0.05) & (thread > mesh), thread, mesh)
        at = np.maximum(at, here)
    scene.put(at * step(inner + 8 - r), mesh, (0.66, 0.52, 0.30), metal=1.0, rough=0.22)
    dirt = step(noise(seed + 4, 230, octaves=4) + 0.5 - r / 500, 0.7) * step(inner - r, 3)
    scene.paint(dirt * 0.75, (0.15, 0.095, 0.045), metal=0.35, rough=0.7)
    scene.put(step(outer - r) * step(r - inner), rim, OLD_BRASS, metal=1.0, rough=0.27)
    tarnish(scene, step(outer - r) * step(r - inner), seed, np.zeros_like(r))
    grit(scene, seed, count=420, middle=(70.0, 60.0), spread=135.0, limit=345.0)
    t = np.linspace(0, 1, 90)
    path = [-300 + 620 * t + 50 * np.sin(5.2 * t), 60 - 230 * np.sin(3.6 * t) + 40 * np.cos(8 * t)]
    hair(scene, np.stack(path, axis=1), 34)
    return photograph(
        scene, Camera(focus_height=14, depth_blur=0.03, exposure=1.0, warm=0.5, seed=seed, tilt=0.03)
    )


def gasket(seed: int = 37) -> Picture:
    """The bowl gasket, laid flat: torn through beside one bolt hole."""
    scene = steel_bench(seed)
    x, y = scene.x + 6, scene.y
    angle = np.arctan2(y, x)
    bulge = 36 * np.cos(4 * (angle - np.pi / 4))
    r = np.hypot(x * 0.93, y) + 2.0 * noise(seed + 3, 160, octaves=3)
    band = np.minimum(480 + bulge - r, r - (386 + 0.72 * bulge))
    holes = np.full_like(r, -1e3)
    for k in range(4):
        a = np.pi / 4 + k * np.pi / 2
        hx, hy = 489 * np.cos(a) / 0.93, 489 * np.sin(a)
        away = np.hypot(x - hx, y - hy)
        band = joined(band, 79 - away, 31)
        holes = np.maximum(holes, 37 - away + 0.8 * noise(seed + 4, 30, octaves=2))
    band = np.minimum(band, -holes)
    band, crack, near = torn(scene, band, seed)
    mask = step(band, 0.9)
    fibre = noise(seed + 7, 16, octaves=3, stretch=5, angle=35) + noise(
        seed + 8, 16, octaves=3, stretch=5, angle=-50
    )
    grain = noise(seed + 9, 5, octaves=2)
    pressed = np.exp(-((band - 34) ** 2) / (2 * 13**2)) * step(80 - band, 8)
    curl = 12 * np.exp(-np.clip(crack, 0, None) / 30) * near
    height = 15 + 0.55 * fibre + 0.5 * grain + np.clip(band, 0, 5) * 0.8 - 2.5 * pressed + curl
    oil = step(noise(seed + 10, 210, octaves=4) - 0.35, 0.6)
    colour = tinted((0.135, 0.155, 0.115), (fibre, 0.13), (grain, 0.12), (oil, -0.55), (pressed, -0.3))
    torn_edge = np.exp(-np.clip(crack, 0, None) / 7) * near
    colour = (
        colour * (1 - 0.8 * torn_edge[..., None]) + np.array((0.38, 0.34, 0.26)) * 0.8 * torn_edge[..., None]
    )
    scene.put(mask, height, colour.astype(np.float32), metal=0.0, rough=0.85 - 0.35 * oil)
    return photograph(
        scene,
        Camera(
            focus_height=14,
            depth_blur=0.02,
            exposure=1.0,
            warm=0.1,
            seed=seed,
            tilt=0.06,
            lamp=(-0.7, -0.5, 0.6),
        ),
    )


def torn(scene: Scene, band: Plane, seed: int) -> tuple[Plane, Plane, Plane]:
    """*band* with a ragged crack across it, its lips pulled apart; distance to the crack; nearness to it."""
    u, v = turned_axes(scene, -21, 478, -176)
    ragged = 15 * noise(seed + 6, 70, octaves=5)
    crack = np.abs(v + ragged) - (15.0 + 24 * np.clip((u + 60) / 130, 0, 1.3))
    near = step(170 - np.hypot(u, v), 20)
    band = np.where(near > 0.01, np.minimum(band, crack * near + 99 * (1 - near)), band)
    return band, crack, near


def needle(seed: int = 53) -> Picture:
    """The float needle on its side: a worn ring round its tip."""
    scene = cloth(seed, (0.10, 0.13, 0.18), fold=10, pitch=6)
    u, v = turned_axes(scene, -14, 20, 20)
    cone = np.clip((u + 560) / 330, 0, 1) * 118 + 10 * np.clip((u + 566) / 10, 0, 1)
    radius = np.where(u < -230, cone, 138.0)
    radius = np.where((u > -230) & (u < -196), 104.0, radius)
    radius = np.where(u > 420, 74.0, radius)
    radius = np.where((u > 520), 46 + 26 * np.clip((u - 520) / 20, 0, 1), radius)
    radius = radius - 6 * step(15 - np.abs(u + 395), 4.0) + 3.0 * np.exp(-((u + 362) ** 2) / (2 * 9.0**2))
    radius = radius + 0.5 * turned(u + 1200, seed, 1.0)
    inside = step(u + 566, 1.0) * step(600 - u, 1.0)
    height, mask = lying(v, radius.astype(np.float32), inside, 20)
    flats = (u > -190) & (u < 415)
    height = np.where(flats, np.minimum(height, 132), height)
    scene.put(mask, height, STEEL, metal=1.0, rough=0.17)
    worn = step(15 - np.abs(u + 395), 4.0) * mask
    scene.paint(worn * 0.9, (0.10, 0.075, 0.055), metal=0.6, rough=0.5)
    lip = np.exp(-((u + 366) ** 2) / (2 * 5.0**2)) * mask
    scene.paint(lip * 0.8, (0.95, 0.93, 0.88), rough=0.1)
    brown = step(noise(seed + 4, 150, octaves=4) - 0.5, 0.6) * mask
    scene.paint(brown * 0.35, (0.36, 0.24, 0.11), rough=0.4)
    return photograph(
        scene,
        Camera(focus_height=95, depth_blur=0.06, exposure=0.95, warm=0.2, seed=seed, lamp=(-0.5, -0.75, 0.7)),
    )


def bench(seed: int = 97) -> Picture:
    """The bench with a rag and the emptied float bowl; nobody announced it."""
    scene = wooden_bench(seed, angle=5)
    rag = cloth(seed + 1, (0.33, 0.055, 0.04), fold=26, pitch=5)
    edge = 30 * noise(seed + 2, 260, octaves=3)
    rag_mask = step(0.8 * scene.x - scene.y - 200 + edge, 1.5) * step(scene.x + 420 + edge, 1.5)
    hem = np.exp(-np.clip(0.8 * scene.x - scene.y - 200 + edge, 0, None) / 9)
    scene.put(rag_mask, 50 + rag.height + 5 * hem, rag.colour, rough=0.95)
    x, y = scene.x + 260, scene.y - 30
    r = np.hypot(x, y)
    flange = 330 - r
    ears = np.full_like(r, -1e3)
    for k in range(4):
        a = 0.6 + k * np.pi / 2
        flange = joined(flange, 62 - np.hypot(x - 352 * np.cos(a), y - 352 * np.sin(a)), 26)
        ears = np.maximum(ears, 24 - np.hypot(x - 352 * np.cos(a), y - 352 * np.sin(a)))
    cast = 1.1 * noise(seed + 5, 9, octaves=3)
    inner = 268 - r
    height = 190 + 0.3 * turned(np.hypot(x - 900, y), seed, 1.0) - 300 * step(ears, 1.2)
    well = 28 + np.clip((r - 190) / 78, 0, 1) ** 3 * 90 + 0.45 * cast
    height = height * (1 - step(inner, 2)) + well * step(inner, 2)
    boss = step(58 - np.hypot(x - 60, y - 120), 2)
    height = height + boss * (30 - 26 * step(26 - np.hypot(x - 60, y - 120), 1.5))
    mask = step(flange, 1.2)
    scene.put(mask, height, ALUMINIUM, metal=0.9, rough=0.35 + 0.3 * step(inner, 2))
    varnish = step(noise(seed + 6, 150, octaves=5) + 0.3, 0.8) * step(inner, 4)
    scene.paint(varnish * 0.6, (0.30, 0.20, 0.10), metal=0.5, rough=0.35)
    return photograph(
        scene, Camera(focus_height=150, depth_blur=0.022, exposure=0.95, warm=0.4, seed=seed, tilt=0.06)
    )
