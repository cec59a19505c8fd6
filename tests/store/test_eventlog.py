"""The SQLite log: crashes, two writers, altered files, full disks, older and newer versions."""

from __future__ import annotations

import json
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import create_engine, inspect

from saywright.errors import ChainError, DiskFullError, StaleError, StoreError
from saywright.hearing.words import typed
from saywright.record.chain import content_hash
from saywright.record.events import AudioAdded, Heard, JobOpened
from saywright.sheets.model import Sheet
from saywright.store.eventlog import SqliteStore
from saywright.store.schema import METADATA, MIGRATIONS

AT = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
OPENED = JobOpened(job="j1", title="Launch motor", sheet=Sheet(id="s", title="S"))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqliteStore]:
    """A store with one job and three events."""
    made = SqliteStore(tmp_path)
    payloads = [OPENED, Heard(utterance=typed("one")), Heard(utterance=typed("two"))]
    made.append("j1", payloads, at=AT, actor="saywright", after_seq=0)
    yield made
    made.close()


def meddle(folder: Path, *statements: str) -> None:
    """Change the file behind the store's back, with its guards taken off."""
    with closing(sqlite3.connect(folder / "log.sqlite3")) as connection:
        for name in ("event_no_update", "event_no_delete"):
            connection.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            connection.execute(statement)
        connection.commit()


CHILD = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from saywright.hearing.words import typed
from saywright.record.chain import content_hash
from saywright.record.events import Heard
from saywright.store.eventlog import SqliteStore
store = SqliteStore(Path(sys.argv[1]))
seq = store.events("j1")[-1].seq
while True:
    pair = [Heard(utterance=typed(f"number {seq + 1}")), Heard(utterance=typed(f"number {seq + 2}"))]
    seq = store.append("j1", pair, at=datetime.now(UTC), actor="child", after_seq=seq)[-1].seq
    print(seq, flush=True)
"""


class TestCrash:
    """A process killed in the middle of its work."""

    def test_no_committed_event_is_lost(self, store: SqliteStore, tmp_path: Path) -> None:
        """After kill -9 while appending, all that was reported as committed is there, whole."""
        for _ in range(3):
            child = subprocess.Popen([sys.executable, "-c", CHILD, str(tmp_path)], stdout=subprocess.PIPE)
            assert child.stdout is not None
            with child.stdout as told:
                lines = [told.readline() for _ in range(15)]
                child.send_signal(signal.SIGKILL)
                lines += told.readlines()
            child.wait()
            committed = int([line for line in lines if line.endswith(b"\n")][-1])
            kept = store.events("j1")
            assert committed <= kept[-1].seq <= committed + 2
            assert 1 == kept[-1].seq % 2, "a transaction of two events was torn"
            assert kept[-1].hash == store.verify("j1")

    def test_two_writers(self, store: SqliteStore, tmp_path: Path) -> None:
        """Two writers at once: each event lands once, the loser is told to read again, the chain holds."""

        def write(name: str) -> None:
            own = SqliteStore(tmp_path)
            for number in range(20):
                while True:
                    last = own.events("j1")[-1].seq
                    try:
                        note = Heard(utterance=typed(f"{name} {number}"))
                        own.append("j1", [note], at=AT, actor=name, after_seq=last)
                        break
                    except StaleError:
                        time.sleep(0.001)
            own.close()

        writers = [threading.Thread(target=write, args=(name,)) for name in ("port", "starboard")]
        for writer in writers:
            writer.start()
        for writer in writers:
            writer.join()
        words = [e.payload.utterance.best.text for e in store.events("j1") if isinstance(e.payload, Heard)]
        assert 2 + 40 == len(words) == len(set(words))
        store.verify("j1")


class TestAltered:
    """A log that somebody changed."""

    def test_events_cannot_be_changed(self, store: SqliteStore, tmp_path: Path) -> None:
        """Update and delete are refused by the database itself."""
        with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
            for statement in ("UPDATE event SET actor = 'x'", "DELETE FROM event", "DELETE FROM job"):
                with pytest.raises(sqlite3.IntegrityError, match="appended, never changed"):
                    connection.execute(statement)

    def test_an_altered_payload_is_found(self, store: SqliteStore, tmp_path: Path) -> None:
        """A word changed in the file is found, and the event is named."""
        meddle(tmp_path, "UPDATE event SET payload = replace(payload, 'one', 'ten') WHERE seq = 2")
        with pytest.raises(ChainError) as error:
            store.verify("j1")
        where = f"{tmp_path / 'log.sqlite3'}, job j1"
        assert f"{where}: event 2 was altered. Restore the log from a backup" == str(error.value)

    def test_a_missing_event_is_found(self, store: SqliteStore, tmp_path: Path) -> None:
        """An event taken out of the middle is found."""
        meddle(tmp_path, "DELETE FROM event WHERE seq = 2")
        with pytest.raises(ChainError, match="event 2 is missing"):
            store.verify("j1")

    def test_a_broken_payload_is_told(self, store: SqliteStore, tmp_path: Path) -> None:
        """A payload that is no longer JSON is one line, not a traceback."""
        meddle(tmp_path, "UPDATE event SET payload = '{' WHERE seq = 3")
        with pytest.raises(ChainError, match="event 3 of job j1 cannot be read"):
            store.events("j1")
        with pytest.raises(ChainError, match="event 3 was altered"):
            store.verify("j1")

    def test_not_a_database(self, tmp_path: Path) -> None:
        """Another file under the log's name is told, and left alone."""
        (tmp_path / "log.sqlite3").write_text("this is a shopping list " * 50)
        with pytest.raises(StoreError, match="file is not a database"):
            SqliteStore(tmp_path)
        assert (tmp_path / "log.sqlite3").read_text().startswith("this is a shopping list")


class TestFullDisk:
    """No room left."""

    def test_loses_nothing(self, store: SqliteStore) -> None:
        """A full database gives one line, keeps what was there, and goes on when there is room."""
        with store._engine.connect() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
            connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
        long = [Heard(utterance=typed("grit " * 5000))]
        with pytest.raises(DiskFullError) as error:
            store.append("j1", long, at=AT, actor="saywright", after_seq=3)
        assert "the disk is full. Free some space and repeat; everything committed before is kept" in str(
            error.value
        )
        assert 3 == store.events("j1")[-1].seq
        with store._engine.connect() as connection:
            connection.exec_driver_sql("PRAGMA max_page_count = 100000")
        store.append("j1", long, at=AT, actor="saywright", after_seq=3)
        store.verify("j1")


class TestVersions:
    """The shape of the database over time."""

    def test_a_newer_log_is_refused(self, store: SqliteStore, tmp_path: Path) -> None:
        """A log of a later program is not touched."""
        with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
            connection.execute("INSERT INTO schema_version VALUES (99, '2030-01-01')")
            connection.commit()
        with pytest.raises(StoreError) as error:
            SqliteStore(tmp_path)
        assert (
            f"{tmp_path / 'log.sqlite3'}: "
            f"the log has version 99, this program knows up to {len(MIGRATIONS)}. "
            "Install the newer Saywright that wrote it" == str(error.value)
        )

    def test_migrations_make_the_tables_the_code_uses(self, store: SqliteStore, tmp_path: Path) -> None:
        """Columns made by the migrations are those of the Core tables."""
        engine = create_engine(f"sqlite:///{tmp_path / 'log.sqlite3'}")
        found = inspect(engine)
        made = {
            name: [column["name"] for column in found.get_columns(name)] for name in found.get_table_names()
        }
        engine.dispose()
        assert {name: list(table.columns.keys()) for name, table in METADATA.tables.items()} == made

    def test_settings_that_keep_data_safe(self, store: SqliteStore) -> None:
        """Write-ahead log, full sync and foreign keys are on."""
        with store._engine.connect() as connection:
            asked = ("journal_mode", "synchronous", "foreign_keys")
            told = [connection.exec_driver_sql(f"PRAGMA {name}").scalar_one() for name in asked]
        assert ["wal", 2, 1] == told

    def test_an_older_payload_still_verifies(self, store: SqliteStore, tmp_path: Path) -> None:
        """The chain is over the stored text, so an event written before its payload gained a field holds."""
        payload = {"kind": "audio_added", "sha256": "c" * 64, "name": "a.wav"}
        last = store.events("j1")[-1].hash
        made = content_hash(4, AT.isoformat(), "saywright", payload, last)
        row = ("j1", 4, AT.isoformat(), "saywright", "audio_added", json.dumps(payload), last, made)
        with closing(sqlite3.connect(tmp_path / "log.sqlite3")) as connection:
            connection.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)
            connection.commit()
        assert made == store.verify("j1")
        assert AudioAdded(sha256="c" * 64, name="a.wav") == store.events("j1")[-1].payload

    def test_a_folder_that_cannot_be_made(self, tmp_path: Path) -> None:
        """A data folder below a file is one line."""
        (tmp_path / "file").write_text("x")
        with pytest.raises(StoreError, match="the data folder cannot be made"):
            SqliteStore(tmp_path / "file" / "data")


def test_reads_while_another_process_writes(store: SqliteStore) -> None:
    """A reader is not blocked by an open write transaction and sees the last commit."""
    with store._transaction():
        assert 3 == store.events("j1")[-1].seq
