"""What every store must do; the SQLite store and the one in memory run through the same tests."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from saywright.errors import InputError, NotFoundError, StaleError
from saywright.hearing.words import typed
from saywright.record.chain import verify
from saywright.record.events import AudioAdded, Heard, JobDescribed, JobOpened
from saywright.sheets.model import Sheet
from saywright.store.eventlog import SqliteStore
from saywright.store.memory import MemoryStore
from saywright.store.protocol import Store

AT = datetime(2026, 3, 1, 9, 30, 0, 250_000, tzinfo=UTC)
OPENED = JobOpened(
    job="j1", title="Motor of the harbour launch", sheet=Sheet(id="s", title="S"), serial="H-7"
)


@pytest.fixture(params=["sqlite", "memory"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """One store of each kind, empty."""
    made: Store = SqliteStore(tmp_path / "data") if request.param == "sqlite" else MemoryStore()
    yield made
    made.close()


def heard(text: str) -> Heard:
    return Heard(utterance=typed(text))


class TestEvents:
    """The log of events."""

    def test_gives_back_what_was_appended(self, store: Store) -> None:
        """Events come back equal and in order, with a chain that verifies."""
        made = store.append("j1", [OPENED, heard("float height")], at=AT, actor="saywright", after_seq=0)
        assert [1, 2] == [event.seq for event in made]
        assert made == store.events("j1")
        assert made[-1].hash == store.verify("j1") == verify(store.events("j1"))

    def test_later_events_only(self, store: Store) -> None:
        """A reader that knows the first events gets the ones after them."""
        store.append("j1", [OPENED], at=AT, actor="saywright", after_seq=0)
        later = store.append("j1", [heard("one"), heard("two")], at=AT, actor="saywright", after_seq=1)
        assert later == store.events("j1", after_seq=1)
        assert () == store.events("j1", after_seq=3)

    def test_a_stale_writer_is_refused(self, store: Store) -> None:
        """Who has not read the newest event cannot append, and nothing of it is kept."""
        store.append("j1", [OPENED, heard("one")], at=AT, actor="saywright", after_seq=0)
        with pytest.raises(StaleError) as error:
            store.append("j1", [heard("two")], at=AT, actor="saywright", after_seq=1)
        assert (
            "job j1: the record has gone on to event 2 since event 1 was read. Read it again and repeat"
            == str(error.value)
        )
        assert 2 == len(store.events("j1"))

    def test_a_job_is_opened_once(self, store: Store) -> None:
        """A second opening under the same id is refused."""
        store.append("j1", [OPENED], at=AT, actor="saywright", after_seq=0)
        with pytest.raises(StaleError):
            store.append("j1", [OPENED], at=AT, actor="saywright", after_seq=0)

    def test_an_unknown_job_is_named(self, store: Store) -> None:
        """Reading, verifying or going on with a job that is not there says so."""
        for call in (
            lambda: store.events("j9"),
            lambda: store.verify("j9"),
            lambda: store.append("j9", [heard("one")], at=AT, actor="saywright", after_seq=4),
        ):
            with pytest.raises(NotFoundError) as error:
                call()
            assert "j9: no such job. 'saywright jobs' lists them" == str(error.value)

    def test_time_is_kept_in_utc(self, store: Store) -> None:
        """A time with another offset is stored as the same moment in UTC."""
        local = AT.astimezone(timezone(timedelta(hours=2)))
        event = store.append("j1", [OPENED], at=local, actor="saywright", after_seq=0)[0]
        assert AT.isoformat() == event.at.isoformat() == store.events("j1")[0].at.isoformat()

    def test_jobs_are_listed_as_described(self, store: Store) -> None:
        """The list shows the newest description and keeps what it left alone."""
        store.append("j1", [OPENED], at=AT, actor="saywright", after_seq=0)
        store.append("j1", [JobDescribed(customer="Harbour office")], at=AT, actor="Ada", after_seq=1)
        early = OPENED.model_copy(update={"job": "j0"})
        store.append("j0", [early], at=AT - timedelta(days=1), actor="saywright", after_seq=0)
        first, second = store.jobs()
        assert ("j0", "j1") == (first.id, second.id)
        assert ("H-7", "Harbour office", 2) == (second.serial, second.customer, second.events)

    def test_a_job_tells_what_was_not_heard_out(self, store: Store) -> None:
        """A recording counts until it is told with its length; a live one in progress was not cut off."""
        first = AudioAdded(sha256="a" * 64, name="one.wav")
        live = AudioAdded(sha256="b" * 64, recording="b" * 64, name="microphone")
        store.append("j1", [OPENED, first, live], at=AT, actor="saywright", after_seq=0)
        assert [1] == [row.unheard for row in store.jobs()]
        cut = live.model_copy(update={"sha256": "c" * 64})
        store.append("j1", [cut], at=AT, actor="saywright", after_seq=3)
        assert [2] == [row.unheard for row in store.jobs()]
        ended = [one.model_copy(update={"duration_s": 9.0}) for one in (first, cut)]
        store.append("j1", ended, at=AT, actor="saywright", after_seq=4)
        assert [0] == [row.unheard for row in store.jobs()]


class TestMedia:
    """Files named by their content."""

    def test_named_by_content(self, store: Store, tmp_path: Path) -> None:
        """The name is the SHA-256, and the bytes come back."""
        (tmp_path / "a.bin").write_bytes(b"brass")
        name = store.media.put_file(tmp_path / "a.bin")
        assert hashlib.sha256(b"brass").hexdigest() == name == store.media.put_bytes(b"brass")
        assert b"brass" == store.media.read(name)

    def test_nothing_half_written_stays(self, store: Store) -> None:
        """After a put only the file itself is there."""
        place = store.media.path(store.media.put_bytes(b"jet"))
        assert [place] == [found for found in place.parent.parent.rglob("*") if found.is_file()]

    def test_unknown_content(self, store: Store) -> None:
        """A hash nobody stored, or a path in its place, is not found."""
        for name in ("0" * 64, "../../etc/passwd"):
            with pytest.raises(NotFoundError):
                store.media.path(name)

    def test_unreadable_file(self, store: Store, tmp_path: Path) -> None:
        """A file that is not there is told with its name."""
        with pytest.raises(InputError, match=r"gone\.wav: cannot be read"):
            store.media.put_file(tmp_path / "gone.wav")

    def test_a_recording_goes_through(self, store: Store) -> None:
        """Samples written come out as a WAV file of their length, and the journal goes when told to."""
        key = "a" * 64
        journal = store.media.start_journal("j1", key, rate_hz=8000)
        journal.write(b"\x01\x00" * 12_000)
        assert 44 + 24_000 == len(store.media.journal_wav(key) or b"")
        assert () == store.media.adopt_journals("j1")
        sha256, duration_s = journal.finish()
        assert 1.5 == duration_s
        assert b"\x01\x00" * 12_000 == store.media.read(sha256)[44:]
        store.media.drop_journal(key)
        assert store.media.journal_wav(key) is None
