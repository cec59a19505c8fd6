"""The pages: the list of jobs, one job, one item."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from saywright.web.forms import fields_for
from saywright.web.render import page
from saywright.web.state import desk_of, utterances, view_of
from saywright.web.trace import trace
from saywright.web.view import find_item, line_of

# Shown after a change, by the word in the address; nothing else from the address is shown.
NOTICES = {
    "accepted": "Accepted.",
    "corrected": "Corrected. What was there before is kept.",
    "withdrawn": "Withdrawn. What was there before is kept.",
    "said": "Taken down. See below how it was understood.",
    "placed": "The picture has its place.",
    "added": "The pictures were taken in.",
    "matched": "The pictures were matched again.",
    "explained": "Noted why it may stay open.",
    "signed": "Signed.",
    "named": "Changes are kept under this name from now on.",
}


def _page(request: Request, template: str, **values: Any) -> Response:
    """A page of the desk: with the session, its token and the notice of what was just done."""
    sessions = desk_of(request).sessions
    response = page(
        template,
        token=sessions.token(request),
        actor=sessions.actor(request),
        notice=NOTICES.get(request.query_params.get("done", ""), ""),
        **values,
    )
    return sessions.keep(request, response)


def job_list(request: Request) -> Response:
    """All jobs, latest first."""
    jobs = desk_of(request).store.jobs()
    return _page(request, "jobs.html", jobs=tuple(reversed(jobs)))


def job_page(request: Request) -> Response:
    """One job: what asks first, then the record."""
    desk = desk_of(request)
    with desk.job(request).lock:
        view = view_of(desk.bench(request))
    return _page(request, "job.html", view=view, job=view.record.job)


def item_page(request: Request) -> Response:
    """One item: where it comes from, and the forms that change it."""
    desk = desk_of(request)
    with desk.job(request).lock:
        bench = desk.bench(request)
        record, events = bench.record(), bench.events()
    item = find_item(record, request.path_params["item"])
    return _page(
        request,
        "item.html",
        job=record.job,
        line=line_of(item, bench.sheet, utterances(events)),
        fields=fields_for(item, bench.sheet),
        steps=trace(events, item, bench.sheet),
    )
