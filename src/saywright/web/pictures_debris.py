"""Particles on a picture's page: looked for when a person asks, kept one by one or as counts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from saywright.bench import Bench
from saywright.errors import ImageError, InputError
from saywright.record.types import Photo
from saywright.web import pictures_forms as forms
from saywright.web.pictures_view import WIDTH, Shape, box_annotation, height_of, size_px
from saywright.wiring.debris import RESOLVED_PX, Found, Speck
from saywright.wiring.measuring import ScaleBy

FIELDS = ("debris", "across", "down", "known", "ends", "within")
FORMS = {"compact": "compact", "fibre": "fibre", "fibre_wide": "fibre, width not resolved"}
MOST_ROWS = 40  # largest ones, each with a line of the table; all are counted and drawn
MOST_DRAWN = 400


def debris_of(bench: Bench, photo: Photo, asked: Mapping[str, str]) -> dict[str, Any]:
    """What the page shows of particles: nothing unless they were asked for."""
    given = {name: asked.get(name, "").strip()[:200] for name in FIELDS}
    shown: dict[str, Any] = {"debris": None, "debris_fault": "", "debris_given": given}
    if not given["debris"]:
        return shown
    try:
        found = bench.find_debris(photo.id, _scale(photo, given), forms.box_of(given["within"]))
    except (InputError, ImageError) as error:
        return shown | {"debris_fault": str(error)}
    height = height_of(photo)
    return shown | {
        "debris": found,
        "debris_again": urlencode({name: value for name, value in given.items() if value}),
        "debris_counts": _counts(found),
        "debris_rows": [(one, _row(one), box_annotation(one.box, _words(one))) for one in _first(found)],
        "debris_shapes": [shape for one in found.specks[:MOST_DRAWN] for shape in _shapes(one, height)],
        "debris_told": told(found),
    }


def told(found: Found) -> str:
    """The counts in one line, as a person may write them on the picture."""
    counted = [f"{letter} {compact + fibres}" for letter, compact, fibres in found.counts if compact + fibres]
    fibres = sum(one.form != "compact" for one in found.specks)
    rest = f"; {fibres} fibres" if fibres else ""
    unseen = f"; {found.not_resolved} below {found.resolved_from_um:.0f} µm not resolved"
    return f"ISO 16232: {', '.join(counted) or 'none'}{rest}{unseen}"


def _scale(photo: Photo, given: Mapping[str, str]) -> ScaleBy:
    known = _number(given["known"], "Known distance")
    if known is None:
        return ScaleBy(across_mm=_number(given["across"], "Across"), down_mm=_number(given["down"], "Down"))
    ends = forms.places_in(given["ends"])
    if len(ends) != 2:
        raise InputError("a known distance needs its two ends", where="Scale", to_do="Show both ends")
    width_px, height_px = size_px(photo)
    start, end = ((x * width_px, y * height_px) for x, y in ends)
    return ScaleBy(start_px=start, end_px=end, known_mm=known)


def _number(text: str, where: str) -> float | None:
    try:
        return float(text.replace(",", ".")) if text else None
    except ValueError:
        raise InputError(f"'{text[:20]}' is no number of millimetres", where=where) from None


def _first(found: Found) -> tuple[Speck, ...]:
    return found.specks[:MOST_ROWS]


def _words(one: Speck) -> str:
    return f"{one.size} {FORMS[one.form]} {one.feret_max_um:.0f} µm"


def _row(one: Speck) -> tuple[str, ...]:
    area_mm2 = one.area_um2 / 1e6
    sizes = (f"{one.feret_max_um:.0f}", f"{one.feret_min_um:.0f}", f"{area_mm2:.3g}")
    return (str(one.number), one.size, FORMS[one.form], *sizes)


def _counts(found: Found) -> list[tuple[str, str, str]]:
    rows = [(letter, str(compact), str(fibres)) for letter, compact, fibres in found.counts]
    return [*rows, (f"not resolved, below {RESOLVED_PX:.0f} pixels", str(found.not_resolved), "")]


def _shapes(one: Speck, height: float) -> tuple[Shape, Shape]:
    """The outline, and beside it number and class."""
    line = " L".join(f"{x * WIDTH:.1f} {y * height:.1f}" for x, y in one.outline)
    left, top, wide, _ = one.box
    at = {"x": f"{(left + wide) * WIDTH + 4:.1f}", "y": f"{top * height:.1f}"}
    return Shape("path", {"d": f"M{line} Z"}), Shape("text", at, f"{one.number}{one.size}")
