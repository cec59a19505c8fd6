"""The refit list and the bench time as the report shows them, and over the command line."""

from __future__ import annotations

import pytest

from judging.conftest import SHEET
from judging.said import reading
from judging.test_benchtime import RECORD, TALK, log
from judging.test_refit import EMPTY, OFF, TURNS, movement, record_of
from saywright.judging.benchtime import bench_time
from saywright.judging.derived import derived
from saywright.judging.judge import judge
from saywright.judging.refit import refit
from saywright.record.events import TimeCorrected
from saywright.report.bench_work import minutes_text, refit_section, time_section
from saywright.report.computed import computed_section
from saywright.report.document import build_document
from saywright.report.html import to_html
from saywright.report.text import to_text
from saywright.report.tree import Document


def text_of(section) -> str:
    """The section as it is printed, on one line."""
    empty = build_document(EMPTY, SHEET)
    return " ".join(to_text(Document(empty.head, (section,), "j", "", empty.made_at)).split())


def test_refit_list() -> None:
    """The parts in order, what is done, what is to do, and the setting to put back."""
    record = record_of(EMPTY, *OFF, movement("s9", "gasket", "fitted", part="new"))
    shown = text_of(refit_section(record, refit(record, SHEET)))
    assert "what came off last goes on first. 2 lines still to do." in shown
    assert shown.index("Air screw") < shown.index("Bowl gasket") < shown.index("4 × bowl screw")
    assert "air screw turns out: back to 1.5" in shown  # the line goes on below
    assert "a new one" in shown


def test_in_the_document_where_something_came_off() -> None:
    """It is a section of the report, next to the ledger; without a removal it is not there."""
    sections = [section.id for section in build_document(record_of(EMPTY, *OFF), SHEET).sections]
    assert sections.index("refit") == sections.index("ledger") + 1
    assert None is build_document(record_of(EMPTY, reading("s3", "1.5", **TURNS)), SHEET).section("refit")


def test_bench_time_is_shown_where_wished() -> None:
    """Each part with its time, a correction with its reason, and the sum; not there unless asked for."""
    correction = TimeCorrected.model_validate(
        {"component": "float", "stage": "as_found", "minutes": "1.5", "why": "telephone"}
    )
    time = bench_time(RECORD, log(*TALK, correction), SHEET)
    shown = text_of(time_section(time))
    assert "1 min 30 s" in shown
    assert "corrected by Ines from 0 min 20 s: telephone" in shown
    assert "Together 2 min 54 s." in shown
    assert None is build_document(RECORD, SHEET).section("time")
    assert build_document(RECORD, SHEET, time=time).section("time") is not None


@pytest.mark.parametrize(
    ("seconds", "text"), [(0, "0 min 00 s"), (59.6, "1 min 00 s"), (725, "12 min 05 s"), (3725, "1 h 02 min")]
)
def test_minutes(seconds: float, text: str) -> None:
    """Seconds as people read them."""
    assert text == minutes_text(seconds)


def test_computed_values_are_shown_with_their_readings() -> None:
    """Value, decision, limits, budget, and the readings it came from; the summary names what fails."""
    from judging.test_derived import SHAFT, bore, shaft

    record = judge(record_of(EMPTY, bore("s1", "8.050"), shaft("s2", "7.900")), SHAFT)
    shown = text_of(computed_section(record, derived(record, SHAFT)))
    assert "0.15 mm" in shown
    assert "[s1] [s2]" in shown
    assert "k = 2.00" in shown
    assert None is computed_section(record, ())
    page = to_html(build_document(record, SHAFT)).decode()
    assert "Computed, as found, does not conform: " in page
