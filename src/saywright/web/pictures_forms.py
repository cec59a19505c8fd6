"""The forms of a picture's page: the part, drawn, measured, entered, put beside a mark."""

from __future__ import annotations

import math
from http import HTTPStatus
from typing import Any
from urllib.parse import parse_qsl, quote, urlencode

from starlette.datastructures import UploadFile
from starlette.responses import RedirectResponse, Response

from saywright.bench import Bench
from saywright.errors import InputError
from saywright.record.types import Photo
from saywright.web.changes import MAX_NAME, Sent
from saywright.web.pictures_view import size_px
from saywright.wiring.lenses import lens_in
from saywright.wiring.measuring import ScaleBy
from saywright.wiring.measuring import Shown as Places

_MOST_LENS_BYTES = 100_000

Place = tuple[float, float]  # shares of the picture's sides


def draw(bench: Bench, sent: Sent) -> Response:
    """One more thing drawn, or one taken off."""
    photo = _of(bench, sent)
    if gone := sent.text("gone"):
        number = int(gone) if gone.isascii() and gone.isdigit() else -1
        if not 0 <= number < len(photo.annotations):
            raise InputError("this is not on the picture any more", to_do="Load the page again")
        left = [one for place, one in enumerate(photo.annotations) if place != number]
        bench.annotate_photo(photo.id, left, actor=sent.actor)
        return _back(sent, "rubbed")
    bench.annotate_photo(photo.id, [*photo.annotations, _annotation(sent)], actor=sent.actor)
    return _back(sent, "drawn")


def _annotation(sent: Sent) -> dict[str, Any]:
    kind, words = sent.text("kind", needed="Kind"), sent.text("text", limit=160)
    start, end = (_share(sent, "x"), _share(sent, "y")), (_share(sent, "to_x"), _share(sent, "to_y"))
    made: dict[str, Any] = {"kind": kind, "x": start[0], "y": start[1]}
    if kind == "ring":
        made["radius"] = round(min(1.0, _of_shorter_side(start, end, _share(sent, "aspect", most=20.0))), 5)
    elif kind == "arrow":
        made |= {"x": end[0], "y": end[1], "from_x": start[0], "from_y": start[1]}
    elif kind in {"box", "line"}:
        made |= {"to_x": end[0], "to_y": end[1]}
    return made | ({"text": words} if words else {})


def _of_shorter_side(start: Place, end: Place, aspect: float) -> float:
    """The distance of two places as a share of the picture's shorter side; *aspect* is width over height."""
    return math.hypot((end[0] - start[0]) * max(1.0, aspect), (end[1] - start[1]) / min(1.0, aspect or 1.0))


def _share(sent: Sent, name: str, *, most: float = 1.0) -> float:
    text = sent.text(name, needed="Place")
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = -1.0
    if not 0 <= value <= most:
        to_do = "Show it with the pointer, or give 0 to 1"
        raise InputError(f"'{text[:20]}' is no place in the picture", to_do=to_do)
    return value


def part(bench: Bench, sent: Sent) -> Response:
    """Where the part is, shown as two corners; the picture is checked again there."""
    photo = _of(bench, sent)
    width_px, height_px = size_px(photo)
    corners = [(x * width_px, y * height_px) for x, y in places_in(sent.text("corners", limit=200))]
    bench.check_photo(photo.id, corners, actor=sent.actor)
    return _back(sent, "checked")


def measure(bench: Bench, sent: Sent) -> Response:
    """Distance, circle or angle from places shown, with the card or a known distance."""
    photo = _of(bench, sent)
    width_px, height_px = size_px(photo)
    kind = sent.text("kind", needed="Kind")
    places = tuple((x * width_px, y * height_px) for x, y in _places(sent, "places"))
    known = _number(sent, "known")
    ends = [(x * width_px, y * height_px) for x, y in _places(sent, "ends")] if known is not None else []
    if known is not None and len(ends) != 2:
        raise InputError("a known distance needs its two ends", where="Scale", to_do="Show both ends")
    profile = _lens_sent(sent)
    by = ScaleBy(
        across_mm=None if known is not None else _number(sent, "across"),
        down_mm=None if known is not None else _number(sent, "down"),
        start_px=ends[0] if ends else None,
        end_px=ends[1] if ends else None,
        known_mm=known,
        lens=None if profile is None else lens_in(profile[0], where=profile[1]),
    )
    bench.measure_photo(photo.id, Places(kind, places, by), actor=sent.actor)
    return _back(sent, "measured")


def _lens_sent(sent: Sent) -> tuple[bytes, str] | None:
    """Content and name of the lens profile sent along; None where none was."""
    upload = sent.form.get("lens")
    if not isinstance(upload, UploadFile) or not upload.filename:
        return None
    return upload.file.read(_MOST_LENS_BYTES), upload.filename[:MAX_NAME]


def box_of(corners: str) -> tuple[float, float, float, float] | None:
    """The box between two corners, "0.2,0.3 0.6,0.7"; None where nothing was given."""
    if not corners.strip():
        return None
    places = places_in(corners[:200])
    if len(places) != 2:
        raise InputError("a box needs two corners", where="Corners", to_do="Show two, across from each other")
    (left, right), (top, bottom) = (sorted(side) for side in zip(*places, strict=True))
    return (left, top, right - left, bottom - top)


def _places(sent: Sent, name: str) -> list[Place]:
    return places_in(sent.text(name, needed="Places"))


def places_in(text: str) -> list[Place]:
    """Shares of the sides, "0.4,0.5 0.6,0.5"."""
    found = []
    for part in text.split():
        try:
            x, y = (float(side) for side in part.split(","))
        except ValueError:
            raise InputError(f"'{part[:20]}' is no place", to_do="Give each as X,Y from 0 to 1") from None
        if not (0 <= x <= 1 and 0 <= y <= 1):
            raise InputError(f"'{part[:20]}' is outside of the picture", to_do="Give X,Y from 0 to 1")
        found.append((min(x, 0.9999), min(y, 0.9999)))
    return found


def _number(sent: Sent, name: str) -> float | None:
    text = sent.text(name).replace(",", ".")
    try:
        return float(text) if text else None
    except ValueError:
        raise InputError(f"'{text[:20]}' is no number of millimetres", where=name) from None


def enter(bench: Bench, sent: Sent) -> Response:
    """A measurement as a reading; the choice reads "component.characteristic"."""
    component, _, characteristic = sent.text("what", needed="What it is of").partition(".")
    stage = sent.text("stage")
    bench.take_measurement(
        sent.request.path_params["photo"],
        sent.text("measurement", needed="Measurement"),
        component,
        characteristic,
        which=sent.text("which") or None,
        stage="as_left" if stage == "as_left" else "as_found" if stage == "as_found" else None,
        actor=sent.actor,
    )
    return _back(sent, "entered")


def beside(bench: Bench, sent: Sent) -> Response:
    """A further picture of a mark, before or after."""
    stage = sent.text("stage")
    bench.place_photo(
        sent.request.path_params["photo"],
        mark=sent.text("mark", needed="Mark"),
        beside=True,
        stage="as_left" if stage == "as_left" else "as_found" if stage == "as_found" else None,
        actor=sent.actor,
    )
    return _back(sent, "placed")


def _of(bench: Bench, sent: Sent) -> Photo:
    return bench.photo(sent.request.path_params["photo"])


def _back(sent: Sent, done: str) -> Response:
    """To the picture's page, with what was looked for there still shown."""
    job, photo = (quote(sent.request.path_params[name], safe="") for name in ("job", "photo"))
    again = [pair for pair in parse_qsl(sent.text("again", limit=1500)) if pair[0] != "done"]
    asked = urlencode([("done", done), *again])
    return RedirectResponse(f"/jobs/{job}/pictures/{photo}?{asked}", status_code=HTTPStatus.SEE_OTHER)
