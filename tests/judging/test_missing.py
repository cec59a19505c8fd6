"""Required and not said."""

from __future__ import annotations

from judging.said import action, condition, movement, other, reading, record_of
from saywright.judging.judge import judge
from saywright.judging.missing import gone_back_together, missing
from saywright.record.types import Remark
from saywright.sheets.model import Characteristic

BORE = {"component": "bush", "characteristic": "bore"}


def ids(record, sheet) -> list[str]:
    """What is missing."""
    return [lack.id for lack in missing(record, sheet)]


def test_only_as_found_before_it_goes_back(empty, sheet) -> None:
    """At the start all that is required as found is missing, position by position; nothing as left yet."""
    assert ["float.height@as_found", "bush:upper.bore@as_found", "bush:lower.bore@as_found"] == ids(
        empty, sheet
    )


def test_said_is_not_missing(empty, sheet) -> None:
    """A reading fills its own position and stage only; one without a position fills none."""
    record = record_of(
        empty, reading("s1"), reading("s2", "8.01", which="upper", **BORE), reading("s3", "8.02", **BORE)
    )
    assert ["bush:lower.bore@as_found"] == ids(record, sheet)


def test_withdrawn_is_missing_again(empty, sheet) -> None:
    """A reading that no longer holds fills nothing."""
    assert "float.height@as_found" in ids(record_of(empty, reading("s1", superseded_by="event-4")), sheet)


def test_as_left_once_it_goes_back(empty, sheet) -> None:
    """The first thing fitted brings the readings as left into the list."""
    record = record_of(empty, movement("s1", "screw", "fitted", 4))
    assert "float.height@as_left" in ids(record, sheet)
    assert "Float height is required as left and was not said." == missing(record, sheet)[-1].sentence


def test_plans_and_talk_are_not_going_back(empty) -> None:
    """ "Needs a new jet" and a remark are said while all is still apart."""
    record = record_of(
        empty,
        action("s1", "main_jet", "replace", "proposed", stage="as_left"),
        other(Remark, "s2").model_copy(update={"stage": "as_left"}),
    )
    assert not gone_back_together(record)
    done = record_of(empty, action("s1", "main_jet", "replace", "done", stage="as_left"))
    assert gone_back_together(done)


def test_what_is_in_hand_is_asked_for_first(empty, sheet) -> None:
    """The part spoken of last, then the one before it, then the rest in the sheet's order."""
    record = record_of(
        empty,
        reading("s9", "1.5", component="air_screw", characteristic="turns_out", unit="turn"),
        condition("s10", "bush", "worn", which="upper"),
    )
    asked = [item.component for item in judge(record, sheet).open_items if item.kind == "missing"]
    assert ["bush", "bush", "float"] == asked
    assert ["float", "bush", "bush"] == [lack.component for lack in missing(record, sheet)]


def test_one_reading_for_all_where_they_are_only_counted(empty, sheet) -> None:
    """ "The screws are eleven long" fills each of several that have no names of their own."""
    screw = next(component for component in sheet.component if component.id == "screw")
    length = Characteristic(id="length", unit="mm", when=("as_found",))
    counted = screw.model_copy(update={"characteristic": (length,)})
    parts = tuple(counted if c.id == "screw" else c for c in sheet.component)
    sheet = sheet.model_copy(update={"component": parts})
    assert 4 == sum("screw" in lack for lack in ids(empty, sheet))
    read = reading("s1", "11", component="screw", characteristic="length")
    assert not [lack for lack in ids(record_of(empty, read), sheet) if "screw" in lack]
