"""Faces and screw heads with and without damage, drawn with known places."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]
Box = tuple[float, float, float, float]  # left, top, width, height as shares

SIZE_PX = (800, 600)
SUBPIXELS = 3
FINISHES = ("plain", "brushed", "turned", "cast")
FEATURES = ("thread", "knurl", "stamp", "scribe line")


def face(finish: str, seed: int, *, scratches: int = 0, depth: float = 40.0) -> tuple[Pixels, Box | None]:
    """A metal face with its edge, a hole, uneven light; *scratches* side by side somewhere; and where."""
    random = np.random.default_rng(seed)
    width, height = SIZE_PX
    light = 150 + 25 * _slope(random)
    light += _texture(finish, random)
    light[:, :60] = 60 + random.normal(0, 2, (height, 60))  # the bench beside the face
    y, x = np.mgrid[0:height, 0:width]
    hole = np.hypot(x - random.uniform(550, 700), y - random.uniform(100, 500)) < random.uniform(25, 45)
    light[hole] = 45
    where = None
    if scratches:
        where = _scratched(light, random, scratches, depth)
    smooth = np.asarray(cv2.GaussianBlur(light, (0, 0), 0.8)) + random.normal(0, 2, light.shape)
    grey = np.clip(np.round(smooth), 0, 255).astype(np.uint8)
    return np.repeat(grey[..., None], 3, axis=2), where


def sound_face(feature: str, seed: int) -> Pixels:
    """A plain face with something on it that is no damage, of FEATURES."""
    random = np.random.default_rng(seed)
    light = 150 + 25 * _slope(random) + _texture("plain", random)
    left, top = round(random.uniform(150, 400)), round(random.uniform(120, 300))
    drawn: dict[str, Callable[[npt.NDArray[Any], int, int, np.random.Generator], None]] = {
        "thread": _thread,
        "knurl": _knurl,
        "stamp": _stamp,
        "scribe line": _scribed,
    }
    drawn[feature](light, left, top, random)
    smooth = np.asarray(cv2.GaussianBlur(light, (0, 0), 0.8)) + random.normal(0, 2, light.shape)
    return np.repeat(np.clip(np.round(smooth), 0, 255).astype(np.uint8)[..., None], 3, axis=2)


def _thread(light: npt.NDArray[Any], left: int, top: int, random: np.random.Generator) -> None:
    """Flanks lit and dark in turn, a shade off square, on a round body."""
    y, x = np.mgrid[0:160, 0:260]
    pitch, lean = random.uniform(9, 16), random.uniform(0.04, 0.1)
    flanks = 55 * np.sin(2 * math.pi * (x + lean * y) / pitch)
    light[top : top + 160, left : left + 260] += flanks * np.sin(math.pi * (y + 0.5) / 160)


def _knurl(light: npt.NDArray[Any], left: int, top: int, random: np.random.Generator) -> None:
    """Two sets of grooves that cross."""
    y, x = np.mgrid[0:160, 0:260]
    pitch = random.uniform(9, 14)
    crossed = np.sin(2 * math.pi * (x + y) / pitch) + np.sin(2 * math.pi * (x - y) / pitch)
    light[top : top + 160, left : left + 260] += 28 * crossed


def _stamp(light: npt.NDArray[Any], left: int, top: int, random: np.random.Generator) -> None:
    """A number struck in: its dark side and its lit side."""
    text = f"{random.integers(100, 99999)}"
    for off, shade in ((2, 35.0), (0, -60.0)):
        struck = np.zeros(light.shape, dtype=np.uint8)
        place = (left + off, top + 60 + off)
        cv2.putText(struck, text, place, cv2.FONT_HERSHEY_SIMPLEX, 2.0, 255, 4, cv2.LINE_AA)
        light += shade / 255 * struck


def _scribed(light: npt.NDArray[Any], _left: int, top: int, random: np.random.Generator) -> None:
    """One line across the face, set out on purpose."""
    layer = np.zeros(light.shape, dtype=np.float32)
    down = round(random.uniform(-120, 120))
    for off, shade in ((2, 24.0), (0, -40.0)):
        cv2.line(layer, (100, top + off), (760, top + down + off), shade, 1, cv2.LINE_AA)
    light += layer


def _slope(random: np.random.Generator) -> npt.NDArray[Any]:
    height, width = SIZE_PX[1], SIZE_PX[0]
    y, x = np.mgrid[0:height, 0:width]
    turn = random.uniform(0, 2 * math.pi)
    return np.asarray((math.cos(turn) * (x / width - 0.5) + math.sin(turn) * (y / height - 0.5)) * 2)


def _texture(finish: str, random: np.random.Generator) -> npt.NDArray[Any]:
    height, width = SIZE_PX[1], SIZE_PX[0]
    noise = random.normal(0, 1, (height, width))
    if finish == "brushed":
        return np.asarray(12 * cv2.GaussianBlur(noise, (0, 0), sigmaX=25, sigmaY=0.8) * 5)
    if finish == "turned":
        y, x = np.mgrid[0:height, 0:width]
        rings = np.hypot(x - width / 2, y - height / 2)
        return np.asarray(7 * np.sin(rings * 0.9) + noise * 2)
    if finish == "cast":
        return np.asarray(cv2.GaussianBlur(noise, (0, 0), 2.5) * 45)
    return noise * 2


def _scratched(light: npt.NDArray[Any], random: np.random.Generator, scratches: int, depth: float) -> Box:
    """Draw lines side by side into *light*; the box around them."""
    length, turn = random.uniform(120, 240), random.uniform(0, math.pi)
    middle = (random.uniform(230, 480), random.uniform(180, 420))
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    ends = []
    layer = np.zeros(light.shape, dtype=np.float32)
    for number in range(scratches):
        off = (number - scratches / 2) * random.uniform(5, 8)
        for sign, shade in ((0.0, -depth), (1.8, depth * 0.6)):  # a groove: its dark side, its lit side
            start, end = (
                tuple(
                    middle[axis] + (off + sign) * across[axis] + half * length * along[axis]
                    for axis in (0, 1)
                )
                for half in (-0.5, 0.5)
            )
            places = [(round(p[0] * 8), round(p[1] * 8)) for p in (start, end)]
            cv2.line(layer, places[0], places[1], shade, 1, cv2.LINE_AA, 3)
            ends += [start, end]
    light += layer
    points = np.array(ends)
    (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
    return (left / SIZE_PX[0], top / SIZE_PX[1], (right - left) / SIZE_PX[0], (bottom - top) / SIZE_PX[1])


def screw(seed: int, *, chipped: float = 0.0) -> tuple[Pixels, Box]:
    """A screw head with a slot, and the box around the head; *chipped*: how far an edge is broken out, of the
    slot's width."""
    random = np.random.default_rng(seed)
    side = 400
    y, x = np.mgrid[0 : side * SUBPIXELS, 0 : side * SUBPIXELS] / SUBPIXELS
    middle, radius = side / 2, random.uniform(110, 150)
    turn, wide = random.uniform(0, math.pi), random.uniform(22, 40)
    along = (x - middle) * math.cos(turn) + (y - middle) * math.sin(turn)
    across = -(x - middle) * math.sin(turn) + (y - middle) * math.cos(turn)
    inside = np.hypot(x - middle, y - middle) < radius
    half = np.full(x.shape, wide / 2) + 0.5 * np.sin(along / random.uniform(6, 12))  # a saw's waviness
    if chipped:
        place, reach = random.uniform(-0.5, 0.5) * radius, random.uniform(14, 28)
        half = half + np.where(across > 0, chipped * wide * np.exp(-(((along - place) / reach) ** 2)), 0.0)
    slot = inside & (np.abs(across) < half)
    fine = np.where(slot, 45.0, np.where(inside, 165.0, 115.0)).astype(np.float32)
    light = cv2.resize(fine, (side, side), interpolation=cv2.INTER_AREA)
    light = np.asarray(cv2.GaussianBlur(light, (0, 0), 1.0)) + random.normal(0, 3, (side, side))
    grey = np.clip(np.round(light), 0, 255).astype(np.uint8)
    reach_share = (radius + 8) / side
    return np.repeat(grey[..., None], 3, axis=2), (
        0.5 - reach_share,
        0.5 - reach_share,
        2 * reach_share,
        2 * reach_share,
    )
