"""The desk for programs: the same jobs and the same changes as the pages, as JSON under /api.

A change carries the session's token in a header, which no page of another site can send.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Header, Path, Query
from starlette.requests import Request
from starlette.responses import JSONResponse

from saywright.bench import Bench
from saywright.record.events import Event
from saywright.web import acts
from saywright.web.api_types import (
    Accept,
    Correct,
    Done,
    Explain,
    Fault,
    HistoryStep,
    ItemNow,
    JobLine,
    Who,
    Withdraw,
)
from saywright.web.search import Wanted, found
from saywright.web.state import desk_of
from saywright.web.trace import trace
from saywright.web.view import find_item, line_of

_FAULTS: dict[int | str, dict[str, Any]] = {
    code: {"model": Fault} for code in (403, 404, 409, 413, 422, 503, 507)
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
def record(request: Request, job: Job) -> dict[str, Any]:
    """The whole record, schema "saywright.record/1"."""
    return acts.bench_of(request, job).record().as_json()


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
    changes = {name: tuple(v) if isinstance(v, list) else v for name, v in sent.changes.items()}

    def act(bench: Bench) -> Event:
        return bench.correct(item, changes, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/items/{item}/withdraw", dependencies=CHECKED)
def withdraw(request: Request, job: Job, item: Item, sent: Withdraw) -> Done:
    """Take an item out of the record; it is kept, marked."""

    def act(bench: Bench) -> Event:
        return bench.withdraw(item, why=sent.why, actor=_who(request), seen=sent.seen)

    return _done(acts.on_item(request, job, item, act, seen=sent.seen))


@ROUTER.post("/jobs/{job}/explain", dependencies=CHECKED)
def explain(request: Request, job: Job, sent: Explain) -> Done:
    """State why an open item may stay open."""
    who = _who(request)
    return _done(acts.on_job(request, job, lambda b: b.explain(sent.open_item, sent.why, actor=who)))


def _who(request: Request) -> str:
    return desk_of(request).sessions.actor(request)


def _done(event: Event) -> Done:
    return Done(event=event.seq)
