"""The record is what the events say, and nothing said is lost."""

from __future__ import annotations

from typing import Any

import pytest

from record_support import mark, reading
from saywright.errors import ChainError, RefusedError, StaleError
from saywright.flags import FlagKind, flag
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import Folder, fold
from saywright.understanding import statements as said


class TestUnderstood:
    def test_keeps_digits_and_fills_the_sheet_unit(self, log) -> None:
        """A reading keeps its trailing zero, and one in thou is told exactly in millimetres."""
        log.say(reading(), reading("s2", value="4", unit="thou", unit_said="thou"))
        first, second = log.record().readings
        assert ("18.40", "18.40", 2) == (first.value, first.in_sheet_unit, first.event)
        assert "0.1016" == second.in_sheet_unit

    def test_every_kind_becomes_an_item(self, log) -> None:
        """Each statement kind has its list in the record, and none is lost."""
        common: dict[str, Any] = {"stage": "as_found", "heard": "…"}
        log.say(
            reading("s1"),
            said.ConditionNote(id="s2", component="float", condition="scored", **common),
            said.ActionNote(id="s3", component="float", action="clean", status="done", **common),
            said.Movement(id="s4", component="float", count=1, movement="removed", **common),
            said.Identifier(id="s5", identifier="stamp", component="main_jet", value="128", **common),
            said.PhotoMark(id="s6", **common),
            said.Remark(id="s7", **common),
            said.Unclear(id="s8", **common),
        )
        record = log.record()
        lists = (
            record.readings,
            record.conditions,
            record.actions,
            record.movements,
            record.identifiers,
            record.photos,
            record.remarks,
            record.unclear,
        )
        assert [[f"s{n}"] for n in range(1, 9)] == [[item.id for item in items] for items in lists]

    def test_refuses_a_second_use_of_an_id(self, log) -> None:
        """An id used twice would hide an item; it is refused and nothing of the event is kept."""
        log.say(reading("s1"))
        event = link(
            ev.Understood(heard=None, statements=(reading("s2"), reading("s1"))),
            at=log.events[-1].at,
            actor="saywright",
            after=log.events[-1],
        )
        folder = Folder()
        for earlier in log.events:
            folder.apply(earlier)
        with pytest.raises(RefusedError, match=r"the id 's1' is already in the record"):
            folder.apply(event)
        assert ["s1"] == [r.id for r in folder.record().readings]

    def test_serial_read_out_names_the_job(self, log) -> None:
        """A serial number without a part is the job's, unless it is partial or still asks."""
        common: dict[str, Any] = {"stage": "as_found", "heard": "…", "identifier": "serial"}
        asks = (flag(FlagKind.POORLY_HEARD),)
        log.say(
            said.Identifier(id="s1", value="K 114", **common),
            said.Identifier(id="s2", value="14", partial=True, **common),
            said.Identifier(id="s3", value="K 140", flags=asks, **common),
        )
        assert "K 114" == log.record().job.serial
        log.add(ev.ItemAccepted(item="s3"), actor="Ines")
        assert "K 140" == log.record().job.serial
        log.add(ev.JobDescribed(serial="K-999", customer="Harbour office"), actor="Ines")
        assert ("K-999", "Harbour office") == (log.record().job.serial, log.record().job.customer)


class TestCorrectionSpoken:
    def test_replaces_and_keeps_its_words(self, log) -> None:
        """The old reading stays with its successor named; the words of the correction stay as a remark."""
        correction = said.Correction(
            id="s3", stage="as_found", heard="no make that", supersedes=("s1",), by="s2"
        )
        log.say(reading("s1"))
        log.say(correction, reading("s2", value="18.60"))
        record = log.record()
        assert ["s2", None] == [r.superseded_by for r in record.readings]
        assert ("no make that", "corrects s1") == (record.remarks[0].heard, record.remarks[0].reason)

    def test_without_successor_names_itself(self, log) -> None:
        """ "Scratch that" leaves no successor; the correction itself is named."""
        log.say(reading("s1"))
        log.say(said.Correction(id="s2", stage="as_found", heard="scratch that", supersedes=("s1",)))
        assert "s2" == log.record().readings[0].superseded_by

    def test_of_an_unknown_item_asks(self, log) -> None:
        """A correction of something not on record asks; it is not dropped."""
        log.say(said.Correction(id="s2", stage="as_found", heard="no", supersedes=("s9",)))
        assert [FlagKind.CORRECTION_UNCLEAR] == [f.kind for f in log.record().remarks[0].flags]


class TestSigning:
    def sign(self, log) -> None:
        """Sign the record as it stands."""
        log.add(ev.Signed(record_hash=log.events[-1].hash, statement="Done"), "Ines")

    def test_a_report_does_not_break_it(self, log) -> None:
        """Making a report leaves the signature; a change takes it away."""
        log.say(reading("s1"))
        self.sign(log)
        log.add(ev.Reported(sha256="0" * 64, format="pdf"))
        signed = log.record().sign_off
        assert ("Ines", log.events[1].hash, "Done") == (signed.by, signed.record_hash, signed.statement)
        log.add(ev.ItemAccepted(item="s1"), "Ines")
        assert log.record().sign_off is None

    def test_of_an_older_record_is_refused(self, log) -> None:
        """Nobody signs what they have not seen."""
        seen = log.events[-1].hash
        log.say(reading("s1"))
        log.add(ev.Signed(record_hash=seen), "Ines")
        with pytest.raises(StaleError) as stale:
            log.record()
        assert "the record changed before it was signed. Read it again, then sign" == str(stale.value)


class TestExplained:
    def test_kept_for_judging(self, log) -> None:
        """The explanation is in the record, with the id and kind of the open item."""
        log.add(ev.OpenItemExplained(open_item="off:float", why="ordered, fitted next week"), "Ines")
        item = log.record().open_items[0]
        assert ("off:float", "off", "ordered, fitted next week") == (item.id, item.kind, item.explained)

    @pytest.mark.parametrize(
        ("open_item", "why", "message"),
        [
            ("float", "x", "'float' is no open item. Take the id from the list of open items"),
            ("off:float", " ", "off:float: no reason was given. Say why it may stay open"),
        ],
    )
    def test_refused(self, log, open_item: str, why: str, message: str) -> None:
        """An unknown kind or an empty reason is refused."""
        log.add(ev.OpenItemExplained(open_item=open_item, why=why), "Ines")
        with pytest.raises(RefusedError) as refused:
            log.record()
        assert message == str(refused.value)


class TestFolder:
    def test_step_by_step_equals_the_whole(self, log) -> None:
        """Following live gives the same record as folding from the start."""
        log.say(mark("s1"), reading("s2"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        folder = Folder()
        for number, event in enumerate(log.events, start=1):
            folder.apply(event)
            assert fold(log.events[:number]) == folder.record()

    def test_check_changes_nothing(self, log) -> None:
        """Asking whether an event may be applied leaves the record as it was."""
        log.say(reading("s1"))
        folder = Folder()
        for event in log.events:
            folder.apply(event)
        before = folder.record()
        payload = ev.ItemWithdrawn(item="s1")
        folder.check(link(payload, at=log.events[-1].at, actor="Ines", after=log.events[-1]))
        assert before == folder.record()

    def test_a_log_begins_with_its_job(self, log) -> None:
        """Anything before the opening, or a second opening, is a damaged log."""
        with pytest.raises(ChainError, match=r"a job is opened once, by its first event"):
            fold(log.events * 2)
        log.say(reading("s1"))
        with pytest.raises(ChainError, match=r"^event 2: a job is opened once"):
            fold(log.events[1:])
        with pytest.raises(ChainError, match=r"the log is empty"):
            fold([])

    def test_hash_is_the_last_events(self, log) -> None:
        """The record carries the hash of the last event folded in."""
        log.say(reading("s1"))
        assert log.events[-1].hash == log.record().record_hash
