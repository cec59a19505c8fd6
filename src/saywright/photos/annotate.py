"""Rings, arrows, boxes, lines and captions on a copy of a picture, from annotation data.

An annotation is plain data, as the record keeps it; places are shares of the picture's width and
height, so that they hold at any size:

    {"kind": "ring",  "x": 0.48, "y": 0.52, "radius": 0.1, "text": "worn ring"}
    {"kind": "arrow", "x": 0.48, "y": 0.52, "from_x": 0.2, "from_y": 0.2, "text": "split"}
    {"kind": "box",   "x": 0.2, "y": 0.3, "to_x": 0.6, "to_y": 0.5, "text": "scoring"}
    {"kind": "line",  "x": 0.2, "y": 0.3, "to_x": 0.6, "to_y": 0.5, "text": "12.4 mm"}
    {"kind": "text",  "x": 0.05, "y": 0.9,  "text": "main jet, slot end"}

`radius` is a share of the shorter side; an arrow points at (x, y); a line has a tick at both ends, as a
dimension has. Each is a light stroke on a dark one, so that it reads in grey and on any ground.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from saywright.errors import InputError

Pixels = npt.NDArray[np.uint8]
Point = tuple[float, float]

_MARK = (255, 214, 10)  # reads on brass, steel and rubber
_EDGE = (20, 20, 20)  # drawn under the mark, so that it reads on white too
_NEEDS = {
    "ring": ("x", "y", "radius"),
    "arrow": ("x", "y", "from_x", "from_y"),
    "box": ("x", "y", "to_x", "to_y"),
    "line": ("x", "y", "to_x", "to_y"),
    "text": ("x", "y", "text"),
}


def annotated(pixels: Pixels, annotations: Sequence[Mapping[str, Any]]) -> Pixels:
    """A copy of *pixels* (height, width, 3) uint8 with *annotations* drawn on it.

    Raises InputError for an annotation of another kind, without its places, or outside 0…1.
    """
    for annotation in annotations:
        check_annotation(annotation)
    image = Image.fromarray(np.array(pixels, dtype=np.uint8))
    draw = ImageDraw.Draw(image)
    for annotation in annotations:
        _draw(draw, image.size, annotation)
    return np.array(image, dtype=np.uint8)


def check_annotation(annotation: Mapping[str, Any]) -> None:
    """Raises InputError where *annotation* cannot be drawn."""
    kind = annotation.get("kind")
    needs = _NEEDS.get(kind) if isinstance(kind, str) else None
    if needs is None:
        raise InputError(f"no such annotation: {kind!r}", to_do=f"Use one of {', '.join(_NEEDS)}")
    for key in needs:
        value = annotation.get(key)
        if key == "text":
            fits = isinstance(value, str) and bool(value.strip())
        else:
            fits = isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= 1
        if not fits:
            wanted = "words" if key == "text" else "a share from 0 to 1"
            raise InputError(f"the {kind} needs '{key}' as {wanted}, not {value!r}")


def _draw(draw: ImageDraw.ImageDraw, size: tuple[int, int], annotation: Mapping[str, Any]) -> None:
    width_px, height_px = size
    shorter_px = min(size)
    line_px = max(2, round(shorter_px / 140))  # 0.4 mm where the report prints it 60 mm high
    x_px, y_px = annotation["x"] * width_px, annotation["y"] * height_px
    text_at = (x_px, y_px)
    if annotation["kind"] == "ring":
        radius_px = annotation["radius"] * shorter_px
        for colour, extra_px in ((_EDGE, line_px), (_MARK, 0)):
            box = (
                x_px - radius_px - extra_px / 2,
                y_px - radius_px - extra_px / 2,
                x_px + radius_px + extra_px / 2,
                y_px + radius_px + extra_px / 2,
            )
            draw.ellipse(box, outline=colour, width=line_px + extra_px)
        text_at = (x_px - radius_px, y_px + radius_px + 2 * line_px)
    elif annotation["kind"] == "arrow":
        tail = (annotation["from_x"] * width_px, annotation["from_y"] * height_px)
        _arrow(draw, tail, (x_px, y_px), line_px)
        text_at = tail
    elif annotation["kind"] in {"box", "line"}:
        other = (annotation["to_x"] * width_px, annotation["to_y"] * height_px)
        (_box if annotation["kind"] == "box" else _measure_line)(draw, (x_px, y_px), other, line_px)
        text_at = (min(x_px, other[0]), max(y_px, other[1]) + 2 * line_px)
    text = str(annotation.get("text") or "").strip()
    if text:
        _caption(draw, size, text_at, text)


def _box(draw: ImageDraw.ImageDraw, corner: Point, other: Point, line_px: int) -> None:
    left, right = sorted((corner[0], other[0]))
    top, bottom = sorted((corner[1], other[1]))
    for colour, extra_px in ((_EDGE, line_px), (_MARK, 0)):
        wider = extra_px / 2
        frame = (left - wider, top - wider, right + wider, bottom + wider)
        draw.rectangle(frame, outline=colour, width=line_px + extra_px)


def _measure_line(draw: ImageDraw.ImageDraw, start: Point, end: Point, line_px: int) -> None:
    """A line with a tick across each end."""
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    tick = (-math.sin(angle) * 4.0 * line_px, math.cos(angle) * 4.0 * line_px)
    for colour, extra_px in ((_EDGE, line_px), (_MARK, 0)):
        draw.line((*start, *end), fill=colour, width=line_px + extra_px)
        for place in (start, end):
            across = (place[0] - tick[0], place[1] - tick[1], place[0] + tick[0], place[1] + tick[1])
            draw.line(across, fill=colour, width=line_px + extra_px)


def _arrow(draw: ImageDraw.ImageDraw, tail: Point, tip: Point, line_px: int) -> None:
    """A line from *tail* to *tip* with a filled head."""
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    head_px = 7.0 * line_px
    for colour, extra_px in ((_EDGE, line_px), (_MARK, 0)):
        reach = head_px + extra_px
        neck = (tip[0] - 0.8 * head_px * math.cos(angle), tip[1] - 0.8 * head_px * math.sin(angle))
        draw.line((*tail, *neck), fill=colour, width=line_px + extra_px)
        wings = [
            (tip[0] - reach * math.cos(angle + side), tip[1] - reach * math.sin(angle + side))
            for side in (-0.45, 0.45)
        ]
        draw.polygon([tip, *wings], fill=colour)


def _caption(draw: ImageDraw.ImageDraw, size: tuple[int, int], at: Point, text: str) -> None:
    """*text* on a dark plate, moved so that it lies within the picture."""
    font = ImageFont.load_default(size=max(12, round(min(size) / 20)))  # 3 mm there
    left, top, right, bottom = draw.textbbox((0, 0), text, font=font)
    pad_px = max(3, round(min(size) / 160))
    wide_px, high_px = right - left + 2 * pad_px, bottom - top + 2 * pad_px
    x_px = max(0.0, min(at[0], size[0] - 1 - wide_px))
    y_px = max(0.0, min(at[1], size[1] - 1 - high_px))
    draw.rectangle((x_px, y_px, x_px + wide_px, y_px + high_px), fill=_EDGE)
    draw.text((x_px + pad_px - left, y_px + pad_px - top), text, font=font, fill=_MARK)
