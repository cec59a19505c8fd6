"""People in a data folder: the same rules in SQLite and in memory."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest
from argon2 import PasswordHasher

from saywright.errors import InputError, NotFoundError, RefusedError, StoreError
from saywright.people import Person, Role
from saywright.store.eventlog import SqliteStore
from saywright.store.memory import MemoryStore
from saywright.store.passphrase import Hasher

TIDE = "low tide at seven"
SLIP = "the slip is wet"


@pytest.fixture(autouse=True)
def fast(monkeypatch):
    """Hashes of the least cost that argon2 allows, so that tests are quick."""
    hasher = Hasher(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
    monkeypatch.setattr("saywright.store.passphrase.HASHER", hasher)
    return hasher


@pytest.fixture(params=["sqlite", "memory"])
def people(request, tmp_path):
    """Nobody yet, in each kind of store."""
    store = SqliteStore(tmp_path) if request.param == "sqlite" else MemoryStore()
    yield store.people
    store.close()


def test_nobody_at_first(people):
    """A new folder knows nobody and asks for no sign-in."""
    assert () == people.all()
    assert not people.defined()
    assert people.get("Ada") is None
    assert people.check("Ada", TIDE) is None


def test_a_person_is_known_by_the_passphrase(people):
    """The name in any case with the right passphrase, and nothing else."""
    made = people.add(" Ada  Holm", Role.TECHNICIAN, TIDE, by="Kit")
    assert Person("Ada Holm", Role.TECHNICIAN, active=True) == made == people.check("ADA holm", TIDE)
    assert people.defined()
    for name, passphrase in (("Ada Holm", SLIP), ("Ada Holm", ""), ("Ben", TIDE), ("Ada Holm", TIDE + " ")):
        assert people.check(name, passphrase) is None
    assert people.check("Ada Holm", "x" * 5000) is None


def test_a_composed_letter_is_the_same_however_typed(people):
    """One keyboard sends ö, another o and a mark; both are the passphrase."""
    ada = people.add("Ada", Role.REVIEWER, "h\u00f6he der flut", by="Kit")
    assert ada == people.check("Ada", "ho\u0308he der flut")
    assert people.check("Ada", "hohe der flut") is None


def test_a_name_is_taken_once(people):
    """A second person of the same name is refused, whatever the case."""
    people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    with pytest.raises(RefusedError, match="there already"):
        people.add("ADA", Role.VIEWER, SLIP, by="Kit")
    assert 1 == len(people.all())


def test_role_and_passphrase_change(people):
    """The new ones count, the old ones do not."""
    people.add("Ada", Role.VIEWER, TIDE, by="Kit")
    people.set_role("ada", Role.REVIEWER, by="Kit")
    people.set_passphrase("ada", SLIP, by="Kit")
    assert Role.REVIEWER == people.check("Ada", SLIP).role
    assert people.check("Ada", TIDE) is None
    with pytest.raises(InputError, match="Passphrase"):
        people.set_passphrase("Ada", "short", by="Kit")


def test_who_was_removed_is_let_in_no_more(people):
    """The name stays listed, the passphrase opens nothing, and the person can come back."""
    people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    assert not people.remove("Ada", by="Kit").active
    assert people.check("Ada", TIDE) is None
    assert not people.defined()
    assert ["Ada"] == [person.name for person in people.all()]
    for change in (
        lambda: people.remove("Ada", by="Kit"),
        lambda: people.set_role("Ben", Role.VIEWER, by="Kit"),
    ):
        with pytest.raises(NotFoundError, match="no such person"):
            change()
    people.add("Ada", Role.VIEWER, SLIP, by="Kit")
    assert people.check("Ada", TIDE) is None
    assert Role.VIEWER == people.check("Ada", SLIP).role


def test_an_old_hash_is_made_anew(tmp_path, monkeypatch):
    """After the parameters change, the next sign-in leaves a hash with the new ones."""
    store = SqliteStore(tmp_path)
    store.people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    stronger = Hasher(PasswordHasher(time_cost=2, memory_cost=16, parallelism=1))
    monkeypatch.setattr("saywright.store.passphrase.HASHER", stronger)
    assert store.people.check("Ada", SLIP) is None
    assert "m=8,t=1,p=1" in kept(tmp_path)
    assert store.people.check("Ada", TIDE) is not None
    assert "m=16,t=2,p=1" in kept(tmp_path)
    assert store.people.check("Ada", TIDE) is not None
    store.close()


def kept(folder):
    """The hash in the file."""
    with closing(sqlite3.connect(folder / "log.sqlite3")) as connection:
        return connection.execute("SELECT hash FROM person").fetchone()[0]


def test_the_file_holds_no_passphrase(tmp_path):
    """Only an argon2id hash, and none once the person was removed."""
    store = SqliteStore(tmp_path)
    store.people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    assert kept(tmp_path).startswith("$argon2id$")
    store.people.remove("Ada", by="Kit")
    assert "" == kept(tmp_path)
    store.close()
    assert TIDE.encode() not in b"".join(path.read_bytes() for path in tmp_path.glob("log*"))


def test_the_parameters_are_those_of_rfc_9106():
    """RFC 9106, section 4, second recommended option: t=3, m=2^16 KiB, p=4, 128-bit salt, 256-bit tag."""
    made = Hasher().argon2
    found = (made.time_cost, made.memory_cost, made.parallelism, made.salt_len, made.hash_len)
    assert (3, 2**16, 4, 16, 32) == found


def test_people_come_to_a_log_of_the_first_version(tmp_path):
    """A folder from before there were people keeps its log and gains the table."""
    store = SqliteStore(tmp_path)
    store.close()
    with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
        connection.execute("DROP TABLE person")
        connection.execute("DROP TABLE person_change")
        connection.execute("DELETE FROM schema_version WHERE version > 1")
        connection.commit()
    store = SqliteStore(tmp_path)
    assert "Ada" == store.people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit").name
    store.close()


def test_a_damaged_hash_lets_nobody_in(tmp_path):
    """What is no hash fits no passphrase, and an unknown role is refused by the database."""
    store = SqliteStore(tmp_path)
    store.people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
        connection.execute("UPDATE person SET hash = 'nonsense'")
        connection.commit()
        with pytest.raises(sqlite3.IntegrityError):
            connection.execute("UPDATE person SET role = 'harbour master'")
    assert store.people.check("Ada", TIDE) is None
    store.close()


def test_a_log_that_cannot_be_read_is_told(tmp_path):
    """A broken table is one line, no traceback."""
    store = SqliteStore(tmp_path)
    with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
        connection.execute("DROP TABLE person")
        connection.commit()
    with pytest.raises(StoreError, match="cannot be used"):
        store.people.all()
    store.close()


def test_every_change_is_kept(people):
    """Who was added, given another role or passphrase, or removed: in order, by whom, at a time in UTC."""
    people.add("Ada Holm", Role.TECHNICIAN, TIDE, by="Kit")
    people.set_role("ada holm", Role.VIEWER, by="Bo")
    people.set_passphrase("Ada Holm", SLIP, by="Ada Holm")
    people.remove("Ada Holm", by="Bo")
    with pytest.raises(NotFoundError):
        people.remove("Ada Holm", by="Bo")
    expected = [
        ("Kit", "Ada Holm", "added", Role.TECHNICIAN),
        ("Bo", "Ada Holm", "role", Role.VIEWER),
        ("Ada Holm", "Ada Holm", "passphrase", Role.VIEWER),
        ("Bo", "Ada Holm", "removed", Role.VIEWER),
    ]
    assert expected == [(one.actor, one.name, one.change, one.role) for one in people.history()]
    assert all(one.at.utcoffset() == timedelta(0) for one in people.history())


def test_the_history_cannot_be_changed(tmp_path):
    """The database refuses to alter or drop a line of it, whatever program asks."""
    store = SqliteStore(tmp_path)
    store.people.add("Ada", Role.TECHNICIAN, TIDE, by="Kit")
    store.close()
    with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as database:
        for statement in ("UPDATE person_change SET actor = 'Bo'", "DELETE FROM person_change"):
            with pytest.raises(sqlite3.IntegrityError, match="never changed"):
                database.execute(statement)
