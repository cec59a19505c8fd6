"""Who may use the desk over a network, with the hash of each one's passphrase."""

from __future__ import annotations

import threading
from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from typing import Protocol

from sqlalchemy import Connection, insert, select, update

from saywright.errors import NotFoundError, RefusedError
from saywright.people import Change, Person, PersonChange, Role, check_passphrase, clean_name, name_key
from saywright.store import passphrase as hashing
from saywright.store.protocol import People
from saywright.store.schema import PERSON, PERSON_CHANGE

_MAX_TRIED = 1000  # characters of a passphrase that are looked at; more is nobody's


class _Kept(Protocol):
    """Rows by key; what differs between a database and memory."""

    def rows(self) -> dict[str, tuple[Person, str]]:
        """Key of the name → person and hash."""
        ...

    def put(self, key: str, person: Person, kept: str, change: PersonChange | None = None) -> None:
        """Write or overwrite a row, and keep what changed in one step; None: a hash made anew."""
        ...

    def changes(self) -> tuple[PersonChange, ...]:
        """What was kept of changes, oldest first."""
        ...


class _Rules:
    """What holds whatever keeps the rows."""

    def __init__(self, rows: _Kept) -> None:
        self._rows = rows
        self._writing = threading.Lock()

    def all(self) -> tuple[Person, ...]:
        """Everybody, by name; those who were removed too."""
        return tuple(person for _, (person, _) in sorted(self._rows.rows().items()))

    def get(self, name: str) -> Person | None:
        """The person of this name, active or not."""
        found = self._rows.rows().get(name_key(name))
        return found[0] if found else None

    def active(self, name: str) -> Person:
        """The person of this name who may sign in; NotFoundError where there is none."""
        return self._active(name)[1]

    def defined(self) -> bool:
        """True where anybody is active."""
        return any(person.active for person, _ in self._rows.rows().values())

    def history(self) -> tuple[PersonChange, ...]:
        """Every change, oldest first, with who made it and when."""
        return self._rows.changes()

    def add(self, name: str, role: Role, passphrase: str, *, by: str) -> Person:
        """A new person, or one who comes back; RefusedError where the name is taken."""
        person = Person(clean_name(name), role, active=True)
        check_passphrase(passphrase, person.name)
        key = name_key(person.name)
        with self._writing:
            known = self._rows.rows().get(key)
            if known and known[0].active:
                raise RefusedError(
                    "this person is there already",
                    where=known[0].name,
                    to_do="Use 'saywright people role' or 'saywright people passphrase' to change something",
                )
            change = _change("added", person, by)
            self._rows.put(key, person, hashing.HASHER.hash(passphrase), change)
        return person

    def set_role(self, name: str, role: Role, *, by: str) -> Person:
        """Another role from now on."""
        with self._writing:
            key, person, kept = self._active(name)
            changed = Person(person.name, role, active=True)
            self._rows.put(key, changed, kept, _change("role", changed, by))
        return changed

    def set_passphrase(self, name: str, passphrase: str, *, by: str) -> Person:
        """Another passphrase from now on."""
        with self._writing:
            key, person, _ = self._active(name)
            check_passphrase(passphrase, person.name)
            change = _change("passphrase", person, by)
            self._rows.put(key, person, hashing.HASHER.hash(passphrase), change)
        return person

    def remove(self, name: str, *, by: str) -> Person:
        """Let in no more; the hash goes, the name stays."""
        with self._writing:
            key, person, _ = self._active(name)
            gone = Person(person.name, person.role, active=False)
            self._rows.put(key, gone, "", _change("removed", gone, by))
        return gone

    def check(self, name: str, passphrase: str) -> Person | None:
        """The person whose passphrase this is; a hash made with old parameters is made anew."""
        key = name_key(name)
        person, kept = self._rows.rows().get(key, (None, ""))
        if not hashing.HASHER.fits(kept, passphrase[:_MAX_TRIED]) or person is None or not person.active:
            return None
        if hashing.HASHER.is_old(kept):
            fresh = hashing.HASHER.hash(passphrase)
            with self._writing:
                if self._rows.rows().get(key) == (person, kept):
                    self._rows.put(key, person, fresh)
        return person

    def _active(self, name: str) -> tuple[str, Person, str]:
        key = name_key(name)
        found = self._rows.rows().get(key)
        if found is None or not found[0].active:
            raise NotFoundError("no such person", where=name[:80], to_do="'saywright people list' lists them")
        return key, *found


class _Memory:
    """Rows that go away with the program."""

    def __init__(self) -> None:
        self._rows: dict[str, tuple[Person, str]] = {}
        self._changes: list[PersonChange] = []

    def rows(self) -> dict[str, tuple[Person, str]]:
        """Key of the name → person and hash."""
        return dict(self._rows)

    def put(self, key: str, person: Person, kept: str, change: PersonChange | None = None) -> None:
        """Write or overwrite a row."""
        self._rows[key] = (person, kept)
        if change is not None:
            self._changes.append(change)

    def changes(self) -> tuple[PersonChange, ...]:
        """What was kept of changes, oldest first."""
        return tuple(self._changes)


class _Table:
    """Rows of the table `person`."""

    def __init__(
        self,
        reading: Callable[[], AbstractContextManager[Connection]],
        writing: Callable[[], AbstractContextManager[Connection]],
    ) -> None:
        self._reading, self._transaction = reading, writing

    def rows(self) -> dict[str, tuple[Person, str]]:
        """Key of the name → person and hash."""
        with self._reading() as connection:
            found = connection.execute(select(PERSON)).mappings().all()
        return {
            row["key"]: (Person(row["name"], Role(row["role"]), bool(row["active"])), row["hash"])
            for row in found
        }

    def put(self, key: str, person: Person, kept: str, change: PersonChange | None = None) -> None:
        """Write or overwrite a row."""
        values = {"name": person.name, "role": person.role.value, "hash": kept, "active": int(person.active)}
        with self._transaction() as connection:
            done = connection.execute(update(PERSON).where(PERSON.c.key == key).values(**values))
            if not done.rowcount:
                connection.execute(insert(PERSON).values(key=key, **values))
            if change is not None:
                told = {"at": change.at.isoformat(), "actor": change.actor, "name": change.name}
                told |= {"change": change.change, "role": change.role.value}
                connection.execute(insert(PERSON_CHANGE).values(**told))

    def changes(self) -> tuple[PersonChange, ...]:
        """What was kept of changes, oldest first."""
        with self._reading() as connection:
            query = select(PERSON_CHANGE).order_by(PERSON_CHANGE.c.number)
            found = connection.execute(query).mappings().all()
        return tuple(
            PersonChange(
                datetime.fromisoformat(row["at"]), row["actor"], row["name"], row["change"], Role(row["role"])
            )
            for row in found
        )


def _change(change: Change, person: Person, by: str) -> PersonChange:
    return PersonChange(datetime.now(UTC), by, person.name, change, person.role)


def memory_people() -> People:
    """People that go away with the program."""
    return _Rules(_Memory())


def table_people(
    reading: Callable[[], AbstractContextManager[Connection]],
    writing: Callable[[], AbstractContextManager[Connection]],
) -> People:
    """The people in the database whose connections these give."""
    return _Rules(_Table(reading, writing))
