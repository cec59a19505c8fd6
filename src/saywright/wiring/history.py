"""All jobs on one item: what each reading was when it came and when it left, and what became of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from weakref import WeakKeyDictionary

from saywright.judging import history as judged
from saywright.judging.changed import Point
from saywright.judging.course_words import chart_sentence, trend_sentence
from saywright.judging.history import Course
from saywright.judging.instrument import compared
from saywright.judging.repeats import Group, Thing, groups
from saywright.judging.spread import unsettled
from saywright.judging.wording import with_unit
from saywright.quantity import decimal_text
from saywright.record.fold import Folder
from saywright.record.types import Record
from saywright.sheets.model import Sheet
from saywright.store.protocol import JobRow, Store

_PLACES = 12  # of values in data


@dataclass(frozen=True, slots=True)
class Line:
    """One characteristic of one part at one visit."""

    component: str
    which: str | None
    characteristic: str
    place: str | None
    name: str  # as shown
    found: str | None  # value and unit as said, or the mean of several; None where not read
    left: str | None
    asks: bool  # True while one of the values waits for a person


@dataclass(frozen=True, slots=True)
class Visit:
    """One job on the item."""

    job_id: str
    opened_at: datetime
    record: Record
    sheet: Sheet

    @property
    def lines(self) -> tuple[Line, ...]:
        """What was read at this visit."""
        return _lines(self.record, self.sheet)


def visits(store: Store, serial: str) -> tuple[Visit, ...]:
    """The jobs on the item with this serial number, oldest first. Case and spaces do not count.

    A job opened without a number may have had it read out: it is read once, and again when it went on.
    """
    found: list[Visit] = []
    for row in store.jobs():
        told = row.serial if row.serial is not None else _read_out(store, row)
        if told is not None and _plain(told) == _plain(serial):
            record, sheet = folded(store, row.id)
            found.append(Visit(row.id, row.opened_at, record, sheet))
    return tuple(found)


# Store → job → how many events it had when it was read, and the serial number read out in it.
_READ: WeakKeyDictionary[Store, dict[str, tuple[int, str | None]]] = WeakKeyDictionary()


def _read_out(store: Store, row: JobRow) -> str | None:
    known = _READ.setdefault(store, {})
    events, serial = known.get(row.id, (-1, None))
    if events != row.events:
        serial = folded(store, row.id)[0].job.serial
        known[row.id] = (row.events, serial)
    return serial


def folded(store: Store, job_id: str) -> tuple[Record, Sheet]:
    """The record of a job, not judged, and the sheet it was opened with."""
    folder = Folder()
    for event in store.events(job_id):
        folder.apply(event)
    return folder.record(), folder.sheet


def courses(found: tuple[Visit, ...]) -> tuple[Course, ...]:
    """Each characteristic over all visits."""
    return judged.history(
        [judged.Visit(visit.job_id, visit.opened_at.date(), visit.record, visit.sheet) for visit in found]
    )


def up_to(store: Store, record: Record) -> tuple[Course, ...]:
    """The courses of the item of a job, up to that job; none where its serial number is not known."""
    if record.job.serial is None:
        return ()
    until = (record.job.opened_at, record.job.id)
    found = [v for v in visits(store, record.job.serial) if (v.opened_at, v.job_id) <= until]
    return courses(tuple(found)) if len(found) > 1 else ()


def course_sentences(course: Course) -> tuple[str, ...]:
    """The last change, the trend and the chart, told; what says nothing for lack of values is left out."""
    told = [course.changes[-1].sentence] if course.changes else []
    if course.line is not None:
        told.append(trend_sentence(course))
    if course.chart is not None:
        told.append(chart_sentence(course))
    return tuple(told)


def course_data(course: Course) -> dict[str, Any]:
    """A course as plain data. Values are decimal text in `unit`, uncertainties and fits are numbers."""
    return {
        "component": course.component,
        "which": course.which,
        "characteristic": course.characteristic,
        "place": course.place,
        "name": course.name,
        "unit": course.unit,
        "points": [_point_data(point) for point in course.points],
        "changes": [
            {
                "from": one.before.job,
                "to": one.after.job,
                "difference": decimal_text(one.difference, _PLACES),
                "expanded": one.expanded,
                "real": one.real,
                "provisional": one.provisional,
                "sentence": one.sentence,
            }
            for one in course.changes
        ],
        "trend": _trend_data(course),
        "chart": _chart_data(course),
    }


def _trend_data(course: Course) -> dict[str, Any] | None:
    line, meets = course.line, course.meets
    if line is None:
        return None
    found = {
        "values": line.n,
        "slope_per_day": line.slope,
        "slope_u": line.slope_u,
        "shown": line.shown,
        "sentence": trend_sentence(course),
    }
    if meets is None:
        return {**found, "meets_limit": None}
    days = {"day": meets.at, "earliest": meets.earliest, "latest": meets.latest}
    told = {name: _day_text(ordinal) for name, ordinal in days.items()}
    return {**found, "meets_limit": {"limit": meets.limit, **told}}


def _chart_data(course: Course) -> dict[str, Any] | None:
    chart = course.chart
    if chart is None:
        return None
    return {
        "mean": chart.mean,
        "lower": chart.lower,
        "upper": chart.upper,
        "moving_range": chart.moving_range,
        "moving_range_upper": chart.range_upper,
        "signals": [{"rule": one.rule, "value": one.last} for one in chart.signals],
        "sentence": chart_sentence(course),
    }


def _point_data(point: Point) -> dict[str, Any]:
    return {
        "job": point.job,
        "day": point.day.isoformat(),
        "stage": point.stage,
        "value": decimal_text(point.value, _PLACES),
        "u": point.u,
        "readings": point.n,
        "provisional": point.provisional,
        "renewed": point.renewed,
    }


def _day_text(ordinal: float | None) -> str | None:
    return None if ordinal is None else datetime.fromordinal(round(ordinal)).date().isoformat()


def _plain(serial: str) -> str:
    return "".join(serial.split()).casefold()


def _lines(record: Record, sheet: Sheet) -> tuple[Line, ...]:
    last: dict[Thing, dict[str, Group]] = {}
    for group in groups(compared(record), sheet):
        last.setdefault(group.thing, {})[group.stage] = group
    lines = []
    for (component, which, characteristic, place), by_stage in last.items():
        known = sheet.find(component, characteristic)
        label = known.label if known else characteristic.replace("_", " ")
        lines.append(
            Line(
                component,
                which,
                characteristic,
                place,
                f"{sheet.label(component, which)}, {label}{f' at {place}' if place else ''}",
                _told(by_stage.get("as_found"), sheet),
                _told(by_stage.get("as_left"), sheet),
                any(unsettled(group, sheet) for group in by_stage.values()),
            )
        )
    return tuple(lines)


def _told(group: Group | None, sheet: Sheet) -> str | None:
    """The value as said, or the mean of several with one place more than they have."""
    if group is None:
        return None
    said, mean, limits = group.said, group.mean, group.limits
    text = str(said[0])
    if len(said) > 1 and mean is not None and limits is not None:
        places = 1 + max(len(one.text.partition(".")[2]) for one in said)
        text = f"{with_unit(decimal_text(mean, places), limits.unit)}, mean of {len(said)}"
    return f"{text}?" if unsettled(group, sheet) else text
