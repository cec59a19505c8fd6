"""The desk for programs: the same jobs and the same changes as the pages, as JSON under /api.

A change carries the session's token in a header, which no page of another site can send.
"""

from __future__ import annotations

import json
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Header, Path, Query
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from saywright.bench import Bench
from saywright.record.events import Event
from saywright.web import acts
from saywright.web.api_types import (
    Accept,
    Changes,
    Correct,
    Done,
    Enter,
    Explain,
    Fault,
    HistoryStep,
    ItemNow,
    JobLine,
    Merge,
    Split,
    Undo,
    Who,
    Withdraw,
)
from saywright.web.search import Wanted, found
from saywright.web.state import desk_of, known_of, made_once
from saywright.web.trace import trace
from saywright.web.view import find_item, line_of

_FAULTS: dict[int | str, dict[str, Any]] = {
    code: {"model": Fault} for code in (400, 401, 403, 404, 409, 413, 422, 429, 503, 507)
}

ROUTER = APIRouter(prefix="/api", responses=_FAULTS)


def checked(request: Request, x_desk_token: Annotated[str, Header(max_length=100)] = "") -> None:
    """GuardError unless the request carries this session's token."""
    desk_of(request).sessions.check(request, x_desk_token)


Text = Annotated[str, Query(max_length=80)]
Job = Annotated[str, Path(min_length=1, max_length=80)]
Item = Annotated[str, Path(min_length=1, max_length=80)]
CHECKED = [Depends(checked)]


@ROUTER.get("/session")
def session(request: Request) -> Who:
    """Begin: the cookie, and the token that goes with it."""
    sessions = desk_of(request).sessions
    who = Who(actor=sessions.actor(request), token=sessions.token(request))
    response = JSONResponse(who.model_dump())
    return sessions.keep(request, response)  # type: ignore[return-value]  # an answer of its own, with the cookie


@ROUTER.get("/jobs")
def jobs(
    request: Request, serial: Text = "", customer: Text = "", date: Text = "", part: Text = ""
) -> list[JobLine]:
    """The jobs that fit, latest first."""
    rows = found(desk_of(request), Wanted(serial=serial, customer=customer, date=date, part=part))
    return [JobLine.model_validate(row, from_attributes=True) for row in rows]


@ROUTER.get("/jobs/{job}/record")
def record(request: Request, job: Job) -> dict[str, Any]:  # noqa: ARG001  (the path names the job)
    """The whole record, schema "saywright.record/1"."""
    known = known_of(request)

    def make() -> bytes:
        return json.dumps(known.view.record.as_json(), ensure_ascii=False).encode()

    content = made_once(request, known, "record", make)
    return Response(content, media_type="application/json")  # type: ignore[return-value]  # ready as it is


@ROUTER.get("/jobs/{job}/items/{item}")
def item_now(request: Request, job: Job, item: Item) -> ItemNow:
    """One item as it stands."""
    bench = acts.bench_of(request, job)
    got = find_item(bench.record(), item)
    told = line_of(got, bench.sheet, {})
    text = f"{told.about}: {told.text}" if told.about else told.text
    return ItemNow(item=got.model_dump(mode="json"), text=text, event=got.event, asks=list(told.asks))


@ROUTER.get("/jobs/{job}/items/{item}/history")
def history(request: Request, job: Job, item: Item) -> list[HistoryStep]:
    """Every event that made or changed the item, oldest first."""
    bench = acts.bench_of(request, job)
    steps = trace(bench.events(), find_item(bench.record(), item), bench.sheet)
    return [HistoryStep.model_validate(step, from_attributes=True) for step in steps]


@ROUTER.post("/jobs/{job}/items/{item}/accept", dependencies=CHECKED)
def accept(request: Request, job: Job, item: Item, sent: Accept) -> Done:
    """Stand for an item as it is."""

    def act(bench: Bench) -> Event:
        return bench.accept(item, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items/{item}/correct", dependencies=CHECKED)
def correct(request: Request, job: Job, item: Item, sent: Correct) -> Done:
    """Give other values for fields of an item."""
    changes = _values(sent.changes)

    def act(bench: Bench) -> Event:
        return bench.correct(item, changes, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items/{item}/withdraw", dependencies=CHECKED)
def withdraw(request: Request, job: Job, item: Item, sent: Withdraw) -> Done:
    """Take an item out of the record; it is kept, marked."""

    def act(bench: Bench) -> Event:
        return bench.withdraw(item, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items/{item}/split", dependencies=CHECKED)
def split(request: Request, job: Job, item: Item, sent: Split) -> Done:
    """Make several items of one; it is kept, marked as replaced."""
    into = [_values(changes) for changes in sent.into]

    def act(bench: Bench) -> Event:
        return bench.split(item, into, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items/{item}/merge", dependencies=CHECKED)
def merge(request: Request, job: Job, item: Item, sent: Merge) -> Done:
    """Take others for the same thing as this item, which stays."""

    def act(bench: Bench) -> Event:
        return bench.merge(item, sent.others, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items", dependencies=CHECKED)
def enter(request: Request, job: Job, sent: Enter) -> Done:
    """Enter what was not said."""
    who, fields = _who(request), _values(sent.fields)
    return _done(acts.on_job(request, job, lambda b: b.add_item(fields, why=sent.why, actor=who)))


@ROUTER.post("/jobs/{job}/undo", dependencies=CHECKED)
def undo(request: Request, job: Job, sent: Undo) -> Done:
    """Take back what an event changed; refused where something was built on it since."""
    who = _who(request)
    return _done(acts.on_job(request, job, lambda b: b.undo(sent.event, why=sent.why, actor=who)))


@ROUTER.post("/jobs/{job}/explain", dependencies=CHECKED)
def explain(request: Request, job: Job, sent: Explain) -> Done:
    """State why an open item may stay open."""
    who = _who(request)
    return _done(acts.on_job(request, job, lambda b: b.explain(sent.open_item, sent.why, actor=who)))


def _who(request: Request) -> str:
    return desk_of(request).sessions.actor(request)


def _values(changes: Changes) -> dict[str, Any]:
    """Fields as the record has them: several of a kind are a tuple."""
    return {name: tuple(value) if isinstance(value, list) else value for name, value in changes.items()}


def _done(event: Event) -> Done:
    return Done(event=event.seq)
