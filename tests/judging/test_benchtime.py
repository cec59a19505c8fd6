"""Bench time from when things were said."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from judging.conftest import EMPTY, SHEET
from judging.said import movement, reading, record_of
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.judging.benchtime import PAUSE_S, bench_time
from saywright.record.chain import link
from saywright.record.events import Event, Heard, JobOpened, Payload, TimeCorrected

AT = datetime(2025, 3, 4, tzinfo=UTC)
JET = {"component": "main_jet", "characteristic": "size", "unit": "1"}


def said(start_s: float | None, end_s: float | None, media: str | None = "a") -> Heard:
    """An utterance at this time of a recording, in seconds."""
    words = Hypothesis(words=(Word(text="x"),), probability=1.0)
    return Heard(utterance=Utterance(hypotheses=(words,), start_s=start_s, end_s=end_s, media=media))


def log(*payloads: Payload) -> list[Event]:
    """A job with these events; the first of them has number 2."""
    events: list[Event] = []
    for payload in (JobOpened(job="j", title="t", sheet=SHEET), *payloads):
        events.append(link(payload, at=AT, actor="Ines", after=events[-1] if events else None))
    return events


def spent(record, events) -> dict[tuple[str | None, str], float]:
    """Seconds by part and stage."""
    return {(x.component, x.stage): x.seconds for x in bench_time(record, events, SHEET).lines}


RECORD = record_of(
    EMPTY,
    reading("s1", utterance=3),
    reading("s2", "128", utterance=4, **JET),
    movement("s3", "main_jet", "fitted", utterance=6),
)
TALK = (said(0, 2), said(10, 12), said(30, 33), said(60, 62), said(100, 104))


def test_time_goes_to_the_part_in_hand() -> None:
    """10 s before any part, 20 s on the float, then the jet; as left once it is fitted, 4 s to the end."""
    assert {
        (None, "as_found"): 10,
        ("float", "as_found"): 20,
        ("main_jet", "as_found"): 70,
        ("main_jet", "as_left"): 4,
    } == spent(RECORD, log(*TALK))


def test_pauses_are_left_out() -> None:
    """A silence longer than two minutes is a break; one of just two minutes is work."""
    break_s = 33 + PAUSE_S + 1
    found = bench_time(RECORD, log(said(0, 2), said(10, 12), said(30, 33), said(break_s, break_s + 1)), SHEET)
    assert (1, PAUSE_S + 1) == (found.pauses, found.pauses_s)
    assert 10 + 20 + 3 + 1 == found.total_s
    assert 0 == bench_time(RECORD, log(said(0, 2), said(2 + PAUSE_S, 130)), SHEET).pauses


def test_recordings_are_apart() -> None:
    """The clock of another recording begins anew; its first utterance follows none."""
    found = bench_time(RECORD, log(said(0, 2), said(100, 102, "b"), said(105, 107, "b")), SHEET)
    assert 2 + 5 + 2 == found.total_s


def test_typed_words_have_no_time() -> None:
    """They are counted, and add nothing."""
    found = bench_time(RECORD, log(said(None, None, None), said(0, 2)), SHEET)
    assert (1, 2) == (found.untimed, found.total_s)


def test_a_correction_takes_its_place() -> None:
    """The last one holds, with who gave it and why; a part never spoken of can be given a time."""
    first = TimeCorrected(component="float", stage="as_found", minutes=9)  # type: ignore[arg-type]
    last = TimeCorrected.model_validate(
        {"component": "float", "stage": "as_found", "minutes": "1.5", "why": "telephone"}
    )
    other = TimeCorrected.model_validate({"component": "screw", "stage": "as_left", "minutes": "3"})
    found = bench_time(RECORD, log(*TALK, first, last, other), SHEET)
    line = next(x for x in found.lines if x.component == "float")
    assert (20, 90, 90, "Ines", "telephone") == (
        line.computed_s,
        line.corrected_s,
        line.seconds,
        line.by,
        line.why,
    )
    assert 180 == next(x for x in found.lines if x.component == "screw").seconds


@pytest.mark.parametrize("events", [log(), log(said(5, None))])
def test_little_or_nothing_said(events: list[Event]) -> None:
    """No utterance, or one without an end: no time and no crash."""
    assert 0 == bench_time(EMPTY, events, SHEET).total_s
