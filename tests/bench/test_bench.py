"""A job from opening to export, typed and without audio."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from saywright.bench import Bench
from saywright.errors import ModelError, NotFoundError, RefusedError, StaleError
from saywright.hearing.words import typed
from saywright.record.chain import verify
from saywright.record.events import Heard, Understood
from saywright.record.types import json_schema
from saywright.sheets.model import Sheet
from saywright.store.eventlog import SqliteStore
from saywright.store.memory import MemoryStore
from saywright.wiring import understanding

from .conftest import Clock

HEIGHT = "float height is eighteen point four two"


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock) -> Bench:
    """A new job."""
    return Bench.open(store, sheet, clock=clock, serial="H-7", actor="Ada")


class TestJob:
    """Opening and going on."""

    def test_ids_are_the_day_and_a_number(self, store: MemoryStore, sheet: Sheet, clock: Clock) -> None:
        """Two jobs of a day get different ids."""
        ids = [Bench.open(store, sheet, clock=clock).job_id for _ in range(2)]
        assert ["20260301-1", "20260301-2"] == ids

    def test_resumed_as_it_was(self, bench: Bench, store: MemoryStore, clock: Clock) -> None:
        """A job read again gives the same record, and statement numbers go on."""
        bench.say(HEIGHT)
        again = Bench.resume(store, bench.job_id, clock=clock)
        assert bench.record() == again.record()
        again.say("float height is eighteen point five zero")
        ids = [reading.id for reading in again.record().readings]
        assert len(set(ids)) == len(ids) == 2

    def test_an_unknown_job(self, store: MemoryStore, clock: Clock) -> None:
        """A job that is not there is one line."""
        with pytest.raises(NotFoundError, match="20990101-1: no such job"):
            Bench.resume(store, "20990101-1", clock=clock)

    def test_two_benches_on_one_job(self, bench: Bench, store: MemoryStore, clock: Clock) -> None:
        """What one says the other sees, and both go on without clashing numbers."""
        other = Bench.resume(store, bench.job_id, clock=clock, actor="Bo")
        for number in range(3):
            bench.say(f"float height is eighteen point four {('one', 'two', 'three')[number]}")
            other.say("strainer is clean")
        assert bench.record() == other.record()
        assert 3 == len(bench.record().readings)
        verify(bench.events())

    def test_no_ears(self, bench: Bench, audio: Path) -> None:
        """Audio without a listener is refused in one line."""
        with pytest.raises(ModelError, match="this bench has no listener"):
            bench.hear_file(audio)


class TestSaying:
    """Typed words."""

    def test_heard_then_understood(self, bench: Bench) -> None:
        """Each utterance is two events, the second naming the first."""
        statements = bench.say(HEIGHT)
        heard, understood = bench.events()[-2:]
        assert Heard(utterance=typed(HEIGHT)) == heard.payload
        assert Understood(heard=heard.seq, statements=statements) == understood.payload
        assert ("Ada", "saywright") == (heard.actor, understood.actor)

    def test_a_reading_is_judged(self, bench: Bench) -> None:
        """The value keeps its digits and is decided against the sheet."""
        bench.say(HEIGHT)
        (reading,) = bench.record().readings
        assert ("float", "height", "18.42", "mm") == (
            reading.component,
            reading.characteristic,
            reading.value,
            reading.unit,
        )
        assert "no_limit" != reading.decision

    def test_what_was_heard_is_understood_after_a_crash(
        self, bench: Bench, store: MemoryStore, clock: Clock
    ) -> None:
        """An utterance that was committed just before a crash is understood when work goes on."""
        last = bench.events()[-1].seq
        heard = Heard(utterance=typed(HEIGHT))
        store.append(bench.job_id, [heard], at=clock(), actor="saywright", after_seq=last)
        again = Bench.resume(store, bench.job_id, clock=clock)
        again.say("strainer is clean")
        assert ["18.42"] == [reading.value for reading in again.record().readings]

    def test_a_fault_in_understanding_loses_nothing(
        self, bench: Bench, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """If the program fails on some words they wait for a person, and the next ones are understood."""
        real = understanding.understand

        def faulty(utterance, *args, **kwargs):  # type: ignore[no-untyped-def]
            if "grit" in utterance.best.text:
                raise ZeroDivisionError("oops")
            return real(utterance, *args, **kwargs)

        monkeypatch.setattr(understanding, "understand", faulty)
        bench.say("grit everywhere")
        bench.say(HEIGHT)
        record = bench.record()
        assert ["grit everywhere"] == [unclear.heard for unclear in record.unclear]
        assert any(item.kind == "unclear" for item in record.open_items)
        assert ["18.42"] == [reading.value for reading in record.readings]

    def test_a_text_file(self, bench: Bench, tmp_path: Path) -> None:
        """One utterance a line, with a time where one is given."""
        path = tmp_path / "notes.txt"
        path.write_text(f"[04:12.6] {HEIGHT}\nstrainer is clean\n")
        bench.say_file(path)
        (reading,) = bench.record().readings
        assert (252.6, 1) == (reading.start_s, reading.line)


class TestPeople:
    """Corrections, acceptance, withdrawal, signature."""

    def test_a_correction_is_an_event_in_the_persons_name(self, bench: Bench) -> None:
        """The corrected value stands, with the person behind it."""
        bench.say(HEIGHT)
        item = bench.record().readings[0]
        event = bench.correct(item.id, {"value": "18.24"}, why="misread", actor="Bo", seen=item.event)
        (reading,) = bench.record().readings
        assert ("18.24", "Bo", event.seq) == (reading.value, reading.accepted_by, reading.event)

    @pytest.mark.parametrize("again", [False, True])
    def test_a_correction_is_known_to_what_is_said_later(
        self, bench: Bench, store: MemoryStore, clock: Clock, again: bool
    ) -> None:
        """ "Back where it was" brings back the corrected value, now and after the job was read again."""
        bench.say("air screw is one and a half turns out")
        item = bench.record().readings[0]
        bench.correct(item.id, {"value": "2.5"}, why="played the clip", actor="Bo")
        later = Bench.resume(store, bench.job_id, clock=clock) if again else bench
        later.say("okay we are going back together now")
        later.say("air screw is back where it was")
        assert [("as_found", "2.5"), ("as_left", "2.5")] == [
            (reading.stage, reading.value) for reading in later.record().readings
        ]

    def test_a_stale_page_is_refused(self, bench: Bench) -> None:
        """Whoever decides on an item that changed in between is told so."""
        bench.say(HEIGHT)
        item = bench.record().readings[0]
        bench.correct(item.id, {"value": "18.24"}, why="", actor="Bo", seen=item.event)
        for decide in (
            lambda: bench.accept(item.id, actor="Cy", seen=item.event),
            lambda: bench.withdraw(item.id, why="", actor="Cy", seen=item.event),
            lambda: bench.correct(item.id, {"value": "1"}, why="", actor="Cy", seen=item.event),
        ):
            with pytest.raises(StaleError) as error:
                decide()
            assert (
                f"{item.id}: the item was changed by event 4 after you read it (you saw event 3). "
                "Read it again, then decide" == str(error.value)
            )

    def test_a_refused_correction_leaves_no_event(self, bench: Bench) -> None:
        """A value that cannot stand is refused before anything is committed."""
        bench.say(HEIGHT)
        before = bench.events()
        with pytest.raises(RefusedError):
            bench.correct(bench.record().readings[0].id, {"value": "eighteen"}, why="", actor="Bo")
        assert before == bench.events()

    def test_nobody_is_no_person(self, bench: Bench) -> None:
        """An event needs a name."""
        bench.say(HEIGHT)
        with pytest.raises(RefusedError, match="no name was given"):
            bench.accept(bench.record().readings[0].id, actor=" ")

    def test_signing_waits_for_what_is_open(self, bench: Bench) -> None:
        """What asks is named in the refusal; explained, it lets the signature through."""
        bench.say("float height is about eighteen")
        still = bench.record().open_items
        assert still
        with pytest.raises(RefusedError) as error:
            bench.sign(actor="Ada", statement="Done")
        assert still[0].id in str(error.value)
        for item in still:
            bench.explain(item.id, "known and harmless", actor="Ada")
        last = bench.events()[-1].hash
        signed = bench.sign(actor="Ada", statement="Done")
        assert ("Ada", last, signed) == (signed.by, signed.record_hash, bench.record().sign_off)

    def test_only_open_items_can_be_explained(self, bench: Bench) -> None:
        """An explanation of nothing is refused."""
        with pytest.raises(NotFoundError, match="no such open item"):
            bench.explain("ask:s99", "why", actor="Ada")

    def test_a_word_after_the_signature_takes_it_away(self, bench: Bench) -> None:
        """A signed record that changes is no longer signed."""
        bench.sign(actor="Ada", statement="Done")
        bench.say("strainer is clean")
        assert bench.record().sign_off is None


class TestOut:
    """Exports and report."""

    def test_json_is_valid_against_the_schema(self, bench: Bench) -> None:
        """The exported JSON is the record and fits its own schema."""
        bench.say(HEIGHT)
        data = json.loads(bench.export("json"))
        jsonschema.validate(data, json_schema())
        assert bench.record().as_json() == data

    def test_an_unknown_format(self, bench: Bench) -> None:
        """A format nobody knows is one line with those that are known."""
        with pytest.raises(RefusedError, match="no export format 'docx'"):
            bench.export("docx")
        with pytest.raises(RefusedError, match="no report format 'docx'"):
            bench.report(["docx"])

    def test_a_report_is_kept_and_named(self, bench: Bench, store: MemoryStore) -> None:
        """The report's bytes are in the media store under the hash of its event, and a signature holds."""
        bench.sign(actor="Ada", statement="Done")
        made = bench.report(["html"])["html"]
        payload = bench.events()[-1].payload
        assert "reported" == payload.kind
        assert made == store.media.read(payload.sha256)
        assert bench.record().sign_off is not None


def test_a_whole_job_survives_its_process(tmp_path: Path, sheet: Sheet, clock: Clock) -> None:
    """Written by one store object and read by another: the same record, and a chain that verifies."""
    first = SqliteStore(tmp_path)
    bench = Bench.open(first, sheet, clock=clock)
    bench.say(HEIGHT)
    record = bench.record()
    first.close()
    second = SqliteStore(tmp_path)
    again = Bench.resume(second, bench.job_id, clock=clock)
    assert (record, record.record_hash) == (again.record(), again.verify())
    second.close()
