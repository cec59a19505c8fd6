"""Rendered pictures with known millimetres: the marker card, bores in its window, a pinhole camera.

Everything is drawn from its equation at each sub-pixel (no texture is warped), so the truth is exact:
a sub-pixel's ray meets the card's plane at a place in millimetres, and that place is black or white.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.photos.card import HEIGHT_MM, WIDTH_MM, black_mm

Floats = npt.NDArray[np.floating[Any]]
Pixels = npt.NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Bore:
    """A dark hole in a light face, in card millimetres."""

    x_mm: float
    y_mm: float
    diameter_mm: float
    face_mm: float = 0.0  # diameter of the light face around it; 0: none, the window is white


@dataclass(frozen=True, slots=True)
class View:
    """How the picture is taken."""

    px_per_mm: float = 20.0  # in the middle of the card
    tilt_deg: float = 0.0
    turn_deg: float = 7.0  # about the line of sight, so that no edge falls on a row of pixels
    tilt_axis_deg: float = 30.0
    blur_px: float = 0.8  # sigma
    noise: float = 2.0  # standard deviation, of 255
    light: float = 1.0
    seed: int = 0
    subsamples: int = 3


def homography(view: View, size_px: tuple[int, int]) -> Floats:
    """Card millimetres → pixels for a pinhole camera of a phone's field of view. *size_px*: width, height."""
    focal_px = 0.8 * 4000 * view.px_per_mm / 20
    distance_mm = focal_px / view.px_per_mm
    tilt, axis, turn = (math.radians(a) for a in (view.tilt_deg, view.tilt_axis_deg, view.turn_deg))
    about = np.array([math.cos(axis), math.sin(axis), 0.0]) * tilt
    rotation = cv2.Rodrigues(np.array([0.0, 0.0, turn]))[0] @ cv2.Rodrigues(about)[0]
    middle = np.array([WIDTH_MM / 2, HEIGHT_MM / 2, 0.0])
    shift = np.array([0.0, 0.0, distance_mm]) - rotation @ middle
    camera = np.array([[focal_px, 0, size_px[0] / 2], [0, focal_px, size_px[1] / 2], [0, 0, 1]])
    return np.asarray(camera @ np.column_stack([rotation[:, 0], rotation[:, 1], shift]), dtype=np.float64)


def scene(bores: tuple[Bore, ...], view: View) -> tuple[Pixels, Floats]:
    """The picture, (height, width, 3) uint8, and the homography card millimetres → pixels."""
    width_px = round((WIDTH_MM + 34) * view.px_per_mm)
    height_px = round((HEIGHT_MM + 34) * view.px_per_mm)
    forward = homography(view, (width_px, height_px))
    light = np.zeros((height_px, width_px), dtype=np.float32)
    steps = (np.arange(view.subsamples) + 0.5) / view.subsamples - 0.5
    grid = _modules()
    inverse = np.linalg.inv(forward)
    for down in steps:
        for across in steps:
            light += _shade(inverse, light.shape, (across, down), grid, bores)
    light *= view.light / view.subsamples**2
    if view.blur_px:
        light = np.asarray(cv2.GaussianBlur(light, (0, 0), view.blur_px), dtype=np.float32)
    light += np.random.default_rng(view.seed).normal(0, view.noise, light.shape).astype(np.float32)
    grey = np.clip(np.round(light), 0, 255).astype(np.uint8)
    return np.repeat(grey[..., None], 3, axis=2), forward


def _modules() -> npt.NDArray[np.float32]:
    """Lightness of the frame on a grid of whole millimetres, which all its edges keep to."""
    grid = np.full((round(HEIGHT_MM), round(WIDTH_MM)), 225, dtype=np.float32)
    for x_mm, y_mm, wide_mm, high_mm in black_mm():
        grid[round(y_mm) : round(y_mm + high_mm), round(x_mm) : round(x_mm + wide_mm)] = 30
    return grid


def _shade(
    inverse: Floats,
    size: tuple[int, ...],
    offset_px: tuple[float, float],
    grid: npt.NDArray[np.float32],
    bores: tuple[Bore, ...],
) -> npt.NDArray[np.float32]:
    """Lightness at one sub-pixel of every pixel, (height, width)."""
    m = inverse.astype(np.float64)
    x = (np.arange(size[1]) + offset_px[0])[None, :]
    y = (np.arange(size[0]) + offset_px[1])[:, None]
    w = m[2, 0] * x + m[2, 1] * y + m[2, 2]
    x_mm = (m[0, 0] * x + m[0, 1] * y + m[0, 2]) / w
    y_mm = (m[1, 0] * x + m[1, 1] * y + m[1, 2]) / w
    column, row = np.floor(x_mm).astype(np.int32), np.floor(y_mm).astype(np.int32)
    inside = (column >= 0) & (row >= 0) & (column < grid.shape[1]) & (row < grid.shape[0])
    shade = np.full(size, 225, dtype=np.float32)
    shade[inside] = grid[row[inside], column[inside]]
    for bore in bores:
        away = (x_mm - bore.x_mm) ** 2 + (y_mm - bore.y_mm) ** 2
        if bore.face_mm:
            shade[away < (bore.face_mm / 2) ** 2] = 170
        shade[away < (bore.diameter_mm / 2) ** 2] = 40
    return shade
