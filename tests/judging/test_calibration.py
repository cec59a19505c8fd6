"""Instruments past their calibration are noted, and nothing else changes."""

from __future__ import annotations

from datetime import date

import pytest

from judging.said import reading, record_of
from saywright.flags import FlagKind
from saywright.judging.judge import judge, judgements


@pytest.fixture
def late(sheet):
    """The sheet with a caliper that was due on 1 March 2025."""
    caliper = sheet.instrument[0].model_copy(update={"calibration_due": date(2025, 3, 1)})
    return sheet.model_copy(update={"instrument": (caliper, *sheet.instrument[1:])})


def notes(record) -> list[list[FlagKind]]:
    """The kinds of the flags of each reading."""
    return [[flag.kind for flag in r.flags] for r in record.readings]


def test_taken_after_the_day_is_noted(empty, late) -> None:
    """The day itself is still good; the day after is not. Decision and uncertainty stay as they are."""
    record = record_of(
        empty,
        reading("s1", "18.42", taken_on=date(2025, 3, 1)),
        reading("s2", "18.42", taken_on=date(2025, 3, 2)),
    )
    judged = judge(record, late)
    assert [[], [FlagKind.CALIBRATION_OVERDUE]] == notes(judged)
    assert ["conforms", "conforms"] == [r.decision for r in judged.readings]
    told = judged.readings[1].flags[0]
    assert ("note", "the calibration of the instrument was overdue that day: caliper, due 2025-03-01") == (
        told.level,
        told.text,
    )
    sentences = judgements(record, late)
    assert "overdue" not in sentences["s1"].sentence
    assert sentences["s2"].sentence.endswith(
        "The calibration of the caliper was overdue: it was due on 2025-03-01."
    )


def test_without_a_day_the_job_s_counts(empty, late) -> None:
    """The job was opened on 4 March."""
    assert [[FlagKind.CALIBRATION_OVERDUE]] == notes(judge(record_of(empty, reading("s1")), late))


def test_judging_again_adds_no_second_note(empty, late, sheet) -> None:
    """The note is there once, and goes when the instrument is in date."""
    once = judge(record_of(empty, reading("s1")), late)
    assert once == judge(once, late)
    assert [[]] == notes(judge(once, sheet))


def test_counted_values_need_no_instrument(empty, late) -> None:
    """A stamped size is read with the eyes."""
    jet = reading("s1", "128", component="main_jet", characteristic="size", unit="1")
    assert [[]] == notes(judge(record_of(empty, jet), late))
