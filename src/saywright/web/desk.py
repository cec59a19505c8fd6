"""The pages: the list of jobs, one job, what asks, the check, the signature, one item, a form to enter."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from saywright.web import describe
from saywright.web.entry import KINDS, PIECES, entry_fields
from saywright.web.forms import fields_for
from saywright.web.questions import alike, queue
from saywright.web.render import page
from saywright.web.search import Wanted, found
from saywright.web.session import person_of
from saywright.web.since import told
from saywright.web.state import desk_of, known_of
from saywright.web.timeline import SHOWN, timeline
from saywright.web.trace import trace
from saywright.web.view import OPEN_KINDS, find_item, line_of, rows_of

# Shown after a change, by the word in the address; nothing else from the address is shown.
NOTICES = {
    "accepted": "Accepted.",
    "corrected": "Corrected. What was there before is kept.",
    "withdrawn": "Withdrawn. What was there before is kept.",
    "said": "Taken down. See below how it was understood.",
    "entered": "Entered in your name.",
    "split": "Split. What was there before is kept.",
    "merged": "Merged. Both are kept; one of them counts.",
    "undone": "Undone. The change and its undoing are kept.",
    "timed": "The bench time is corrected. What was computed is kept.",
    "placed": "The picture has its place.",
    "added": "The pictures were taken in.",
    "matched": "The pictures were matched again.",
    "explained": "Noted why it may stay open.",
    "signed": "Signed.",
    "named": "Changes are kept under this name from now on.",
}
MAX_SEARCH = 80  # characters


def _page(request: Request, template: str, **values: Any) -> Response:
    """A page of the desk: with the session, its token and the notice of what was just done."""
    sessions = desk_of(request).sessions
    event = request.query_params.get("event", "")
    response = page(
        template,
        token=sessions.token(request),
        actor=sessions.actor(request),
        person=person_of(request),
        notice=NOTICES.get(request.query_params.get("done", ""), ""),
        undo=event if event.isascii() and event.isdigit() and len(event) < 12 else "",
        **values,
    )
    return sessions.keep(request, response)


def _asked(request: Request, name: str) -> str:
    return request.query_params.get(name, "")[:MAX_SEARCH].strip()


def _number(request: Request, name: str) -> int:
    text = request.query_params.get(name, "")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 1


def job_list(request: Request) -> Response:
    """The jobs that fit what is looked for, latest first."""
    wanted = Wanted(**{name: _asked(request, name) for name in ("serial", "customer", "date", "part")})
    return _page(request, "jobs.html", jobs=found(desk_of(request), wanted), wanted=wanted)


def job_page(request: Request) -> Response:
    """One job: what asks first, then the record as a timeline by component."""
    known = known_of(request)
    lines = timeline(
        known.view.record,
        known.sheet,
        known.utterances,
        known.pictures,
        part=_asked(request, "part"),
        show=_asked(request, "show") or "all",
        page=_number(request, "page"),
    )
    return _page(request, "job.html", **known.common, lines=lines, shown=SHOWN)


def asks_page(request: Request) -> Response:
    """What asks, one after another."""
    known = known_of(request)
    asks = queue(
        known.view.record,
        known.sheet,
        known.utterances,
        known.pictures,
        at=_asked(request, "at"),
        after=_asked(request, "after"),
    )
    return _page(request, "asks.html", **known.common, asks=asks)


def check_page(request: Request) -> Response:
    """The record beside what its sheet asks for."""
    known = known_of(request)
    with desk_of(request).job(request).lock:
        check = known.bench.check()
    rows = tuple(
        (known.sheet.label(component.id), rows_of(readings, known.sheet, known.utterances))
        for component in known.sheet.component
        if (
            readings := [
                r
                for r in known.view.record.readings
                if r.component == component.id and r.superseded_by is None
            ]
        )
    )
    return _page(
        request,
        "check.html",
        **known.common,
        check=check,
        rows=rows,
        kinds=OPEN_KINDS,
        stages=describe.STAGES,
    )


def sign_page(request: Request) -> Response:
    """The report as it will be printed, what changed since it was signed, and the signature."""
    known = known_of(request)
    revisions = known.bench.revisions()
    since = told(revisions.since, known.view.record, known.sheet)
    return _page(request, "sign.html", **known.common, revisions=revisions, since=since)


def item_page(request: Request) -> Response:
    """One item: where it comes from, and the forms that change it."""
    known = known_of(request)
    record, events = known.view.record, known.events
    item = find_item(record, request.path_params["item"])
    others = {other.id: other for other in describe.items_of(record)}
    return _page(
        request,
        "item.html",
        **known.common,
        line=line_of(item, known.sheet, known.utterances, known.pictures),
        fields=fields_for(item, known.sheet),
        steps=trace(events, item, known.sheet),
        reversible=frozenset(known.bench.reversible()),
        same=tuple(line_of(other, known.sheet, {}) for other in alike(item, others)),
        pieces=PIECES,
    )


def add_page(request: Request) -> Response:
    """The form that enters what was not said."""
    known = known_of(request)
    kind = _asked(request, "kind") or "reading"
    fields = entry_fields(kind, known.sheet)
    return _page(request, "add.html", **known.common, kind=kind, kinds=KINDS, fields=fields)
