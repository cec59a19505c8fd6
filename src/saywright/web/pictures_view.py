"""What the picture pages show, as plain data: shapes over a picture, its faults, its place among others."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saywright.flags import Flag, FlagKind
from saywright.record.pictures import ODD
from saywright.record.types import Measurement, Photo, Record
from saywright.sheets.model import Sheet

WIDTH = 1000.0  # of the drawing; its height follows from the picture's sides
_UNKNOWN_PX = (1600, 1200)  # sides of a picture whose size was not kept

_NO_FAULT = ODD | {FlagKind.PHOTO_BY_ORDER}  # another shot would not mend it


@dataclass(frozen=True, slots=True)
class Shape:
    """An SVG element."""

    tag: str  # "ellipse", "path", "rect" or "text"
    attributes: dict[str, str]
    text: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture on a page."""

    id: str  # of the item
    picture: str  # of the picture, in addresses
    name: str
    about: str  # the part, "" without one
    stage: str
    faults: tuple[str, ...]  # to be shot again
    oddities: tuple[str, ...]  # of the file and its clock
    sharper: str | None  # id of the picture of the same burst that is proposed in its place
    beside: str | None  # id of the mark of which it is a further picture


def size_px(photo: Photo) -> tuple[int, int]:
    """Width and height of the picture."""
    checks = photo.checks
    if checks is None or checks.width_px is None or checks.height_px is None:
        return _UNKNOWN_PX
    return checks.width_px, checks.height_px


def height_of(photo: Photo) -> float:
    """Of the drawing, whose width is WIDTH."""
    width_px, height_px = size_px(photo)
    return round(WIDTH * height_px / width_px, 1)


def shapes(annotation: Mapping[str, Any], height: float) -> tuple[Shape, ...]:
    """What draws *annotation* on a drawing WIDTH wide and *height* high."""
    x, y = annotation["x"] * WIDTH, annotation["y"] * height
    at = (x, y)
    found: list[Shape] = []
    kind = annotation["kind"]
    if kind == "ring":
        radius = annotation["radius"] * min(WIDTH, height)
        found.append(Shape("ellipse", _numbers(cx=x, cy=y, rx=radius, ry=radius)))
        at = (x - radius, y + radius + 22)
    elif kind == "arrow":
        tail = (annotation["from_x"] * WIDTH, annotation["from_y"] * height)
        found.append(Shape("path", {"d": f"M{_pair(tail)} L{_pair((x, y))} {_head(tail, (x, y))}"}))
        at = tail
    elif kind in {"box", "line"}:
        other = (annotation["to_x"] * WIDTH, annotation["to_y"] * height)
        left, right = sorted((x, other[0]))
        top, bottom = sorted((y, other[1]))
        if kind == "box":
            found.append(Shape("rect", _numbers(x=left, y=top, width=right - left, height=bottom - top)))
        else:
            found.append(Shape("path", {"d": f"M{_pair((x, y))} L{_pair(other)} {_ticks((x, y), other)}"}))
        at = (left, bottom + 22)
    if text := str(annotation.get("text") or "").strip():
        found.append(Shape("text", _numbers(x=at[0], y=at[1]), text))
    return tuple(found)


def box_annotation(box: tuple[float, float, float, float], text: str) -> dict[str, Any]:
    """The annotation that a region becomes when a person keeps it."""
    left, top, width, height = box
    far = (round(min(1.0, left + width), 5), round(min(1.0, top + height), 5))
    return {"kind": "box", "x": left, "y": top, "to_x": far[0], "to_y": far[1], "text": text}


def measured_shapes(measurement: Measurement, height: float) -> tuple[Shape, ...]:
    """The places of a measurement, joined: the line, the arms, the points of the rim."""
    points = [(x * WIDTH, y * height) for x, y in measurement.points]
    if not points:
        return ()
    if measurement.kind == "circle":
        dots = " ".join(f"M{_pair(point)} h0.1" for point in points)
        return (Shape("path", {"d": dots, "class": "dots"}),)
    return (Shape("path", {"d": "M" + " L".join(_pair(point) for point in points)}),)


def told(measurement: Measurement) -> str:
    """Value with expanded uncertainty."""
    unit = "°" if measurement.unit == "deg" else f" {measurement.unit}"
    name = "diameter" if measurement.kind == "circle" else measurement.kind
    return f"{name} {measurement.value}{unit}, u = {measurement.u}{unit}"


def shown(
    record: Record, sheet: Sheet, pictures: Mapping[str, str], bursts: Mapping[str, str]
) -> tuple[Shown, ...]:
    """Every picture that holds, in the order of the record; *pictures*: content name → id."""
    return tuple(
        Shown(
            id=photo.id,
            picture=pictures[photo.sha256],
            name=photo.name or photo.id,
            about=sheet.label(photo.component, photo.which) if photo.component else "",
            stage=photo.stage.replace("_", " "),
            faults=faults_of(photo),
            oddities=oddities_of(photo),
            sharper=bursts.get(photo.id),
            beside=photo.beside,
        )
        for photo in record.photos
        if photo.sha256 is not None and photo.superseded_by is None and photo.sha256 in pictures
    )


def faults_of(photo: Photo) -> tuple[str, ...]:
    """What is wrong with the picture, to be shot again."""
    return tuple(one.text for one in _notes(photo) if one.kind not in _NO_FAULT)


def oddities_of(photo: Photo) -> tuple[str, ...]:
    """What of the file is not shown as it is, and where its clock was of no use."""
    return tuple(one.text for one in _notes(photo) if one.kind in _NO_FAULT)


def _notes(photo: Photo) -> list[Flag]:
    return [one for one in photo.flags if one.level == "note" and one.kind.startswith("photo_")]


def looked_at(photo: Photo, height: float) -> Shape | None:
    """The box in which the picture was checked; None where that was not kept."""
    if photo.checks is None or photo.checks.region is None:
        return None
    left, top, wide, high = photo.checks.region
    box = _numbers(x=left * WIDTH, y=top * height, width=wide * WIDTH, height=high * height)
    return Shape("rect", box)


def befores_and_afters(every: Sequence[Shown], photos: Mapping[str, Photo]) -> list[tuple[Shown, Shown]]:
    """Each picture as left with each as found of the same part."""
    return [
        (before, after)
        for before in every
        for after in every
        if before.about
        and before.about == after.about
        and (photos[before.id].stage, photos[after.id].stage) == ("as_found", "as_left")
    ]


def _numbers(**values: float) -> dict[str, str]:
    return {name: f"{value:.1f}" for name, value in values.items()}


def _pair(point: tuple[float, float]) -> str:
    return f"{point[0]:.1f} {point[1]:.1f}"


def _head(tail: tuple[float, float], tip: tuple[float, float]) -> str:
    """The two strokes of an arrow's head."""
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    wings = [(tip[0] - 24 * math.cos(angle + s), tip[1] - 24 * math.sin(angle + s)) for s in (-0.45, 0.45)]
    return f"M{_pair(wings[0])} L{_pair(tip)} L{_pair(wings[1])}"


def _ticks(start: tuple[float, float], end: tuple[float, float]) -> str:
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    across = (-12 * math.sin(angle), 12 * math.cos(angle))
    parts = []
    for x, y in (start, end):
        parts.append(f"M{_pair((x - across[0], y - across[1]))} L{_pair((x + across[0], y + across[1]))}")
    return " ".join(parts)
