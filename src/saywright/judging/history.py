"""All visits of one item: each characteristic over time, what changed, and where it is heading.

Pure: the visits come in as data. Values that wait for a person are shown, and left out of trend and chart.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from datetime import date

from saywright.judging.changed import Change, Point, differs
from saywright.judging.charts import Chart, chart
from saywright.judging.instrument import compared
from saywright.judging.repeats import Group, Thing, groups
from saywright.judging.spread import unsettled
from saywright.judging.trend import FEWEST, Line, Meeting, fit, meeting
from saywright.judging.uncertainty import budget, read_step
from saywright.judging.wording import thing
from saywright.record.ledger import REPLACES
from saywright.record.types import Record
from saywright.sheets.model import Characteristic, Sheet, Stage
from saywright.units import UNITS, convert

STAGES: tuple[Stage, ...] = ("as_found", "as_left")


@dataclass(frozen=True, slots=True)
class Visit:
    """One job on the item."""

    job: str
    day: date
    record: Record
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class Course:
    """One characteristic of one part over all visits."""

    component: str
    which: str | None
    characteristic: str
    place: str | None
    name: str  # as shown
    limits: Characteristic  # of the newest sheet that has it; its unit is that of all values
    points: tuple[Point, ...]  # by day; as found before as left
    changes: tuple[Change, ...]  # from each visit to the next at which it was found
    line: Line | None  # through what was found since it last changed; x in days (ordinal); None: too few
    meets: Meeting | None
    chart: Chart | None  # of what was found; None: too few

    @property
    def unit(self) -> str:
        """Unit of the values."""
        return self.limits.unit

    @property
    def visits(self) -> int:
        """Visits at which it was read."""
        return len({point.job for point in self.points})


def history(visits: Sequence[Visit]) -> tuple[Course, ...]:
    """Every characteristic that was read, in the order of the newest sheet. *visits* need no order."""
    if not visits:
        return ()
    ordered = sorted(visits, key=lambda visit: (visit.day, visit.job))
    limits: dict[tuple[str, str], Characteristic] = {}
    place: dict[tuple[str, str], int] = {}
    sheet_before: Sheet | None = None
    for visit in reversed(ordered):
        if visit.sheet is sheet_before:
            continue
        sheet_before = visit.sheet
        for component, characteristic in visit.sheet.characteristics():
            one = (component.id, characteristic.id)
            limits.setdefault(one, characteristic)
            place.setdefault(one, len(place))
    gathered: dict[Thing, list[Point]] = {}
    work = _Points(limits)
    for visit in ordered:
        for key, point in work.of(visit):
            gathered.setdefault(key, []).append(point)
    newest = ordered[-1].sheet
    keys = sorted(gathered, key=lambda key: (place[(key[0], key[2])], *_within(key, limits, newest)))
    return tuple(_course(key, gathered[key], limits[(key[0], key[2])], newest) for key in keys)


def _within(key: Thing, limits: dict[tuple[str, str], Characteristic], sheet: Sheet) -> tuple[int, ...]:
    """Where a position and a place stand in the sheet's order; none first, one it does not know last."""
    component, which, characteristic, place = key
    part = sheet.get(component)
    orders = (part.whiches if part is not None else (), limits[(component, characteristic)].places)
    return tuple(
        -1 if name is None else order.index(name) if name in order else len(order)
        for name, order in zip((which, place), orders, strict=True)
    )


class _Points:
    """Readings of visits → points; what the uncertainty of a single reading is, is found once."""

    def __init__(self, limits: dict[tuple[str, str], Characteristic]) -> None:
        self._limits = limits
        self._known: dict[tuple[Hashable, ...], float] = {}

    def of(self, visit: Visit) -> list[tuple[Thing, Point]]:
        """The last value of each stage at a visit, as found first."""
        last: dict[tuple[Thing, Stage], Group] = {}
        for group in groups(compared(visit.record), visit.sheet):
            if group.values and (group.component, group.characteristic) in self._limits:
                last[(group.thing, group.stage)] = group
        renewed = _renewed(visit.record)
        found = []
        for stage in STAGES:
            for (key, at), group in last.items():
                point = self._point(visit, group, key[:2] in renewed) if at == stage else None
                found += [(key, point)] if point else []
        return found

    def _point(self, visit: Visit, group: Group, renewed: bool) -> Point | None:
        own = visit.sheet.find(group.component, group.characteristic)
        limits = self._limits[(group.component, group.characteristic)]
        mean = group.mean
        if own is None or mean is None or UNITS[own.unit].kind != UNITS[limits.unit].kind:
            return None
        degrees = None
        if group.spread:
            known = budget(own, group.said, visit.sheet, spread=group.spread)
            variance, degrees = float(known.variance), known.degrees
        else:
            variance = self._variance(visit.sheet, own, group)
        if own.unit != limits.unit:
            mean = convert(mean, own.unit, limits.unit)
            variance *= float(UNITS[own.unit].factor / UNITS[limits.unit].factor) ** 2
        return Point(
            visit.job,
            visit.day,
            group.stage,
            mean,
            variance,
            degrees,
            len(group.values),
            unsettled(group, visit.sheet),
            renewed,
            _said(group, limits.unit),
        )

    def _variance(self, sheet: Sheet, own: Characteristic, group: Group) -> float:
        """u² of values without spread: it depends on the digits, units and u told, not on the value."""
        steps = {(read_step(r.value), r.unit, r.u) for r in group.readings}
        key = (id(sheet), id(own), frozenset(steps))
        if key not in self._known:
            self._known[key] = float(budget(own, group.said, sheet).variance)
        return self._known[key]


def _said(group: Group, unit: str) -> str:
    one = group.readings[0]
    return one.value if len(group.readings) == 1 and one.unit == unit and "/" not in one.value else ""


def _renewed(record: Record) -> set[tuple[str, str | None]]:
    """Components (and positions) that got a new part."""
    found = {
        (action.component, action.which)
        for action in record.actions
        if action.superseded_by is None
        and action.status == "done"
        and action.action in REPLACES
        and action.component is not None
    }
    found |= {
        (move.component, move.which)
        for move in record.movements
        if move.superseded_by is None and move.movement == "fitted" and move.part == "new"
    }
    return found


def _course(key: Thing, points: list[Point], limits: Characteristic, sheet: Sheet) -> Course:
    name = thing(sheet, *key)
    steady = _since_changed(points)
    line = None
    if len(steady) >= FEWEST and not limits.is_count:
        line = fit([float(p.day.toordinal()) for p in steady], [float(p.value) for p in steady])
    lower, upper = (None if one is None else float(one) for one in limits.limits)
    found = [float(p.value) for p in points if p.stage == "as_found" and not p.provisional]
    return Course(
        *key,
        name,
        limits,
        tuple(points),
        _changes(name, limits.unit, points),
        line,
        meeting(line, lower, upper) if line else None,
        None if limits.is_count else chart(found),
    )


def _changes(name: str, unit: str, points: Sequence[Point]) -> tuple[Change, ...]:
    """From the last value of one visit to the first of the next, where that was as found."""
    made = []
    before: Point | None = None
    for point in points:
        if before is not None and point.stage == "as_found" and point.job != before.job:
            made.append(Change(name, unit, before, point))
        before = point
    return tuple(made)


def _since_changed(points: Sequence[Point]) -> list[Point]:
    """What was found since the part was last renewed or set to another value; that value begins the row.

    A value that asks is left out; what was found and asks still tells whether the part was set to another.
    """
    row: list[Point] = []
    found: Point | None = None
    for point in points:
        if point.stage == "as_found":
            row += [] if point.provisional else [point]
            found = point
            if point.renewed:
                row = []
        elif not point.provisional:
            same = found is not None and found.job == point.job and not point.renewed
            if not (same and found is not None and not differs(found, point)):
                row = [point]
    return row
