"""Settings to restore: as left equals as found, unless changed on purpose."""

from __future__ import annotations

from typing import Any

import pytest

from judging.said import action, reading, record_of
from saywright.judging.judge import judge, judgements

TURNS = {"component": "air_screw", "characteristic": "turns_out", "unit": "turn"}
DEPTH = {"component": "air_screw", "characteristic": "depth"}


def opened(record, sheet) -> list[str]:
    """Ids of open items about settings."""
    return [item.id for item in judge(record, sheet).open_items if item.kind == "not_restored"]


def test_the_same_number_in_other_words(empty, sheet) -> None:
    """3/2 of a turn found, 1.5 turns left: restored, exactly."""
    record = record_of(empty, reading("s1", "3/2", **TURNS), reading("s2", "1.5", stage="as_left", **TURNS))
    assert [] == opened(record, sheet)
    sentence = judgements(record, sheet)["s2"].sentence
    assert sentence.endswith("The air screw turns out was 1.5 turns as found and is left the same.")


def test_a_quarter_turn_off_is_open(empty, sheet) -> None:
    """Within its limits, and still not as it was found."""
    record = record_of(empty, reading("s1", "1.5", **TURNS), reading("s2", "1.75", stage="as_left", **TURNS))
    judged = judge(record, sheet)
    item = next(item for item in judged.open_items if item.kind == "not_restored")
    assert ("not_restored:air_screw.turns_out", "s2") == (item.id, item.item)
    assert (
        "The air screw turns out was 1.5 turns as found and is 1.75 turns as left. Was it changed on purpose?"
        == item.text
    )
    assert "conforms" == judged.readings[1].decision


def test_changed_on_purpose(empty, sheet) -> None:
    """ "Adjusted" says that it was meant."""
    record = record_of(
        empty,
        reading("s1", "1.5", **TURNS),
        reading("s2", "2.0", stage="as_left", **TURNS),
        action("s3", "air_screw", "adjust", "done"),
    )
    assert [] == opened(record, sheet)
    assert "changed on purpose to 2 turns" in judgements(record, sheet)["s2"].sentence


def test_not_said_as_left_once_it_goes_back(empty, sheet) -> None:
    """Open only when something else was already said as left."""
    found = reading("s1", "1.5", **TURNS)
    assert [] == opened(record_of(empty, found), sheet)
    left = reading("s2", "18.4", stage="as_left")
    assert ["not_restored:air_screw.turns_out"] == opened(record_of(empty, found, left), sheet)


def test_last_setting_counts(empty, sheet) -> None:
    """A screw is turned until it is right; the last value said is how it was left."""
    record = record_of(
        empty,
        reading("s1", "1.5", **TURNS),
        reading("s2", "2.0", stage="as_left", **TURNS),
        reading("s3", "1.5", stage="as_left", **TURNS),
    )
    assert [] == opened(record, sheet)


@pytest.mark.parametrize(
    ("left", "extra", "decision"),
    [
        ("3.1", (), "conforms"),
        ("3.2", (), "does_not_conform"),
        ("3.2", (action("s3", "air_screw", "adjust", "done"),), "no_limit"),
    ],
)
def test_without_limits_restoring_decides(empty, sheet, left: str, extra: Any, decision: str) -> None:
    """Where the sheet sets no limit, being as it was found is the criterion."""
    record = record_of(
        empty, reading("s1", "3.1", **DEPTH), reading("s2", left, stage="as_left", **DEPTH), *extra
    )
    assert ["no_limit", decision] == [r.decision for r in judge(record, sheet).readings]


def test_nothing_found(empty, sheet) -> None:
    """A setting said only as left cannot be compared, and is not accused."""
    record = record_of(empty, reading("s1", "3.1", stage="as_left", **DEPTH))
    assert [] == opened(record, sheet)
    assert "no_limit" == judge(record, sheet).readings[0].decision
