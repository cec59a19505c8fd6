"""What the routes share: where the jobs are, who sits at the desk, one change at a time."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any, TypeVar

from starlette.requests import Request

from saywright.bench import Bench
from saywright.hearing.words import Utterance
from saywright.record.events import Event, Heard, PhotoAdded
from saywright.sheets.model import Sheet
from saywright.store.protocol import Store
from saywright.web.session import Sessions
from saywright.web.view import JobView, job_view

Clock = Callable[[], datetime]
Made = TypeVar("Made", str, bytes)

MAX_MADE = 64  # pages of one job kept ready
MAX_OPEN_JOBS = 64  # logs kept in memory; the one unused longest is let go


@dataclass
class Open:
    """A job whose log is in memory, shared by every request on it."""

    bench: Bench
    # One request at a time touches a job: a change and the page that shows it never mix.
    lock: threading.RLock = field(default_factory=threading.RLock)
    known: Known | None = None
    board: tuple[int, bytes] | None = None  # newest event it shows, and what the board is sent


@dataclass
class Desk:
    """The desk as long as it runs."""

    store: Store
    clock: Clock
    sessions: Sessions
    _open: OrderedDict[str, Open] = field(default_factory=OrderedDict)
    _opening: dict[str, threading.Lock] = field(default_factory=dict)  # jobs whose log is being read
    _lock: threading.Lock = field(default_factory=threading.Lock)  # over the two; never held while reading

    def opened(self, job_id: str) -> Open:
        """The job, its log read once and followed from there; NotFoundError where there is none.

        Reading a long log keeps nobody from another job.
        """
        with self._lock:
            if (found := self._used(job_id)) is not None:
                return found
            opening = self._opening.setdefault(job_id, threading.Lock())
        try:
            with opening:
                with self._lock:
                    if (found := self._used(job_id)) is not None:
                        return found
                made = Open(Bench.resume(self.store, job_id, clock=self.clock))
                with self._lock:
                    found = self._open.setdefault(job_id, made)
                    if len(self._open) > MAX_OPEN_JOBS:
                        self._open.popitem(last=False)
                    return found
        finally:
            with self._lock:
                self._opening.pop(job_id, None)

    def _used(self, job_id: str) -> Open | None:
        """The job where it is open, now the one used last. The lock is held."""
        found = self._open.get(job_id)
        if found is not None:
            self._open.move_to_end(job_id)
        return found

    def job(self, request: Request) -> Open:
        """The job named in the path, for whoever sits at the desk."""
        return self.opened(request.path_params["job"])

    def bench(self, request: Request) -> Bench:
        """The same job in the name of the person who sends this request."""
        return self.job(request).bench.by(self.sessions.actor(request))


def desk_of(request: Request) -> Desk:
    """The desk that answers this request."""
    desk: Desk = request.app.state.desk
    return desk


def utterances(events: tuple[Event, ...]) -> dict[int, Utterance]:
    """What was heard, by the sequence number of its event."""
    return {event.seq: event.payload.utterance for event in events if isinstance(event.payload, Heard)}


def picture_ids(events: tuple[Event, ...]) -> dict[str, str]:
    """Content name (sha256) of each picture → its id."""
    return {e.payload.sha256: e.payload.photo for e in events if isinstance(e.payload, PhotoAdded)}


@dataclass(frozen=True)
class Known:
    """A job as it stands, in all that its pages show."""

    bench: Bench
    events: tuple[Event, ...]
    utterances: dict[int, Utterance]
    pictures: dict[str, str]
    view: JobView
    made: dict[Hashable, str | bytes] = field(default_factory=dict)  # pages, until the next event

    @property
    def sheet(self) -> Sheet:
        """The sheet of the job."""
        return self.bench.sheet

    @property
    def common(self) -> dict[str, Any]:
        """What every template of a job is given."""
        return {"view": self.view, "job": self.view.record.job, "seq": self.events[-1].seq}


def known_of(request: Request) -> Known:
    """The job named in the path; worked out once an event, for all who read it."""
    desk = desk_of(request)
    opened = desk.job(request)
    bench = desk.bench(request)
    # While somebody writes, the record is still what it was: who only reads need not wait for the disk.
    if not opened.lock.acquire(blocking=False):
        known = opened.known
        if known is not None and known.events[-1].seq == bench.seq:
            return replace(known, bench=bench)
        opened.lock.acquire()
    try:
        record = bench.record()
        if opened.known is None or opened.known.view.record is not record:
            events = bench.events()
            heard, pictures = utterances(events), picture_ids(events)
            view = job_view(record, bench.sheet, heard, pictures)
            opened.known = Known(bench, events, heard, pictures, view)
        return replace(opened.known, bench=bench)
    finally:
        opened.lock.release()


def made_once(request: Request, known: Known, key: Hashable, make: Callable[[], Made]) -> Made:
    """What *make* gives, worked out once an event and *key*; whoever asks at the same time waits for it."""
    if key not in known.made:
        with desk_of(request).job(request).lock:
            if key not in known.made:
                if len(known.made) >= MAX_MADE:
                    known.made.clear()
                known.made[key] = make()
    found: Made = known.made[key]  # type: ignore[assignment]  # one key, one kind
    return found


def view_of(bench: Bench) -> JobView:
    """The page of the job as it stands."""
    events = bench.events()
    return job_view(bench.record(), bench.sheet, utterances(events), picture_ids(events))
