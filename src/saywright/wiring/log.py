"""The events of one job, and the fold over them, kept in step with the store."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import datetime
from typing import TypeVar

from saywright.errors import NotFoundError, StaleError
from saywright.record.chain import link
from saywright.record.events import AudioAdded, Event, Payload
from saywright.record.fold import Folder
from saywright.record.types import Record
from saywright.sheets.model import Sheet
from saywright.store.protocol import MediaStore, Store

Clock = Callable[[], datetime]  # gives UTC

T = TypeVar("T")

MACHINE = "saywright"  # the actor of what no person did
TRIES = 20  # times a machine's event is offered again when another writer came first


class JobLog:
    """What is known of a job. Every event is checked against the fold before it is committed."""

    def __init__(self, store: Store, job_id: str, clock: Clock) -> None:
        """Read the job from the store; NotFoundError where there is none."""
        self.store = store
        self.job_id = job_id
        self._clock = clock
        self.events: list[Event] = []
        self.folder = Folder()
        self._lock = threading.RLock()
        self._judged: tuple[int, Record] | None = None
        self._take(store.events(job_id))

    @property
    def media(self) -> MediaStore:
        """The media store."""
        return self.store.media

    @property
    def sheet(self) -> Sheet:
        """The sheet the job was opened with."""
        return self.folder.sheet

    @property
    def last(self) -> Event:
        """The newest event known."""
        return self.events[-1]

    def now(self) -> datetime:
        """The time by the bench's clock, UTC."""
        return self._clock()

    def refresh(self) -> None:
        """Take in what others appended since."""
        with self._lock:
            self._take(self.store.events(self.job_id, after_seq=self.last.seq))

    def judged(self, judge: Callable[[Record], Record]) -> Record:
        """The record as it stands, through *judge*; worked out once an event, for all who share the log."""
        with self._lock:
            self.refresh()
            if self._judged is None or self._judged[0] != self.last.seq:
                self._judged = (self.last.seq, judge(self.folder.record()))
            return self._judged[1]

    def append(self, payload: Payload, *, actor: str = MACHINE) -> Event:
        """Check and commit one event; StaleError where another writer came first."""
        with self._lock:
            at = self.now()
            self.folder.check(link(payload, at=at, actor=actor, after=self.last))
            made = self.store.append(self.job_id, [payload], at=at, actor=actor, after_seq=self.last.seq)
            self._take(made)
            return made[0]

    def attempt(self, step: Callable[[], T]) -> T:
        """Read what is new, then do *step*; again where another writer came first.

        *step* must work out what to append from the log as it then stands.
        """
        for _ in range(TRIES):
            self.refresh()
            try:
                return step()
            except StaleError:
                continue
        raise StaleError(
            "another writer keeps changing the record",
            where=f"job {self.job_id}",
            to_do="Stop it, then repeat",
        )

    def keep(self, payload: Payload, *, actor: str = MACHINE) -> Event:
        """`append` for a payload that stays right whatever another writer did in between."""
        return self.attempt(lambda: self.append(payload, actor=actor))

    def recordings(self) -> tuple[AudioAdded, ...]:
        """Every recording as last told, in the order taken in."""
        found: dict[str, AudioAdded] = {}
        for event in self.events:
            if isinstance(event.payload, AudioAdded):
                found[event.payload.recording or event.payload.sha256] = event.payload
        return tuple(found.values())

    def recording(self, key: str) -> AudioAdded:
        """The recording that an utterance names as its media."""
        for added in self.recordings():
            if key in (added.recording, added.sha256):
                return added
        raise NotFoundError("no such recording in this job", where=key[:12])

    def _take(self, events: tuple[Event, ...]) -> None:
        for event in events:
            self.folder.apply(event)
            self.events.append(event)
