"""What a store must do, whatever keeps it: SQLite and files, or memory."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Protocol

from saywright.errors import NotFoundError, StaleError
from saywright.people import Person, PersonChange, Role
from saywright.record.events import AudioAdded, Event, JobDescribed, JobOpened, Payload

SAMPLE_BYTES = 2  # a journal holds 16-bit little-endian samples


@dataclass(frozen=True, slots=True)
class JobRow:
    """One line of the list of jobs, as it stands after all descriptions."""

    id: str
    title: str
    sheet: str  # id of the bench sheet
    item: str | None  # what is worked on; None where not said
    serial: str | None  # None where not known
    customer: str | None  # None where not known
    opened_at: datetime  # UTC
    events: int  # how many there are
    unheard: int = 0  # recordings that were not heard to their end


@dataclass(frozen=True, slots=True)
class Adopted:
    """A recording that was cut off by a crash and is now in the media store."""

    job_id: str
    recording: str  # key of the live recording
    sha256: str  # of the WAV file made from it
    duration_s: float


class Journal(Protocol):
    """A recording in progress, on disk up to the last second."""

    recording: str  # key, 64 hex digits

    def write(self, pcm: bytes) -> None:
        """The next samples: 16-bit little-endian mono."""
        ...

    def finish(self) -> tuple[str, float]:
        """Close it and move it into the media store: sha256 of the WAV file, duration in seconds."""
        ...


class MediaStore(Protocol):
    """Files named by their content (SHA-256, hex)."""

    def put_file(self, path: Path) -> str:
        """Copy a file in; its name."""
        ...

    def put_bytes(self, data: bytes) -> str:
        """Put bytes in; their name."""
        ...

    def path(self, sha256: str) -> Path:
        """Where the file is; NotFoundError where it is not."""
        ...

    def read(self, sha256: str) -> bytes:
        """The bytes, checked against their name; StoreError where they were altered."""
        ...

    def check(self, sha256: str) -> None:
        """StoreError where the file is missing or was altered."""
        ...

    def start_journal(self, job_id: str, recording: str, *, rate_hz: int) -> Journal:
        """Begin a recording."""
        ...

    def journal_wav(self, recording: str) -> bytes | None:
        """What is on disk of a recording in progress, as a WAV file; None where there is none."""
        ...

    def adopt_journals(self, job_id: str) -> tuple[Adopted, ...]:
        """Take in what a crash left behind of this job; recordings still being written are left alone.

        The journals stay until `drop_journal`, so that a crash in between loses nothing.
        """
        ...

    def drop_journal(self, recording: str) -> None:
        """Remove a journal, once the log names the file made from it."""
        ...


class People(Protocol):
    """The people a data folder knows."""

    def all(self) -> tuple[Person, ...]:
        """Everybody, by name; those who were removed too."""
        ...

    def get(self, name: str) -> Person | None:
        """The person of this name, active or not."""
        ...

    def active(self, name: str) -> Person:
        """The person of this name who may sign in; NotFoundError where there is none."""
        ...

    def defined(self) -> bool:
        """True where anybody is active: then the desk asks for a sign-in."""
        ...

    def history(self) -> tuple[PersonChange, ...]:
        """Every change, oldest first, with who made it and when."""
        ...

    def add(self, name: str, role: Role, passphrase: str, *, by: str) -> Person:
        """A new person, or one who comes back; RefusedError where the name is taken."""
        ...

    def set_role(self, name: str, role: Role, *, by: str) -> Person:
        """Another role from now on."""
        ...

    def set_passphrase(self, name: str, passphrase: str, *, by: str) -> Person:
        """Another passphrase from now on."""
        ...

    def remove(self, name: str, *, by: str) -> Person:
        """Let in no more. The name stays in what was recorded."""
        ...

    def check(self, name: str, passphrase: str) -> Person | None:
        """The person whose passphrase this is; None where it is not, or nobody has the name."""
        ...


class Store(Protocol):
    """An append-only log of events by job, the media beside it, and who may use the desk."""

    @property
    def media(self) -> MediaStore:
        """The media store."""
        ...

    @property
    def people(self) -> People:
        """Who may use the desk."""
        ...

    def append(
        self, job_id: str, payloads: Sequence[Payload], *, at: datetime, actor: str, after_seq: int
    ) -> tuple[Event, ...]:
        """Append all or none. *after_seq* is the last event the caller knows (0: a new job).

        StaleError where the log has gone on, NotFoundError where there is no such job.
        """
        ...

    def events(self, job_id: str, *, after_seq: int = 0) -> tuple[Event, ...]:
        """The job's events in order, later than *after_seq*; NotFoundError where there is no such job."""
        ...

    def jobs(self) -> tuple[JobRow, ...]:
        """All jobs, oldest first."""
        ...

    def verify(self, job_id: str) -> str:
        """Hash of the last event; ChainError names the first event that does not fit."""
        ...

    def close(self) -> None:
        """Let go of files."""
        ...


def no_job(job_id: str) -> NotFoundError:
    """There is no job of this id."""
    return NotFoundError("no such job", where=job_id, to_do="'saywright jobs' lists them")


def gone_on(job_id: str, seq: int, after_seq: int) -> StaleError:
    """The log is at event *seq*, and the caller knows it to *after_seq* only."""
    return StaleError(
        f"the record has gone on to event {seq} since event {after_seq} was read",
        where=f"job {job_id}",
        to_do="Read it again and repeat",
    )


def job_row(
    job_id: str, opened: JobOpened, at: datetime, later: Sequence[JobDescribed | AudioAdded], events: int
) -> JobRow:
    """The job's line: what was said when it was opened, overwritten by each later description.

    *later*: these and what was told of its recordings, in their order.
    """
    unheard: dict[str, bool] = {}
    title, item, serial, customer = opened.title, opened.item, opened.serial, opened.customer
    for change in later:
        if isinstance(change, AudioAdded):
            unheard[change.recording or change.sha256] = change.cut_off
            continue
        title = change.title if change.title is not None else title
        item = change.item if change.item is not None else item
        serial = change.serial if change.serial is not None else serial
        customer = change.customer if change.customer is not None else customer
    cut_off = sum(unheard.values())
    return JobRow(job_id, title, opened.sheet.id, item, serial, customer, at, events, cut_off)
