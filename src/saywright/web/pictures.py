"""The picture pages of the desk: all with their faults, one to draw on and measure in, two compared."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from saywright.bench import Bench
from saywright.errors import InputError, NotFoundError
from saywright.record.types import Photo, Record
from saywright.web import pictures_forms as forms
from saywright.web.changes import posted
from saywright.web.pictures_debris import debris_of
from saywright.web.pictures_view import (
    befores_and_afters,
    box_annotation,
    faults_of,
    height_of,
    looked_at,
    measured_shapes,
    oddities_of,
    shapes,
    shown,
    size_px,
    told,
)
from saywright.web.render import page
from saywright.web.session import person_of
from saywright.web.state import Known, desk_of, known_of
from saywright.wiring.comparing import Comparison

NOTICES = {
    "drawn": "Drawn on the picture.",
    "checked": "Checked again on the part shown.",
    "rubbed": "Taken off the picture. What was there before is kept.",
    "measured": "Measured. It is a candidate until you enter it as a reading.",
    "entered": "Entered as a reading in your name.",
    "placed": "The picture has its place.",
}
LOOKS = ("scoring", "slot")
VIEWS = ("pair", "blend", "difference")
_KEPT = 4  # comparisons held, so that the three views of one are computed once


@dataclass
class Compared:
    """Comparisons made lately, by the content names of both pictures."""

    _held: OrderedDict[tuple[str, str], Comparison] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def of(self, bench: Bench, before: Photo, after: Photo) -> Comparison:
        """The comparison; InputError where the two do not fit."""
        key = (before.sha256 or "", after.sha256 or "")
        with self._lock:
            if key not in self._held:
                self._held[key] = bench.compare_photos(before.id, after.id)
                if len(self._held) > _KEPT:
                    self._held.popitem(last=False)
            return self._held[key]


_COMPARED = Compared()


def all_pictures(request: Request) -> Response:
    """Every picture of the job: where it is, what is wrong with it, what it may be compared with."""
    known = known_of(request)
    record = known.view.record
    every = shown(record, known.sheet, known.pictures, known.bench.bursts())
    photos = {photo.id: photo for photo in record.photos}
    return _page(request, "pictures.html", known, every=every, pairs=befores_and_afters(every, photos))


def one_picture(request: Request) -> Response:
    """One picture, with what is drawn on it and measured in it, and the forms for both."""
    known = known_of(request)
    photo = _photo(known.view.record, known, request.path_params["photo"])
    height = height_of(photo)
    width_px, height_px = size_px(photo)
    entered = {reading.id for reading in known.view.record.readings}
    return _page(
        request,
        "pictures_one.html",
        known,
        photo=photo,
        picture=known.pictures[photo.sha256 or ""],
        about=known.sheet.label(photo.component, photo.which) if photo.component else "No part yet",
        height=height,
        width_px=width_px,
        height_px=height_px,
        faults=faults_of(photo),
        oddities=oddities_of(photo),
        looked_at=looked_at(photo, height),
        drawn=[(one, shapes(one, height)) for one in photo.annotations],
        measured=[(m, told(m), measured_shapes(m, height), m.id in entered) for m in photo.measurements],
        characteristics=_characteristics(known, photo),
        **_proposed(request, known, photo),
        **debris_of(known.bench, photo, request.query_params),
        marks=[p for p in known.view.record.photos if p.heard and p.superseded_by is None],
    )


def _proposed(request: Request, known: Known, photo: Photo) -> dict[str, Any]:
    """Where damage may be, when asked for: each to be kept as a box or let go."""
    kind = request.query_params.get("look", "")
    nothing: dict[str, Any] = {"looked": kind, "proposals": [], "fault": ""}
    if kind not in LOOKS:
        return {**nothing, "looked": ""}
    try:
        box = forms.box_of(request.query_params.get("corners", ""))
        found = known.bench.propose_damage(photo.id, kind, box)
    except InputError as error:
        return {**nothing, "fault": str(error)}
    height = height_of(photo)
    rows = [
        (one, box_annotation(one.box, one.kind), shapes(box_annotation(one.box, one.kind), height))
        for one in found
    ]
    return {**nothing, "proposals": rows}


def compare_page(request: Request) -> Response:
    """Two pictures of one part as a pair, a blend and a difference; what does not fit says why."""
    known = known_of(request)
    before, after = _two(request, known)
    try:
        quality, fault = _COMPARED.of(known.bench, before, after).told, ""
    except InputError as error:
        quality, fault = "", str(error)
    ids = [known.pictures[photo.sha256 or ""] for photo in (before, after)]
    return _page(
        request,
        "pictures_compare.html",
        known,
        before=before,
        after=after,
        ids=ids,
        quality=quality,
        fault=fault,
        views=VIEWS,
    )


def compared_jpeg(request: Request) -> Response:
    """One of the three views."""
    view = request.path_params["view"]
    if view not in VIEWS:
        raise NotFoundError(f"there is no view '{view}'", to_do=f"Known: {', '.join(VIEWS)}")
    known = known_of(request)
    found = _COMPARED.of(known.bench, *_two(request, known))
    jpegs = {"pair": found.pair_jpeg, "blend": found.blend_jpeg, "difference": found.difference_jpeg}
    return Response(jpegs[view], media_type="image/jpeg", headers={"cache-control": "private, max-age=3600"})


def _photo(record: Record, known: Known, picture: str) -> Photo:
    """The item that shows the picture with this id."""
    for photo in record.photos:
        if photo.sha256 is not None and picture in (known.pictures.get(photo.sha256), photo.id):
            return photo
    raise NotFoundError(f"no picture '{picture}'", to_do="Take one from the pictures of the job")


def _two(request: Request, known: Known) -> tuple[Photo, Photo]:
    record = known.view.record
    return (
        _photo(record, known, request.path_params["before"]),
        _photo(record, known, request.path_params["after"]),
    )


def _characteristics(known: Known, photo: Photo) -> list[tuple[str, str]]:
    """What a measurement may be of, those of the picture's own part first."""
    every = [
        (f"{component.id}.{one.id}", f"{component.label}: {one.label} ({one.unit})", component.id)
        for component in known.sheet.component
        for one in component.characteristic
        if not one.is_count
    ]
    return [(key, text) for key, text, owner in sorted(every, key=lambda row: row[2] != photo.component)]


def _page(request: Request, template: str, known: Known, **values: Any) -> Response:
    sessions = desk_of(request).sessions
    done = NOTICES.get(request.query_params.get("done", ""), "")
    response = page(
        template,
        token=sessions.token(request),
        actor=sessions.actor(request),
        person=person_of(request),
        notices=Markup('<p class="notice" role="status">{}</p>').format(done) if done else "",
        here="pictures",
        **known.common,
        **values,
    )
    return sessions.keep(request, response)


_PICTURES = "/jobs/{job}/pictures"
_ONE = _PICTURES + "/{photo}"
_BOTH = _PICTURES + "/{before}/with/{after}"

ROUTES = [
    Route(_PICTURES, all_pictures, methods=["GET"]),
    Route(_BOTH + "/{view}.jpg", compared_jpeg, methods=["GET"]),
    Route(_BOTH, compare_page, methods=["GET"]),
    Route(_ONE, one_picture, methods=["GET"]),
    Route(_ONE + "/draw", posted(forms.draw), methods=["POST"]),
    Route(_ONE + "/part", posted(forms.part), methods=["POST"]),
    Route(_ONE + "/measure", posted(forms.measure), methods=["POST"]),
    Route(_ONE + "/enter", posted(forms.enter), methods=["POST"]),
    Route(_ONE + "/beside", posted(forms.beside), methods=["POST"]),
]
