"""Tables of the log and the migrations that make them.

A migration is never edited once it was released; a change is a new function at the end of
`MIGRATIONS`. The Core tables below say what the newest one leaves; a test compares them.
"""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Column, Connection, ForeignKey, Index, Integer, MetaData, Table, Text, inspect, select

from saywright.errors import StoreError

METADATA = MetaData()

SCHEMA_VERSION = Table(
    "schema_version",
    METADATA,
    Column("version", Integer, primary_key=True),  # number of the migration, from 1
    Column("applied_at", Text, nullable=False),  # UTC, by the database's clock
)

JOB = Table("job", METADATA, Column("id", Text, primary_key=True))

EVENT = Table(
    "event",
    METADATA,
    Column("job_id", Text, ForeignKey("job.id"), primary_key=True),
    Column("seq", Integer, primary_key=True),  # from 1 within the job
    Column("at", Text, nullable=False),  # ISO 8601, UTC
    Column("actor", Text, nullable=False),
    Column("kind", Text, nullable=False),  # of the payload, for look-ups
    Column("payload", Text, nullable=False),  # JSON
    Column("previous", Text, nullable=False),  # hash of the event before
    Column("hash", Text, nullable=False),
)

Index("event_kind", EVENT.c.kind)

PERSON = Table(
    "person",
    METADATA,
    Column("key", Text, primary_key=True),  # of the name, case folded
    Column("name", Text, nullable=False),  # as shown and kept in events
    Column("role", Text, nullable=False),
    Column("hash", Text, nullable=False),  # argon2id with salt and parameters; "" once removed
    Column("active", Integer, nullable=False),  # 1, or 0 once removed
)

PERSON_CHANGE = Table(
    "person_change",
    METADATA,
    Column("number", Integer, primary_key=True),  # from 1, in the order in which they were made
    Column("at", Text, nullable=False),  # ISO 8601, UTC
    Column("actor", Text, nullable=False),  # who made it
    Column("name", Text, nullable=False),  # of the person, as shown
    Column("change", Text, nullable=False),  # added, role, passphrase, removed
    Column("role", Text, nullable=False),  # after it
)

_NEVER = "SELECT RAISE(ABORT, 'events are appended, never changed')"


def _first(connection: Connection) -> None:
    for statement in (
        "CREATE TABLE job (id TEXT NOT NULL PRIMARY KEY)",
        """CREATE TABLE event (
            job_id TEXT NOT NULL REFERENCES job (id),
            seq INTEGER NOT NULL CHECK (seq >= 1),
            at TEXT NOT NULL,
            actor TEXT NOT NULL,
            kind TEXT NOT NULL,
            payload TEXT NOT NULL,
            previous TEXT NOT NULL,
            hash TEXT NOT NULL,
            PRIMARY KEY (job_id, seq))""",
        "CREATE INDEX event_kind ON event (kind)",
        f"CREATE TRIGGER event_no_update BEFORE UPDATE ON event BEGIN {_NEVER}; END",
        f"CREATE TRIGGER event_no_delete BEFORE DELETE ON event BEGIN {_NEVER}; END",
        f"CREATE TRIGGER job_no_update BEFORE UPDATE ON job BEGIN {_NEVER}; END",
        f"CREATE TRIGGER job_no_delete BEFORE DELETE ON job BEGIN {_NEVER}; END",
    ):
        connection.exec_driver_sql(statement)


def _people(connection: Connection) -> None:
    connection.exec_driver_sql(
        """CREATE TABLE person (
            key TEXT NOT NULL PRIMARY KEY,
            name TEXT NOT NULL,
            role TEXT NOT NULL CHECK (role IN ('technician', 'reviewer', 'viewer')),
            hash TEXT NOT NULL,
            active INTEGER NOT NULL CHECK (active IN (0, 1)))"""
    )


def _people_history(connection: Connection) -> None:
    never = _NEVER.replace("events are", "the history of people is")
    for statement in (
        """CREATE TABLE person_change (
            number INTEGER NOT NULL PRIMARY KEY,
            at TEXT NOT NULL,
            actor TEXT NOT NULL,
            name TEXT NOT NULL,
            change TEXT NOT NULL CHECK (change IN ('added', 'role', 'passphrase', 'removed')),
            role TEXT NOT NULL)""",
        f"CREATE TRIGGER person_change_no_update BEFORE UPDATE ON person_change BEGIN {never}; END",
        f"CREATE TRIGGER person_change_no_delete BEFORE DELETE ON person_change BEGIN {never}; END",
    ):
        connection.exec_driver_sql(statement)


MIGRATIONS: tuple[Callable[[Connection], None], ...] = (_first, _people, _people_history)


def version_of(connection: Connection) -> int:
    """Number of the last migration applied; 0 for an empty database."""
    if not inspect(connection).has_table("schema_version"):
        return 0
    newest = connection.execute(
        select(SCHEMA_VERSION.c.version).order_by(SCHEMA_VERSION.c.version.desc())
    ).first()
    return int(newest[0]) if newest else 0


def migrate(connection: Connection, where: str) -> None:
    """Bring the database to the newest version within the caller's transaction.

    StoreError where it was written by a newer program.
    """
    version = version_of(connection)
    if version > len(MIGRATIONS):
        raise StoreError(
            f"the log has version {version}, this program knows up to {len(MIGRATIONS)}",
            where=where,
            to_do="Install the newer Saywright that wrote it",
        )
    connection.exec_driver_sql(
        "CREATE TABLE IF NOT EXISTS schema_version"
        " (version INTEGER NOT NULL PRIMARY KEY, applied_at TEXT NOT NULL)"
    )
    for number, step in enumerate(MIGRATIONS[version:], start=version + 1):
        step(connection)
        connection.exec_driver_sql("INSERT INTO schema_version VALUES (?, CURRENT_TIMESTAMP)", (number,))
