"""The record is what the events say, and nothing said is lost."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from saywright.errors import ChainError, NotFoundError, RefusedError, StaleError
from saywright.flags import FlagKind, flag
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import Folder, fold
from saywright.understanding import statements as said


def reading(item_id: str = "s1", **given: Any) -> said.Reading:
    """A float height of 18.40 mm, unless told otherwise."""
    fields = {
        "stage": "as_found",
        "heard": "float height eighteen point four zero",
        "component": "float",
        "characteristic": "height",
        "value": "18.40",
        "unit": "mm",
    }
    return said.Reading.model_validate({"id": item_id, **fields, **given})


def mark(item_id: str, component: str | None = "main_jet") -> said.PhotoMark:
    """A spoken photo mark."""
    return said.PhotoMark(id=item_id, stage="as_found", heard="photo of that", component=component)


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


class TestCorrectionByPerson:
    def test_changes_value_and_answers_the_ask(self, log) -> None:
        """The value is the person's, its digits kept, the ask answered, the old value noted."""
        asks = (flag(FlagKind.HEARINGS_DISAGREE), flag(FlagKind.PART_FROM_CONTEXT))
        log.say(reading("s1", flags=asks, probability=0.5))
        log.add(ev.ItemCorrected(item="s1", changes={"value": "18,50"}, why="read the caliper again"), "Ines")
        item = log.record().readings[0]
        assert ("18.50", "18.50", "Ines", None, 3) == (
            item.value,
            item.in_sheet_unit,
            item.accepted_by,
            item.probability,
            item.event,
        )
        assert [FlagKind.PART_FROM_CONTEXT, FlagKind.BY_PERSON] == [f.kind for f in item.flags]
        assert "value was 18.40 (read the caliper again)" in item.flags[1].text

    def test_unit_is_told_in_the_sheet_unit_again(self, log) -> None:
        """0.73 in is 18.542 mm exactly."""
        log.say(reading("s1"))
        log.add(ev.ItemCorrected(item="s1", changes={"value": "0.73", "unit": "in"}), "Ines")
        assert "18.542" == log.record().readings[0].in_sheet_unit

    def test_moving_to_another_part_forgets_which_and_repeat(self, log) -> None:
        """A reading moved to another part is no repeat of the old part's reading."""
        log.say(reading("s1"), reading("s2", repeat_of="s1"))
        changes = {"component": "bush", "which": "upper", "characteristic": "bore", "value": "8.01"}
        log.add(ev.ItemCorrected(item="s2", changes=changes), "Ines")
        moved = log.record().readings[1]
        assert ("bush", "upper", None) == (moved.component, moved.which, moved.repeat_of)
        back = {"component": "float", "characteristic": "height"}
        log.add(ev.ItemCorrected(item="s2", changes=back), "Ines")
        assert log.record().readings[1].which is None

    def test_makes_a_reading_of_unclear_words(self, log) -> None:
        """Words that were not understood become a reading that keeps them and their time."""
        log.say(said.Unclear(id="s1", stage="as_found", heard="eighteen something", start_s=4.5))
        changes = {"component": "float", "characteristic": "height", "value": "18.3"}
        log.add(ev.ItemCorrected(item="s1", changes=changes), "Ines")
        record = log.record()
        assert () == record.unclear
        item = record.readings[0]
        assert ("s1", "eighteen something", 4.5, "18.3", "mm") == (
            item.id,
            item.heard,
            item.start_s,
            item.value,
            item.unit,
        )

    @pytest.mark.parametrize(
        ("changes", "message"),
        [
            ({}, "s1: nothing to change was given. Name a field and its new value"),
            (
                {"heard": "x"},
                "s1: a reading has no field 'heard' to change. Fields: component, which, "
                "characteristic, place, value, unit, stage, approximate",
            ),
            ({"value": "eighteen"}, "s1: 'eighteen' is not a number. Write it like 18.42 or 1/3"),
            (
                {"value": 18.4},
                "s1: '18.4' is not a value written as text. "
                "Write it like '18.40', so that its digits are kept",
            ),
            (
                {"unit": "bar"},
                "s1: 'bar' does not measure the float height. Give the unit too, one that converts to 'mm'",
            ),
            (
                {"component": "float2"},
                "s1: the sheet has no component 'float2'. Components: float, main_jet, bush, gasket, screw",
            ),
            (
                {"characteristic": "size"},
                "s1: the float has no characteristic 'size'. Characteristics: height",
            ),
            ({"which": "left"}, "s1: there is no float 'left'. Positions: none, only one is fitted"),
            ({"stage": "later"}, "s1: 'later' cannot be the stage: Input should be 'as_found' or 'as_left'"),
        ],
    )
    def test_refuses_in_one_line(self, log, changes: dict[str, Any], message: str) -> None:
        """What cannot stand in the record is refused, and told why."""
        log.say(reading("s1"))
        log.add(ev.ItemCorrected(item="s1", changes=changes), "Ines")
        with pytest.raises(RefusedError) as refused:
            fold(log.events)
        assert message == str(refused.value)

    def test_refuses_an_unknown_unit(self, log) -> None:
        """The closed table decides what a unit is."""
        log.say(reading("s1"))
        log.add(ev.ItemCorrected(item="s1", changes={"unit": "cubits"}), "Ines")
        with pytest.raises(RefusedError, match=r"^s1: unknown unit 'cubits'\. Known units: 1, mm"):
            fold(log.events)

    def test_refuses_names_the_sheet_lacks(self, log) -> None:
        """Conditions and actions are checked against the sheet too."""
        common: dict[str, Any] = {"stage": "as_found", "heard": "…"}
        log.say(
            said.ConditionNote(id="s1", component="float", condition="scored", **common),
            said.ActionNote(id="s2", component="float", action="clean", status="done", **common),
        )
        for item, changes, text in (
            ("s1", {"condition": "bent"}, "s1: the sheet has no condition 'bent'. Conditions: scored, clean"),
            ("s2", {"action": "weld"}, "s2: the sheet has no action 'weld'. Actions: replace, clean"),
            (
                "s2",
                {"quantity": 0},
                "s2: '0' is no number of parts. Give a whole number from 1, or nothing",
            ),
            (
                "s2",
                {"quantity": "two"},
                "s2: 'two' is no number of parts. Give a whole number from 1, or nothing",
            ),
        ):
            twin = list(log.events)
            payload = ev.ItemCorrected(item=item, changes=changes)
            twin.append(link(payload, at=twin[-1].at, actor="Ines", after=twin[-1]))
            with pytest.raises(RefusedError) as refused:
                fold(twin)
            assert text == str(refused.value)

    def test_other_kinds_can_be_changed(self, log) -> None:
        """Condition, action, movement and identifier take corrections of their own fields."""
        common: dict[str, Any] = {"stage": "as_found", "heard": "…"}
        log.say(
            said.ConditionNote(id="s1", component="float", condition="scored", **common),
            said.ActionNote(id="s2", component="float", action="clean", status="done", **common),
            said.Movement(id="s3", component="screw", count=4, movement="removed", **common),
            said.Identifier(id="s4", identifier="stamp", component="main_jet", value="128", **common),
        )
        for item, changes in (
            ("s1", {"present": False, "severity": "slight"}),
            ("s2", {"action": "replace", "status": "proposed", "quantity": 2}),
            ("s3", {"count": 3}),
            ("s4", {"value": "00130"}),
        ):
            log.add(ev.ItemCorrected(item=item, changes=changes), "Ines")
        record = log.record()
        assert (False, "slight") == (record.conditions[0].present, record.conditions[0].severity)
        assert ("replace", 2) == (record.actions[0].action, record.actions[0].quantity)
        assert (3, "00130") == (record.movements[0].count, record.identifiers[0].value)


class TestAcceptAndWithdraw:
    def test_accepting_names_the_person(self, log) -> None:
        """An accepted item keeps its flags, so that what was doubted can still be read."""
        log.say(reading("s1", flags=(flag(FlagKind.POORLY_HEARD),)))
        log.add(ev.ItemAccepted(item="s1"), "Ines")
        item = log.record().readings[0]
        assert ("Ines", 3, 1) == (item.accepted_by, item.event, len(item.flags))

    def test_withdrawing_names_the_event(self, log) -> None:
        """A withdrawn item stays in the list and names the event that took it out."""
        log.say(reading("s1"))
        log.add(ev.ItemWithdrawn(item="s1", why="wrong float"), "Ines")
        assert "event-3" == log.record().readings[0].superseded_by

    @pytest.mark.parametrize(
        "payload",
        [
            ev.ItemAccepted,
            ev.ItemWithdrawn,
            lambda item: ev.ItemCorrected(item=item, changes={"value": "1"}),
        ],
    )
    def test_replaced_items_take_no_more(self, log, payload: Callable[..., ev.Payload]) -> None:
        """What was withdrawn can be neither accepted, corrected nor withdrawn again."""
        log.say(reading("s1"))
        log.add(ev.ItemWithdrawn(item="s1"), "Ines")
        log.add(payload(item="s1"), "Ines")
        with pytest.raises(RefusedError, match=r"^s1: the item was replaced by event-3"):
            log.record()

    def test_unknown_item(self, log) -> None:
        """An id that is not in the record is named in the error."""
        log.add(ev.ItemAccepted(item="s7"), "Ines")
        with pytest.raises(NotFoundError, match=r"^no item 's7' in the record"):
            log.record()


class TestPhotos:
    def test_mark_and_picture_become_one(self, log) -> None:
        """The mark takes on the picture; the separate picture is gone from the list."""
        log.say(mark("s1"))
        log.picture("p1", blurred=True)
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.6, sure=False, by_order=True))
        photo = log.record().photos[0]
        assert 1 == len(log.record().photos)
        assert ("s1", "hash-p1", "p1.jpg", 0.6, "main_jet") == (
            photo.id,
            photo.sha256,
            photo.name,
            photo.match_confidence,
            photo.component,
        )
        kinds = [FlagKind.PHOTO_BLURRED, FlagKind.PHOTO_MATCH_UNCLEAR, FlagKind.PHOTO_BY_ORDER]
        assert kinds == [f.kind for f in photo.flags]
        assert photo.asks

    def test_placing_again_undoes_the_former_place(self, log) -> None:
        """A person moves the picture: the first mark is bare again, the second has it, nothing asks."""
        log.say(mark("s1"), mark("s2", None))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.6, sure=False))
        log.add(ev.PhotoPlaced(photo="p1", mark="s2"), "Ines")
        first, second = log.record().photos
        assert (None, None, ()) == (first.sha256, first.match_confidence, first.flags)
        assert ("hash-p1", "Ines", ()) == (second.sha256, second.accepted_by, second.flags)

    def test_a_taken_mark_gives_its_picture_back(self, log) -> None:
        """Two pictures for one mark: the later has it, the earlier is a picture without a mark again."""
        log.say(mark("s1"))
        log.picture("p1")
        log.picture("p2")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.PhotoPlaced(photo="p2", mark="s1", confidence=0.9))
        assert {"s1": "hash-p2", "p1": "hash-p1"} == {p.id: p.sha256 for p in log.record().photos}

    def test_on_a_part_without_a_mark(self, log) -> None:
        """A person puts a picture on a part; naming no part takes it off again."""
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", component="float", conditions=("scored",)), "Ines")
        photo = log.record().photos[0]
        assert ("float", ("scored",), "Ines") == (photo.component, photo.conditions, photo.accepted_by)
        log.add(ev.PhotoPlaced(photo="p1"), "Ines")
        assert (None, None) == (log.record().photos[0].component, log.record().photos[0].accepted_by)

    def test_withdrawing_the_mark_keeps_the_picture(self, log) -> None:
        """A mark taken back frees its picture."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.ItemWithdrawn(item="s1"), "Ines")
        found = {p.id: (p.sha256, p.superseded_by) for p in log.record().photos}
        assert {"s1": (None, "event-5"), "p1": ("hash-p1", None)} == found

    def test_withdrawing_the_picture_keeps_the_mark(self, log) -> None:
        """A picture taken out by its own id leaves the mark without one."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.ItemWithdrawn(item="p1"), "Ines")
        found = {p.id: (p.sha256, p.superseded_by) for p in log.record().photos}
        assert {"s1": (None, None), "p1": ("hash-p1", "event-5")} == found

    def test_spoken_correction_of_a_mark_frees_its_picture(self, log) -> None:
        """ "Forget that photo" leaves the picture to be placed."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.say(said.Correction(id="s2", stage="as_found", heard="forget that photo", supersedes=("s1",)))
        assert {"s1": None, "p1": "hash-p1"} == {p.id: p.sha256 for p in log.record().photos}

    def test_refuses_what_is_no_mark(self, log) -> None:
        """A picture cannot be placed at a reading."""
        log.say(reading("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1"), "Ines")
        with pytest.raises(RefusedError, match=r"^s1: this is no spoken photo mark"):
            log.record()

    def test_knows_where_each_picture_is(self, log) -> None:
        """The folder tells every picture with its mark."""
        log.say(mark("s1"))
        log.picture("p1")
        log.picture("p2")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        folder = Folder()
        for event in log.events:
            folder.apply(event)
        assert [("p1", "s1"), ("p2", None)] == [(added.photo, at) for added, at in folder.pictures()]
        assert "s1" == folder.item("p1").id


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
