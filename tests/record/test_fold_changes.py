"""What a person changes, folded into the record."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from record_support import reading
from saywright.errors import NotFoundError, RefusedError
from saywright.flags import FlagKind, flag
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import fold
from saywright.understanding import statements as said


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
