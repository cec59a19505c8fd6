"""A store that forgets: for `parse`, `hear` without a job, and tests. Media go to a temporary folder."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from saywright.record.chain import link, verify
from saywright.record.events import AudioAdded, Event, JobDescribed, JobOpened, Payload
from saywright.store.media import FileMedia
from saywright.store.people import memory_people
from saywright.store.protocol import JobRow, People, gone_on, job_row, no_job


class MemoryStore:
    """Events in lists; media in a folder that goes away with `close`."""

    def __init__(self) -> None:
        """An empty store."""
        self._jobs: dict[str, list[Event]] = {}
        self._folder = tempfile.TemporaryDirectory(prefix="saywright-")
        self._media = FileMedia(Path(self._folder.name))
        self._people = memory_people()

    @property
    def media(self) -> FileMedia:
        """The media store."""
        return self._media

    @property
    def people(self) -> People:
        """Who may use the desk."""
        return self._people

    def close(self) -> None:
        """Remove the temporary folder."""
        self._folder.cleanup()

    def append(
        self, job_id: str, payloads: Sequence[Payload], *, at: datetime, actor: str, after_seq: int
    ) -> tuple[Event, ...]:
        """Append all or none; see `Store.append`."""
        known = self._jobs.get(job_id, [])
        if not known and after_seq:
            raise no_job(job_id)
        if len(known) != after_seq:
            raise gone_on(job_id, len(known), after_seq)
        last = known[-1] if known else None
        made: list[Event] = []
        for payload in payloads:
            last = link(payload, at=at.astimezone(UTC), actor=actor, after=last)
            made.append(last)
        self._jobs[job_id] = [*known, *made]
        return tuple(made)

    def events(self, job_id: str, *, after_seq: int = 0) -> tuple[Event, ...]:
        """The job's events later than *after_seq*."""
        return tuple(self._get(job_id)[after_seq:])

    def jobs(self) -> tuple[JobRow, ...]:
        """All jobs, oldest first."""
        rows = []
        for job_id, events in self._jobs.items():
            first = events[0]
            if isinstance(first.payload, JobOpened):
                later = [e.payload for e in events if isinstance(e.payload, JobDescribed | AudioAdded)]
                rows.append(job_row(job_id, first.payload, first.at, later, len(events)))
        return tuple(sorted(rows, key=lambda job: (job.opened_at, job.id)))

    def verify(self, job_id: str) -> str:
        """Hash of the last event."""
        return verify(self._get(job_id), f"job {job_id}")

    def _get(self, job_id: str) -> list[Event]:
        if job_id not in self._jobs:
            raise no_job(job_id)
        return self._jobs[job_id]
