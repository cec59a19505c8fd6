"""The pages: the list of jobs, one job, what asks, the check, the signature, one item, a form to enter."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from typing import Any
from urllib.parse import quote

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from saywright.record.types import Reading
from saywright.web import describe
from saywright.web.entry import KINDS, PIECES, entry_fields
from saywright.web.forms import fields_for
from saywright.web.questions import alike, queue
from saywright.web.render import filled, page
from saywright.web.search import Wanted, found
from saywright.web.session import person_of
from saywright.web.since import told
from saywright.web.state import Known, desk_of, known_of, made_once
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
    "shown": "The picture stands in the report.",
    "left": "The picture is left out of the report. It is kept.",
    "added": "The pictures were taken in.",
    "matched": "The pictures were matched again.",
    "explained": "Noted why it may stay open.",
    "signed": "Signed.",
    "named": "Changes are kept under this name from now on.",
}
MAX_SEARCH = 80  # characters
MAX_ASKED = 400  # of an address; a longer one is not kept ready
# Stand in a page that is kept ready for what differs from reader to reader. Drawn anew at each start, so
# that nothing said or typed can hold them.
TOKEN = secrets.token_hex(32)
NOTICES_HERE = Markup(f"<!--{secrets.token_hex(16)}-->")


def _page(request: Request, template: str, **values: Any) -> Response:
    """A page of the desk: with the session, its token and the notice of what was just done."""
    sessions = desk_of(request).sessions
    response = page(
        template,
        token=sessions.token(request),
        actor=sessions.actor(request),
        person=person_of(request),
        notice=NOTICES.get(request.query_params.get("done", ""), ""),
        **values,
    )
    return sessions.keep(request, response)


def _job_page(
    request: Request, template: str, values: Callable[[Known], dict[str, Any]], *, keep: bool = True
) -> Response:
    """A page of a job, which is the same for all who read it but for the token and the notice.

    With *keep*, it is made once for everybody until the next event.
    """
    sessions, known = desk_of(request).sessions, known_of(request)
    actor, person = sessions.actor(request), person_of(request)
    asked = tuple((k, v) for k, v in request.query_params.multi_items() if k not in ("done", "event"))
    key = (template, request.url.path, asked, actor, person)

    def make() -> str:
        common = {**known.common, "actor": actor, "person": person}
        return filled(template, token=TOKEN, notices=NOTICES_HERE, **common, **values(known))

    text = made_once(request, known, key, make) if keep and len(str(asked)) < MAX_ASKED else make()
    token = sessions.token(request)
    response = HTMLResponse(
        text.replace(TOKEN, token).replace(NOTICES_HERE, _notices(request, template, token))
    )
    return sessions.keep(request, response)


def _notices(request: Request, template: str, token: str) -> str:
    """What was just done, with the way to undo it."""
    notice = NOTICES.get(request.query_params.get("done", ""), "")
    event = request.query_params.get("event", "")
    undo = event if event.isascii() and event.isdigit() and len(event) < 12 else ""
    path = f"/jobs/{quote(request.path_params['job'], safe='')}"
    here = template.removesuffix(".html")
    return (
        filled("notice.html", notice=notice, undo=undo, path=path, token=token, here=here) if notice else ""
    )


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

    def values(known: Known) -> dict[str, Any]:
        lines = timeline(
            known.view.record,
            known.sheet,
            known.utterances,
            known.pictures,
            part=_asked(request, "part"),
            show=_asked(request, "show") or "all",
            page=_number(request, "page"),
        )
        return {"lines": lines, "shown": SHOWN}

    return _job_page(request, "job.html", values)


def asks_page(request: Request) -> Response:
    """What asks, one after another."""

    def values(known: Known) -> dict[str, Any]:
        about = (known.view.record, known.sheet, known.utterances, known.pictures)
        return {"asks": queue(*about, at=_asked(request, "at"), after=_asked(request, "after"))}

    return _job_page(request, "asks.html", values)


def check_page(request: Request) -> Response:
    """The record beside what its sheet asks for; other jobs of the serial number go on meanwhile."""

    def values(known: Known) -> dict[str, Any]:
        with desk_of(request).job(request).lock:
            check = known.bench.check()
        by_part: dict[str, list[Reading]] = {component.id: [] for component in known.sheet.component}
        for reading in known.view.record.readings:
            if reading.superseded_by is None and reading.component in by_part:
                by_part[reading.component].append(reading)
        rows = tuple(
            (known.sheet.label(part), rows_of(readings, known.sheet, known.utterances))
            for part, readings in by_part.items()
            if readings
        )
        undo = frozenset(known.bench.reversible())
        words = {"kinds": OPEN_KINDS, "stages": describe.STAGES}
        return {"check": check, "rows": rows, "reversible": undo, **words}

    return _job_page(request, "check.html", values, keep=False)


def sign_page(request: Request) -> Response:
    """The report as it will be printed, what changed since it was signed, and the signature."""

    def values(known: Known) -> dict[str, Any]:
        revisions = known.bench.revisions()
        return {"revisions": revisions, "since": told(revisions.since, known.view.record, known.sheet)}

    return _job_page(request, "sign.html", values)


def item_page(request: Request) -> Response:
    """One item: where it comes from, and the forms that change it."""

    def values(known: Known) -> dict[str, Any]:
        item = find_item(known.view.record, request.path_params["item"])
        others = {other.id: other for other in describe.items_of(known.view.record)}
        return {
            "line": line_of(item, known.sheet, known.utterances, known.pictures),
            "fields": fields_for(item, known.sheet),
            "steps": trace(known.events, item, known.sheet),
            "reversible": frozenset(known.bench.reversible()),
            "same": tuple(line_of(other, known.sheet, {}) for other in alike(item, others)),
            "pieces": PIECES,
        }

    return _job_page(request, "item.html", values)


def add_page(request: Request) -> Response:
    """The form that enters what was not said."""
    kind = _asked(request, "kind") or "reading"

    def values(known: Known) -> dict[str, Any]:
        return {"kind": kind, "kinds": KINDS, "fields": entry_fields(kind, known.sheet)}

    return _job_page(request, "add.html", values)
