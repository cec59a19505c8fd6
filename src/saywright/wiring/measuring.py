"""Pictures measured: a scale, then lengths or particles. On files alone, or on the pictures of a job."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from saywright.errors import InputError
from saywright.photos.debris import Debris, find_debris, overlay
from saywright.photos.intake import derived_jpeg, read_photo
from saywright.photos.measure import Measured, angle, circle, distance
from saywright.photos.scale import Point, Print, Scale, card_scale, two_point_scale

Pixels = np.ndarray[Any, np.dtype[np.uint8]]
PLACES = {"distance": 2, "circle": 2, "angle": 3}  # kind → places to show


@dataclass(frozen=True, slots=True)
class ScaleBy:
    """Where the scale comes from: the card's print as measured, or two points. Neither: no scale."""

    across_mm: float | None = None  # between the upper crosses of the card
    down_mm: float | None = None  # between the left ones
    start_px: Point | None = None
    end_px: Point | None = None
    known_mm: float | None = None  # between these two points
    known_u_mm: float = 0.02  # standard uncertainty of it


@dataclass(frozen=True, slots=True)
class Findings:
    """Particles of one picture, with the picture that shows them."""

    debris: Debris
    overlay_jpeg: bytes


def scale_of(pixels: Pixels, by: ScaleBy) -> Scale | None:
    """The scale of the picture; None where nothing was given to make one from."""
    if by.start_px is not None and by.end_px is not None and by.known_mm is not None:
        return two_point_scale(by.start_px, by.end_px, by.known_mm, u_mm=by.known_u_mm)
    if by.across_mm is None and by.down_mm is None:
        return None
    if by.across_mm is None or by.down_mm is None:
        raise InputError(
            "one distance between the crosses of the card is missing",
            to_do="Measure across and down: a printer may stretch one of them",
        )
    return card_scale(pixels, Print(by.across_mm, by.down_mm))


def measured(pixels: Pixels, by: ScaleBy, kind: str, places: list[Point]) -> Measured:
    """Distance, circle (middle and a place on its rim) or angle (arm, corner, arm); places in pixels."""
    if kind not in PLACES or len(places) != PLACES[kind]:
        wanted = ", ".join(f"{name} {count}" for name, count in PLACES.items())
        raise InputError(f"{kind} with {len(places)} places cannot be measured", to_do=f"Show: {wanted}")
    height_px, width_px = pixels.shape[:2]
    for x, y in places:
        if not (0 <= x < width_px and 0 <= y < height_px):
            raise InputError(
                f"{x:g},{y:g} is not in the picture of {width_px} × {height_px} pixels", to_do="Show it again"
            )
    scale = scale_of(pixels, by)
    if kind == "distance":
        return distance(scale, places[0], places[1])
    if kind == "angle":
        return angle(scale, places[0], places[1], places[2])
    return circle(pixels, scale, places[0], float(np.hypot(*np.subtract(places[1], places[0]))))


def measure_file(path: Path, by: ScaleBy, kind: str, places: list[Point]) -> Measured:
    """`measured` on an image file."""
    return measured(read_photo(path).pixels, by, kind, places)


def debris_of_file(path: Path, by: ScaleBy) -> Findings:
    """Particles in an image file."""
    pixels = read_photo(path).pixels
    found = find_debris(pixels, scale_of(pixels, by))
    return Findings(found, derived_jpeg(overlay(pixels, found), max_px=3000))


def debris_rows(debris: Debris) -> list[dict[str, Any]]:
    """The particles as plain data, micrometres."""
    return [
        {
            "number": p.number,
            "class": p.size,
            "form": p.form,
            "feret_max_um": round(p.feret_max_um, 1),
            "feret_min_um": round(p.feret_min_um, 1),
            "area_um2": round(p.area_um2),
            "inscribed_um": round(p.inscribed_um, 1),
            "stretched_um": round(p.stretched_um, 1),
            "x_px": p.shape.left + p.shape.width // 2,
            "y_px": p.shape.top + p.shape.height // 2,
        }
        for p in debris.particles
    ]
