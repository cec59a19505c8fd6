"""Particles on a cloth, a strainer or a filter: found, sized, classed, counted.

The cloth is what is left when all that is small is taken away: a median over a wide window of the
shrunken picture. What stands out from it, darker or lighter, by several times the cloth's own unrest is a
particle; its edge is where it stands out by half as much as its middle, so that blur neither widens nor
narrows it. A weave of strong contrast raises the unrest, and with it what is too faint to be found.

What a picture cannot resolve is counted and not sized (RESOLVED_PX). Nothing here tells grit from a shadow.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.card import FRAME_SQUARES, HEIGHT_MM, SQUARE_MM, WIDTH_MM
from saywright.photos.particles import (
    CLASSES_UM,
    RESOLVED_PX,
    WIDTH_RESOLVED_PX,
    Form,
    Shape,
    components,
    form,
    shape,
    size_class,
)
from saywright.photos.scale import Scale

Pixels = npt.NDArray[np.uint8]

LEAST_CONTRAST = 18.0  # of 255
OVER_UNREST = 6.0  # standard deviations of the cloth
MOST = 20_000  # regions; more are no particles but a pattern
_SHRINK = 8
_WINDOW_SHARE = 0.12  # of the shorter side: what is larger than half of this is cloth
_LEAST_AREA_PX = 4
_EDGE = (20, 20, 20)
_COLOURS = {"compact": (255, 214, 10), "fibre": (0, 200, 255), "fibre_wide": (0, 200, 255)}


@dataclass(frozen=True, slots=True)
class Particle:
    """A particle with its sizes in micrometres."""

    number: int  # from 1, largest first
    feret_max_um: float
    feret_min_um: float
    area_um2: float
    inscribed_um: float
    stretched_um: float
    size: str  # letter of ISO 16232
    form: Form
    shape: Shape


@dataclass(frozen=True, slots=True)
class Debris:
    """What lies on the cloth."""

    particles: tuple[Particle, ...]  # resolved ones, largest first
    not_resolved: int  # found, and too few pixels to be sized
    um_per_px: float
    resolved_from_um: float  # maximum Feret diameter that RESOLVED_PX pixels are
    contrast: float  # of 255; what stands out less was not found

    def counts(self) -> tuple[tuple[str, int, int], ...]:
        """Class, compact particles, fibres; classes from the first that is resolved."""
        seen = Counter((p.size, p.form == "compact") for p in self.particles)
        bounds = [*(lower for _, lower in CLASSES_UM[1:]), float("inf")]
        shown = [
            letter
            for (letter, _), upper in zip(CLASSES_UM, bounds, strict=True)
            if upper > self.resolved_from_um * (1 + 1e-9)
        ]
        return tuple((letter, seen[letter, True], seen[letter, False]) for letter in shown)


def find_debris(pixels: Pixels, scale: Scale | None, *, within: Sequence[tuple[float, float]] = ()) -> Debris:
    """Particles in *pixels* (height, width, 3) uint8, inside the polygon *within* (pixels) if given.

    With the card only its window is searched. InputError without a scale, and where the ground is a pattern.
    """
    if scale is None:
        raise InputError(
            "the picture has no scale, so particles cannot be sized",
            to_do="Lay the marker card around the cloth, or show two points a known distance apart",
        )
    area = _searched(pixels.shape[:2], scale, within)
    out, contrast = standing_out(pixels, area)
    labels, table = components(out > contrast)
    if len(table) > MOST:
        raise InputError(
            f"{len(table)} spots are a pattern, not particles",
            to_do="Take it on a plain cloth",
        )
    um_per_px = 1000 * scale.mm_per_px(_middle(area))
    found = list(_shapes(out, labels, table, contrast))
    sized = [one for one in found if one.feret_max_px >= RESOLVED_PX]
    sized.sort(key=lambda one: -one.feret_max_px)
    particles = [_sized(number, one, um_per_px) for number, one in enumerate(sized, start=1)]
    kept = tuple(one for one in particles if one is not None)
    return Debris(kept, len(table) - len(sized), um_per_px, RESOLVED_PX * um_per_px, contrast)


def _middle(area: npt.NDArray[np.bool_]) -> tuple[float, float]:
    """Mean place of the pixels of *area*, x, y; the corner where there are none."""
    columns, rows = area.sum(axis=0), area.sum(axis=1)
    count = max(1, int(rows.sum()))
    return float(columns @ np.arange(columns.size)) / count, float(rows @ np.arange(rows.size)) / count


def standing_out(pixels: Pixels, area: npt.NDArray[np.bool_]) -> tuple[Pixels, float]:
    """How far each pixel stands out from the cloth, 0 outside *area*; how far a particle must."""
    grey = np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    ground = _ground(grey, area)
    out = np.asarray(cv2.absdiff(grey, ground), dtype=np.uint8)
    out[~area] = 0
    sample = out[::3, ::3][area[::3, ::3]]
    unrest = 1.4826 * float(np.median(sample)) if sample.size else 0.0
    return out, max(LEAST_CONTRAST, OVER_UNREST * unrest)


def overlay(pixels: Pixels, debris: Debris) -> Pixels:
    """A copy of *pixels* with an outline around each particle, its number and class; fibres in blue."""
    drawn = pixels.copy()
    line_px = max(1, round(min(pixels.shape[:2]) / 700))
    for particle in debris.particles:
        hull = np.array(particle.shape.outline_px)
        away = hull - hull.mean(axis=0)
        apart = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1)[:, None]
        outline = np.round(hull + away / apart * 4 * line_px).astype(np.int32)
        for colour, extra_px in ((_EDGE, 2 * line_px), (_COLOURS[particle.form], 0)):
            cv2.polylines(drawn, [outline], True, colour, line_px + extra_px, cv2.LINE_AA)
        place = (particle.shape.left + particle.shape.width + 2, particle.shape.top)
        size = max(0.35, min(pixels.shape[:2]) / 1800)
        text = f"{particle.number}{particle.size}"
        for colour, extra_px in (((255, 255, 255), 3 * line_px), (_EDGE, 0)):
            cv2.putText(
                drawn, text, place, cv2.FONT_HERSHEY_SIMPLEX, size, colour, line_px + extra_px, cv2.LINE_AA
            )
    return drawn


def _searched(
    size: tuple[int, ...], scale: Scale, within: Sequence[tuple[float, float]]
) -> npt.NDArray[np.bool_]:
    polygon: npt.NDArray[Any] = np.array(within, dtype=np.float64)
    if not len(within) and scale.source == "card":
        inset_mm = FRAME_SQUARES * SQUARE_MM + 1
        right_mm, below_mm = WIDTH_MM - inset_mm, HEIGHT_MM - inset_mm
        window = [(inset_mm, inset_mm), (right_mm, inset_mm), (right_mm, below_mm), (inset_mm, below_mm)]
        polygon = scale.px(np.array(window))
    if not len(polygon):
        return np.ones(size, dtype=bool)
    plane = np.zeros(size, dtype=np.uint8)
    cv2.fillPoly(plane, [np.round(polygon).astype(np.int32)], 1)
    return plane.astype(bool)


def _ground(grey: Pixels, area: npt.NDArray[np.bool_]) -> Pixels:
    """The cloth without what lies on it, (height, width)."""
    shrink = _SHRINK if min(grey.shape) >= 60 * _SHRINK else max(1, min(grey.shape) // 60)
    size = (max(1, grey.shape[1] // shrink), max(1, grey.shape[0] // shrink))
    small = np.asarray(cv2.resize(grey, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)
    inside = np.asarray(cv2.resize(area.astype(np.uint8), size, interpolation=cv2.INTER_NEAREST), dtype=bool)
    if inside.any():
        small[~inside] = int(np.median(small[inside]))
    window = max(3, round(min(size) * _WINDOW_SHARE)) | 1
    smooth = cv2.medianBlur(small, min(window, 255))
    wide = cv2.resize(smooth, (grey.shape[1], grey.shape[0]), interpolation=cv2.INTER_LINEAR)
    return np.asarray(wide, dtype=np.uint8)


def _shapes(
    out: Pixels, labels: npt.NDArray[np.int32], table: npt.NDArray[np.int32], contrast: float
) -> Iterator[Shape]:
    """Regions with their edge at half of what their middle stands out by."""
    for number, (left, top, width, height, area) in enumerate(table.tolist(), start=1):
        if area < _LEAST_AREA_PX or max(width, height) < RESOLVED_PX / 2:
            continue
        box = labels[top : top + height, left : left + width] == number
        heights = out[top : top + height, left : left + width]
        level = float(np.percentile(heights[box], 90)) / 2
        if level > contrast:
            inner, rows = components(box & (heights > level))
            if len(rows):
                largest = int(rows[:, 4].argmax())
                x, y, wide, high, _ = (int(value) for value in rows[largest])
                yield shape(inner[y : y + high, x : x + wide] == largest + 1, left + x, top + y)
                continue
        yield shape(box, left, top)


def _sized(number: int, one: Shape, um_per_px: float) -> Particle | None:
    feret_um = one.feret_max_px * um_per_px
    letter = size_class(feret_um)
    if letter is None:
        return None
    inscribed_um, stretched_um = one.inscribed_px * um_per_px, one.stretched_px * um_per_px
    return Particle(
        number,
        feret_um,
        one.feret_min_px * um_per_px,
        one.area_px * um_per_px**2,
        inscribed_um,
        stretched_um,
        letter,
        form(stretched_um, inscribed_um, width_resolved=one.inscribed_px >= WIDTH_RESOLVED_PX),
        one,
    )
