"""A change of a job, one at a time; where it comes too late, what happened to the item since."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from starlette.requests import Request

from saywright.bench import Bench
from saywright.errors import StaleError
from saywright.web.state import desk_of
from saywright.web.trace import Step, trace
from saywright.web.view import find_item

T = TypeVar("T")


def bench_of(request: Request, job: str) -> Bench:
    """The job, in the name of who sends the request; NotFoundError where there is none."""
    desk = desk_of(request)
    return desk.opened(job).bench.by(desk.sessions.actor(request))


def on_job(request: Request, job: str, act: Callable[[Bench], T]) -> T:
    """*act* on the job, in the name of who sends the request."""
    with desk_of(request).opened(job).lock:
        return act(bench_of(request, job))


def on_item(request: Request, job: str, item: str, act: Callable[[Bench], T], *, seen: int | None) -> T:
    """The same on an item; a StaleError leaves in the request's state what changed after event *seen*."""

    def told(bench: Bench) -> T:
        try:
            return act(bench)
        except StaleError:
            request.state.since = since(bench, item, seen)
            raise

    return on_job(request, job, told)


def since(bench: Bench, item_id: str, seen: int | None) -> tuple[Step, ...]:
    """The steps of an item after event *seen*, oldest first."""
    steps = trace(bench.events(), find_item(bench.record(), item_id), bench.sheet)
    return tuple(step for step in steps if step.seq > (seen or 0))
