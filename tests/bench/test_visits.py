"""Several visits of one item, through the bench: the report tells what changed since the last."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from saywright.bench import Bench
from saywright.errors import RefusedError
from saywright.store.memory import MemoryStore
from saywright.wiring.across import across_data, over_all
from saywright.wiring.history import course_data, courses, visits

from .conftest import SHEET, Clock


@pytest.fixture
def store() -> Iterator[MemoryStore]:
    """Five visits of one pump, each with a float a little lower, and one visit of another."""
    store, clock = MemoryStore(), Clock()
    for tenth in ("six", "five", "four", "three", "two"):
        bench = Bench.open(store, SHEET, clock=clock, serial="P-7", actor="Ines")
        bench.say("now the float")
        bench.say(f"height is eighteen point {tenth} zero")
        clock.at = clock.at.replace(year=clock.at.year + 1)
    Bench.open(store, SHEET, clock=clock, serial="P-8").say("float height is eighteen point one")
    yield store
    store.close()


def test_visits_and_courses(store: MemoryStore) -> None:
    """Only this item's, however its number is written; each change is told with its verdict."""
    found = visits(store, "p -7")
    assert 5 == len(found)
    (course,) = courses(found)
    data = course_data(course)
    assert ["18.6", "18.5", "18.4", "18.3", "18.2"] == [point["value"] for point in data["points"]]
    assert [True] * 4 == [change["real"] for change in data["changes"]]
    assert data["trend"]["shown"]
    assert data["trend"]["meets_limit"]["limit"] == 18.0
    assert data["chart"] is None


def test_report_of_the_last_visit(store: MemoryStore) -> None:
    """The report has the change, the trend and a drawing; that of the first visit has none of it."""
    first, last = (visits(store, "P-7")[n].job_id for n in (0, -1))
    clock = Clock()
    page = Bench.resume(store, last, clock=clock).report(["html"])["html"].decode()
    assert "Since the last visits" in page
    assert "0.1 mm less" in page
    assert "data:image/svg+xml;base64," in page
    assert "Since the last visits" in Bench.resume(store, last, clock=clock).export(
        "text"
    ).decode().title().replace("Since The Last Visits", "Since the last visits")
    page = Bench.resume(store, first, clock=clock).report(["html"])["html"].decode()
    assert "Since the last visits" not in page


def test_across_the_sheet(store: MemoryStore) -> None:
    """All six jobs of the sheet count, whichever item they were on."""
    data = across_data(over_all(store, "pump"))
    assert (6, [6]) == (data["jobs"], [spread["values"] for spread in data["spreads"]])


@pytest.mark.parametrize(
    ("component", "stage", "minutes"),
    [
        ("flaot", "as_found", "3"),
        ("float", "later", "3"),
        ("float", "as_found", "-1"),
        ("float", "as_found", "NaN"),
    ],
)
def test_a_time_that_is_none_is_refused(store: MemoryStore, component: str, stage: str, minutes: str) -> None:
    """In one line; nothing is written."""
    bench = Bench.resume(store, visits(store, "P-7")[0].job_id, clock=Clock())
    before = len(bench.events())
    with pytest.raises(RefusedError) as refused:
        bench.correct_time(component, stage, minutes, why="", actor="Ines")
    assert "\n" not in str(refused.value)
    assert before == len(bench.events())


def test_a_number_read_out_counts_and_is_looked_for_once(
    store: MemoryStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A job opened without a number is found by the one read out; its log is not read again for nothing."""
    bench = Bench.open(store, SHEET, clock=Clock())
    assert 0 == len(visits(store, "Q 4 4 1"))
    bench.say("serial number q four four one")
    assert [bench.job_id] == [visit.job_id for visit in visits(store, "Q441")]
    read: list[str] = []
    events = store.events

    def counted(job_id: str, *, after_seq: int = 0):
        read.append(job_id)
        return events(job_id, after_seq=after_seq)

    monkeypatch.setattr(store, "events", counted)
    assert () == visits(store, "R 1")
    assert [] == read
