"""A store that tells of what goes into it, so that who watches a job need not ask for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from saywright.record.events import Event, Payload
from saywright.store.protocol import JobRow, MediaStore, People, Store


class NotifyingStore:
    """A store that tells when something was appended through it."""

    def __init__(self, store: Store, appended: Callable[[str], None]) -> None:
        """*appended* gets the job's id, in the thread that appended."""
        self._store = store
        self._appended = appended

    @property
    def media(self) -> MediaStore:
        """The media store."""
        return self._store.media

    @property
    def people(self) -> People:
        """Who may use the desk."""
        return self._store.people

    def append(
        self, job_id: str, payloads: Sequence[Payload], *, at: datetime, actor: str, after_seq: int
    ) -> tuple[Event, ...]:
        """Append all or none; see `Store.append`."""
        made = self._store.append(job_id, payloads, at=at, actor=actor, after_seq=after_seq)
        self._appended(job_id)
        return made

    def events(self, job_id: str, *, after_seq: int = 0) -> tuple[Event, ...]:
        """The job's events later than *after_seq*."""
        return self._store.events(job_id, after_seq=after_seq)

    def jobs(self) -> tuple[JobRow, ...]:
        """All jobs, oldest first."""
        return self._store.jobs()

    def verify(self, job_id: str) -> str:
        """Hash of the last event."""
        return self._store.verify(job_id)

    def close(self) -> None:
        """Let go of files."""
        self._store.close()
