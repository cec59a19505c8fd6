"""The event log in one SQLite file, append-only.

WAL with synchronous=FULL: a transaction that returned is on disk, whatever happens next.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError
from sqlalchemy import Connection, Engine, create_engine, func, insert, select
from sqlalchemy import event as hooks
from sqlalchemy.exc import DBAPIError, IntegrityError

from saywright.errors import ChainError, DiskFullError, StoreError
from saywright.record.chain import GENESIS, broken, content_hash, link
from saywright.record.events import AudioAdded, Event, JobDescribed, JobOpened, Payload
from saywright.store.media import FileMedia
from saywright.store.people import table_people
from saywright.store.protocol import JobRow, People, gone_on, job_row, no_job
from saywright.store.schema import EVENT, JOB, migrate

_FULL_CODES = {sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR_WRITE}
_WAIT_S = 30
_EVENT: TypeAdapter[Event] = TypeAdapter(Event)


class SqliteStore:
    """The store of one data folder: `log.sqlite3` and `media/`."""

    def __init__(self, folder: Path) -> None:
        """Open or make the store in *folder*; StoreError where it cannot be used."""
        self.folder = folder
        self._file = folder / "log.sqlite3"
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"the data folder cannot be made ({error.strerror})",
                where=str(folder),
                to_do="Name another with --data",
            ) from None
        self._media = FileMedia(folder / "media")
        self._engine = _engine(self._file)
        self._people = table_people(self._reading, self._transaction)
        try:
            with self._transaction() as connection:
                migrate(connection, str(self._file))
        except BaseException:
            self._engine.dispose()
            raise
        self._media.sweep()

    @property
    def media(self) -> FileMedia:
        """The media store."""
        return self._media

    @property
    def people(self) -> People:
        """Who may use the desk."""
        return self._people

    def close(self) -> None:
        """Close the database."""
        self._engine.dispose()

    def append(
        self, job_id: str, payloads: Sequence[Payload], *, at: datetime, actor: str, after_seq: int
    ) -> tuple[Event, ...]:
        """Append all or none in one transaction; see `Store.append`."""
        at = at.astimezone(UTC)
        with self._transaction() as connection:
            last = self._last(connection, job_id)
            self._check_place(connection, job_id, last, after_seq)
            made: list[Event] = []
            for payload in payloads:
                last = link(payload, at=at, actor=actor, after=last)
                made.append(last)
            if made:
                connection.execute(insert(EVENT), [_row(job_id, event) for event in made])
        return tuple(made)

    def events(self, job_id: str, *, after_seq: int = 0) -> tuple[Event, ...]:
        """The job's events later than *after_seq*."""
        query = select(EVENT).where(EVENT.c.job_id == job_id, EVENT.c.seq > after_seq).order_by(EVENT.c.seq)
        with self._reading() as connection:
            rows = connection.execute(query).mappings().all()
            if not rows and not self._knows(connection, job_id):
                raise no_job(job_id)
        return tuple(_event(dict(row), str(self._file)) for row in rows)

    def jobs(self) -> tuple[JobRow, ...]:
        """All jobs, oldest first."""
        counts = select(EVENT.c.job_id, func.count()).group_by(EVENT.c.job_id)
        heads = (
            select(EVENT)
            .where(EVENT.c.kind.in_(("job_opened", "job_described", "audio_added")))
            .order_by(EVENT.c.job_id, EVENT.c.seq)
        )
        with self._reading() as connection:
            number = {str(job): int(count) for job, count in connection.execute(counts)}
            rows = connection.execute(heads).mappings().all()
        opened: dict[str, tuple[JobOpened, datetime]] = {}
        later: dict[str, list[JobDescribed | AudioAdded]] = {}
        for row in rows:
            event = _event(dict(row), str(self._file))
            if isinstance(event.payload, JobOpened):
                opened[row["job_id"]] = (event.payload, event.at)
            elif isinstance(event.payload, JobDescribed | AudioAdded):
                later.setdefault(row["job_id"], []).append(event.payload)
        found = [
            job_row(job, payload, at, later.get(job, ()), number[job])
            for job, (payload, at) in opened.items()
        ]
        return tuple(sorted(found, key=lambda job: (job.opened_at, job.id)))

    def verify(self, job_id: str) -> str:
        """Check the chain over the stored text, so that older payload shapes still verify."""
        query = select(EVENT).where(EVENT.c.job_id == job_id).order_by(EVENT.c.seq)
        where = f"{self._file}, job {job_id}"
        previous, seq = GENESIS, 0
        with self._reading() as connection:
            if not self._knows(connection, job_id):
                raise no_job(job_id)
            for row in connection.execute(query).mappings():
                seq += 1
                if row["seq"] != seq:
                    raise broken(seq, "is missing", where)
                if not _fits(dict(row), previous):
                    raise broken(seq, "was altered", where)
                previous = row["hash"]
        return previous

    def _check_place(self, connection: Connection, job_id: str, last: Event | None, after_seq: int) -> None:
        seq = last.seq if last else 0
        if after_seq == 0 and last is None:
            connection.execute(insert(JOB).values(id=job_id))
        elif last is None:
            raise no_job(job_id)
        elif seq != after_seq:
            raise gone_on(job_id, seq, after_seq)

    def _last(self, connection: Connection, job_id: str) -> Event | None:
        query = select(EVENT).where(EVENT.c.job_id == job_id).order_by(EVENT.c.seq.desc()).limit(1)
        row = connection.execute(query).mappings().first()
        return _event(dict(row), str(self._file)) if row else None

    def _knows(self, connection: Connection, job_id: str) -> bool:
        return connection.execute(select(JOB.c.id).where(JOB.c.id == job_id)).first() is not None

    @contextmanager
    def _transaction(self) -> Iterator[Connection]:
        """A write transaction: takes the write lock at once, so that check and append are one."""
        with (
            self._told(),
            self._engine.connect().execution_options(write=True) as connection,
            connection.begin(),
        ):
            yield connection

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        with self._told(), self._engine.connect() as connection:
            yield connection

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Turn what the database says into one line of ours."""
        try:
            yield
        except DBAPIError as error:
            raise self._tell(error) from None

    def _tell(self, error: DBAPIError) -> StoreError:
        code = getattr(error.orig, "sqlite_errorcode", None)
        if code in _FULL_CODES:
            return DiskFullError(
                "the disk is full",
                where=str(self._file),
                to_do="Free some space and repeat; everything committed before is kept",
            )
        if isinstance(error, IntegrityError):
            return StoreError(f"the log refused the change ({error.orig})", where=str(self._file))
        return StoreError(
            f"the log cannot be used ({error.orig})",
            where=str(self._file),
            to_do="Check the file and its folder, or name another with --data",
        )


def _engine(file: Path) -> Engine:
    engine = create_engine(f"sqlite:///{file}", connect_args={"timeout": _WAIT_S})

    @hooks.listens_for(engine, "connect")
    def _prepare(connection: sqlite3.Connection, _: object) -> None:
        # The driver's own transactions begin too late to hold a lock over check and append.
        connection.isolation_level = None
        try:
            for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
                connection.execute(f"PRAGMA {pragma}").close()
        except sqlite3.Error:
            # The pool does not close a connection that its hook refused.
            connection.close()
            raise

    @hooks.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        write = connection.get_execution_options().get("write", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if write else "BEGIN")

    return engine


def _row(job_id: str, event: Event) -> dict[str, Any]:
    return {
        "job_id": job_id,
        "seq": event.seq,
        "at": event.at.isoformat(),
        "actor": event.actor,
        "kind": event.payload.kind,
        "payload": json.dumps(
            event.payload.model_dump(mode="json"), ensure_ascii=False, separators=(",", ":")
        ),
        "previous": event.previous,
        "hash": event.hash,
    }


def _event(row: dict[str, Any], where: str) -> Event:
    try:
        return _EVENT.validate_python(
            {
                "seq": row["seq"],
                "at": row["at"],
                "actor": row["actor"],
                "payload": json.loads(row["payload"]),
                "previous": row["previous"],
                "hash": row["hash"],
            }
        )
    except (ValidationError, ValueError):
        raise ChainError(
            f"event {row['seq']} of job {row['job_id']} cannot be read",
            where=where,
            to_do="Run 'saywright verify', then restore the log from a backup",
        ) from None


def _fits(row: dict[str, Any], previous: str) -> bool:
    try:
        payload = json.loads(row["payload"])
    except ValueError:
        return False
    expected = content_hash(row["seq"], row["at"], row["actor"], payload, row["previous"])
    return bool(
        row["previous"] == previous and row["hash"] == expected and row["kind"] == payload.get("kind")
    )
