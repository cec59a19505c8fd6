"""The refit list: reverse order of removal, settings and torques, ticked off as the rebuild is told."""

from __future__ import annotations

from decimal import Decimal

import pytest

from judging.conftest import EMPTY, SHEET
from judging.said import action, movement, reading, record_of
from saywright.judging.refit import refit
from saywright.sheets.model import Characteristic

TURNS = {"component": "air_screw", "characteristic": "turns_out", "unit": "turn"}
TORQUE = {"component": "screw", "characteristic": "torque", "unit": "N.m", "stage": "as_left"}
OFF = (
    movement("s1", "screw", "removed", 4),
    movement("s2", "gasket", "removed"),
    reading("s3", "1.50", **TURNS),
    movement("s4", "air_screw", "removed"),
)


@pytest.fixture
def sheet():
    """The sheet with a torque for the bowl screws."""
    limits = {"lower": Decimal("1.8"), "upper": Decimal("2.6")}
    torque = Characteristic(id="torque", names=("torque",), unit="N.m", **limits)
    parts = [
        part.model_copy(update={"characteristic": (torque,)}) if part.id == "screw" else part
        for part in SHEET.component
    ]
    return SHEET.model_copy(update={"component": tuple(parts)})


def told(lines) -> list[tuple[str, int, bool]]:
    """Name, parts to do, done."""
    return [(line.label, line.to_do, line.done) for line in lines]


def test_reverse_order(sheet) -> None:
    """What came off last goes on first, with the setting found and the torque of the sheet."""
    lines = refit(record_of(EMPTY, *OFF), sheet)
    assert [("air screw", 1, False), ("bowl gasket", 1, False), ("bowl screw", 4, False)] == told(lines)
    turns = ("air screw turns out", "back to 1.5 turns", False)
    torque = ("bowl screw torque", "1.8 to 2.6 N·m", False)
    assert [[turns], [], [torque]] == [
        [(step.name, step.target, step.done) for step in line.steps] for line in lines
    ]
    assert [False, True, False] == [line.renew for line in lines]


def test_pieces_of_a_split_go_back_where_they_came_off(sheet) -> None:
    """Made of one movement long after, they came off first all the same, so they go on last."""
    items = (
        movement("s2", "gasket", "removed", utterance=9),
        movement("s3", "screw", "removed", 3, utterance=4),
        movement("s4", "screw", "removed", 1, utterance=4),
    )
    lines = refit(record_of(EMPTY, *items), sheet)
    assert [("bowl gasket", 1, False), ("bowl screw", 4, False)] == told(lines)


def test_ticked_off_as_it_is_told(sheet) -> None:
    """A part is done when it is on and its setting was said; three screws of four are not."""
    items = (
        *OFF,
        movement("s5", "air_screw", "fitted"),
        movement("s6", "gasket", "fitted", part="new"),
        movement("s7", "screw", "fitted", 3),
    )
    lines = refit(record_of(EMPTY, *items), sheet)
    assert [("air screw", 0, False), ("bowl gasket", 0, True), ("bowl screw", 1, False)] == told(lines)
    rest = (
        reading("s8", "1.50", stage="as_left", **TURNS),
        movement("s9", "screw", "fitted"),
        reading("s10", "2.2", **TORQUE),
    )
    assert [True, True, True] == [line.done for line in refit(record_of(EMPTY, *items, *rest), sheet)]


def test_settings_of_what_stayed_on(sheet) -> None:
    """A setting that was read and whose part stayed on stands at the end."""
    record = record_of(EMPTY, movement("s1", "gasket", "removed"), reading("s3", "1.50", **TURNS))
    assert [("bowl gasket", 1, False), ("air screw", 0, False)] == told(refit(record, sheet))


def test_order_of_the_last_removal(sheet) -> None:
    """Off, on and off again: the last time counts. Ten comes after nine."""
    record = record_of(
        EMPTY,
        movement("s8", "screw", "removed", 4),
        movement("s9", "gasket", "removed"),
        movement("s10", "screw", "fitted", 4),
        movement("s11", "screw", "removed", 4),
    )
    assert ["bowl screw", "bowl gasket"] == [line.label for line in refit(record, sheet)]


def test_a_part_replaced_is_done(sheet) -> None:
    """ "Replaced the gasket" puts one on."""
    record = record_of(EMPTY, *OFF[:2], action("s5", "gasket", "replace", "done"))
    assert [("bowl gasket", 0, True), ("bowl screw", 4, False)] == told(refit(record, sheet))


def test_nothing_off_is_no_list(sheet) -> None:
    """A job without a removal has no list."""
    assert () == refit(record_of(EMPTY, reading("s3", "1.50", **TURNS)), sheet)
