"""Pictures measured: a scale, then lengths or particles. On files alone, or on the pictures of a job."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

import numpy as np

from saywright.errors import ImageError, InputError
from saywright.photos.annotate import check_annotation
from saywright.photos.damage import Proposal, scoring, slot_damage
from saywright.photos.debris import Debris, find_debris, overlay
from saywright.photos.intake import read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.lens import Lens
from saywright.photos.measure import Measured, angle, circle, distance
from saywright.photos.region import Box
from saywright.photos.scale import Point, Print, Scale, card_scale, two_point_scale
from saywright.record.events import Event, MeasurementEntered, PhotoAdded, PhotoAnnotated, PhotoMeasured
from saywright.record.types import Measurement, Photo
from saywright.wiring.log import JobLog

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
    lens: Lens | None = None  # None: taken as free of distortion


@dataclass(frozen=True, slots=True)
class Shown:
    """What a person asks to be measured."""

    kind: str  # of PLACES
    places: tuple[Point, ...]  # pixels: ends; middle and a place on the rim; arm, corner, arm
    by: ScaleBy


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


def measured(pixels: Pixels, shown: Shown) -> Measured:
    """Distance, circle or angle; InputError where it cannot be measured."""
    kind, places = shown.kind, shown.places
    if kind not in PLACES or len(places) != PLACES[kind]:
        wanted = ", ".join(f"{name} {count}" for name, count in PLACES.items())
        raise InputError(f"{kind} with {len(places)} places cannot be measured", to_do=f"Show: {wanted}")
    in_picture(places, pixels.shape)
    lens = shown.by.lens
    if lens is not None:
        straight = _straight_places(lens, places, pixels.shape)
        by = replace(shown.by, lens=None, **_straight_ends(lens, shown.by, pixels.shape))
        found = measured(lens.straight(pixels), Shown(kind, straight, by))
        bent = lens.bent_places(np.array(found.points_px), pixels.shape)
        return replace(found, points_px=tuple((float(x), float(y)) for x, y in bent))
    scale = scale_of(pixels, shown.by)
    if kind == "distance":
        return distance(scale, places[0], places[1])
    if kind == "angle":
        return angle(scale, places[0], places[1], places[2])
    return circle(pixels, scale, places[0], float(np.hypot(*np.subtract(places[1], places[0]))))


def in_picture(places: Sequence[Point], size: tuple[int, ...]) -> None:
    """InputError for the first of *places*, in pixels, that is outside of a picture (rows, columns)."""
    height_px, width_px = size[:2]
    for x, y in places:
        if not (0 <= x <= width_px and 0 <= y <= height_px):
            raise InputError(
                f"{x:g},{y:g} is not in the picture of {width_px} × {height_px} pixels", to_do="Show it again"
            )


def _straight_places(lens: Lens, places: Sequence[Point], size: tuple[int, ...]) -> tuple[Point, ...]:
    straight = lens.straight_places(np.array(places), size)
    # A place at the rim may come to lie just outside.
    inside = np.clip(straight, 0, [size[1] - 1, size[0] - 1])
    return tuple((float(x), float(y)) for x, y in inside)


def _straight_ends(lens: Lens, by: ScaleBy, size: tuple[int, ...]) -> dict[str, Any]:
    if by.start_px is None or by.end_px is None:
        return {}
    start, end = _straight_places(lens, (by.start_px, by.end_px), size)
    return {"start_px": start, "end_px": end}


def measure_photo(log: JobLog, photo_id: str, shown: Shown, *, actor: str) -> Event:
    """`measured` in a picture of the job, kept with it as a candidate in the person's name."""
    log.refresh()
    added = picture_of(log, photo_id)
    pixels = read_photo(log.media.read(added.sha256), name=added.name).pixels
    found = measured(pixels, shown)
    source: Literal["card", "two points"] = "card" if shown.by.known_mm is None else "two points"

    def step() -> Event:
        taken = sum(isinstance(event.payload, PhotoMeasured) for event in log.events)
        kept = _kept(found, f"m{taken + 1}", source, pixels.shape[:2], actor)
        return log.append(PhotoMeasured(photo=added.photo, measurement=kept), actor=actor)

    return log.attempt(step)


def take_measurement(log: JobLog, entered: MeasurementEntered, *, actor: str) -> Event:
    """A measurement of a picture as a reading, in the person's name."""
    return log.attempt(lambda: log.append(entered, actor=actor))


def annotate(log: JobLog, photo_id: str, annotations: Sequence[Mapping[str, Any]], *, actor: str) -> Event:
    """Draw on a picture: all that is to be on it. InputError for what cannot be drawn."""
    log.refresh()
    for annotation in annotations:
        check_annotation(annotation)
    photo = picture_of(log, photo_id).photo
    return log.keep(
        PhotoAnnotated(photo=photo, annotations=tuple(dict(one) for one in annotations)), actor=actor
    )


def propose_damage(log: JobLog, photo_id: str, kind: str, box: Box | None) -> tuple[Proposal, ...]:
    """Where scoring or slot damage may be in a picture of the job. Nothing of it is kept."""
    added = picture_of(log, photo_id)
    pixels = read_photo(log.media.read(added.sha256), name=added.name).pixels
    if kind == "scoring":
        return scoring(pixels, box)
    if box is None:
        raise InputError("the box of the screw head is missing", to_do="Show two corners around the head")
    return slot_damage(pixels, box)


def picture_of(log: JobLog, photo_id: str) -> PhotoAdded:
    """How the picture came that is at this id, its own or its mark's; ImageError where none is."""
    sha256 = photo_of(log, photo_id).sha256
    return next(added for added, _ in log.folder.pictures() if added.sha256 == sha256)


def photo_of(log: JobLog, photo_id: str) -> Photo:
    """The item with a picture that is at this id; ImageError where none is."""
    item = log.folder.item(photo_id)
    if not isinstance(item, Photo) or item.sha256 is None:
        raise ImageError("there is no picture here", where=photo_id, to_do="Take the id of a picture")
    return item


def _kept(
    found: Measured, name: str, source: Literal["card", "two points"], size: tuple[int, ...], actor: str
) -> Measurement:
    """The value to two digits of its uncertainty (JCGM 100, 7.2.6)."""
    digits = max(0, 1 - math.floor(math.log10(found.u))) if found.u > 0 else 6
    return Measurement(
        id=name,
        kind=found.kind,
        value=f"{found.value:.{digits}f}",
        unit="deg" if found.kind == "angle" else "mm",
        u=f"{found.u:.{digits}f}",
        scale=source,
        points=tuple((round(x / size[1], 5), round(y / size[0], 5)) for x, y in found.points_px),
        by=actor,
    )


def measure_file(path: Path, shown: Shown) -> Measured:
    """`measured` in an image file."""
    return measured(read_photo(path).pixels, shown)


def debris_of_file(path: Path, by: ScaleBy) -> Findings:
    """Particles in an image file."""
    pixels = read_photo(path).pixels
    if by.lens is not None:
        pixels, by = (
            by.lens.straight(pixels),
            replace(by, lens=None, **_straight_ends(by.lens, by, pixels.shape)),
        )
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
