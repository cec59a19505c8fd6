"""Over all jobs of a sheet: what fails most, and how values lie within their limits. Pure.

Only what was found counts, read or computed, and only what no longer asks. A fault counts once a job,
however often it was said.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from saywright.judging.capability import FEWEST, Capability, capability
from saywright.judging.derived import Derived, derived
from saywright.judging.instrument import compared
from saywright.judging.judge import judge_group
from saywright.judging.repeats import Group, Thing, groups
from saywright.judging.spread import unsettled
from saywright.judging.wording import capital, short_float, thing, with_unit
from saywright.record.types import Action, Condition, Movement, Reading, Record, waits
from saywright.sheets.model import Characteristic, Sheet

FaultKind = Literal["condition", "reading", "computed", "difference"]  # the last: between parts alike


@dataclass(frozen=True, slots=True)
class Fault:
    """One way in which one part fails."""

    component: str
    kind: FaultKind
    what: str  # id of the condition or of the characteristic
    name: str  # as shown
    jobs: int  # in which it was found, ≥ 1
    of: int  # jobs in which anything was said of the part


@dataclass(frozen=True, slots=True)
class Spread:
    """The values of one characteristic over all jobs."""

    component: str
    characteristic: str
    name: str
    unit: str
    values: int
    capability: Capability | None  # None: too few values, no limits, or all alike

    @property
    def sentence(self) -> str:
        """The figures, or why there are none."""
        found = self.capability
        if found is None:
            if self.values < FEWEST:
                return f"{self.values} values; capability is told from {FEWEST} on."
            return f"{self.values} values, all alike: no capability can be told."
        middle, spread = (with_unit(short_float(one, 4), self.unit) for one in (found.mean, found.s))
        told = f"{found.n} values as found, mean {middle}, s {spread}"
        if found.cp is not None:
            told += f"; Cp {_interval(found.cp)}"
        return f"{told}; Cpk {_interval(found.cpk)}."


@dataclass(frozen=True, slots=True)
class Across:
    """What all jobs of a sheet have in common."""

    jobs: int
    faults: tuple[Fault, ...]  # the most frequent first
    spreads: tuple[Spread, ...]  # in the sheet's order; characteristics with limits that were read


def across(records: Sequence[Record], sheet: Sheet) -> Across:
    """Over *records*, all of *sheet* (its newest form gives names and limits)."""
    found: Counter[tuple[str, FaultKind, str]] = Counter()
    spoken_of: Counter[str] = Counter()
    values: dict[tuple[str, str], list[float]] = defaultdict(list)
    for record in records:
        gathered = groups(compared(record), sheet)
        computed = _computed_found(record, sheet, gathered)
        spoken_of.update(_parts(record) | {one.component for one in computed})
        failed = {*_bad_conditions(record, sheet), *_failed(gathered, sheet), *_failed_computed(computed)}
        found.update(failed)
        for group in _last_found(gathered, sheet):
            if group.mean is not None:
                values[(group.component, group.characteristic)].append(float(group.mean))
        for one in computed:
            if one.value is not None and not one.difference:
                values[(one.component, one.characteristic)].append(float(one.value))
    faults = [
        Fault(component, kind, what, _fault_name(sheet, component, kind, what), jobs, spoken_of[component])
        for (component, kind, what), jobs in found.items()
    ]
    return Across(
        len(records),
        tuple(sorted(faults, key=lambda fault: (-fault.jobs, fault.name))),
        tuple(_spreads(values, sheet)),
    )


def _parts(record: Record) -> set[str]:
    items: tuple[Reading | Condition | Action | Movement, ...] = (
        *record.readings,
        *record.conditions,
        *record.actions,
        *record.movements,
    )
    return {item.component for item in items if item.superseded_by is None and item.component is not None}


def _bad_conditions(record: Record, sheet: Sheet) -> Iterator[tuple[str, FaultKind, str]]:
    for item in record.conditions:
        settled = item.superseded_by is None and not waits(item)
        bad = item.present and not sheet.is_good(item.condition)
        if settled and bad and item.stage == "as_found" and item.component is not None:
            yield item.component, "condition", item.condition


def _failed(gathered: Sequence[Group], sheet: Sheet) -> Iterator[tuple[str, FaultKind, str]]:
    for group in _last_found(gathered, sheet):
        if judge_group(group, sheet, words=False).decision == "does_not_conform":
            yield group.component, "reading", group.characteristic


def _computed_found(record: Record, sheet: Sheet, gathered: tuple[Group, ...]) -> list[Derived]:
    """What the readings as found come to by the sheet's formulas, where none of them asks."""
    found = derived(record, sheet, gathered)
    return [one for one in found if one.stage == "as_found" and one.value is not None and not one.provisional]


def _failed_computed(computed: Sequence[Derived]) -> Iterator[tuple[str, FaultKind, str]]:
    for one in computed:
        if one.judgement.decision == "does_not_conform":
            yield one.component, "difference" if one.difference else "computed", one.characteristic


def _last_found(gathered: Sequence[Group], sheet: Sheet) -> Iterator[Group]:
    """The last value as found of each thing, where it does not ask."""
    last: dict[Thing, Group] = {}
    for group in gathered:
        if group.stage == "as_found":
            last[group.thing] = group
    return (group for group in last.values() if not unsettled(group, sheet))


def _fault_name(sheet: Sheet, component: str, kind: FaultKind, what: str) -> str:
    if kind != "condition":
        name = capital(thing(sheet, component, None, what))
        return f"{name}{' difference' if kind == 'difference' else ''} out of limits"
    return f"{capital(sheet.label(component))} {sheet.condition_label(what)}"


def _spreads(values: dict[tuple[str, str], list[float]], sheet: Sheet) -> Iterator[Spread]:
    for component, characteristic in sheet.characteristics():
        found = values.get((component.id, characteristic.id))
        if not found or characteristic.is_count or not _limited(characteristic):
            continue
        lower, upper = (None if one is None else float(one) for one in characteristic.limits)
        name = capital(thing(sheet, component.id, None, characteristic.id))
        yield Spread(
            component.id,
            characteristic.id,
            name,
            characteristic.unit,
            len(found),
            capability(found, lower, upper),
        )


def _limited(characteristic: Characteristic) -> bool:
    return any(limit is not None for limit in characteristic.limits)


def _interval(of: tuple[float, float, float]) -> str:
    return f"{of[0]:.2f} (95 %: {of[1]:.2f} to {of[2]:.2f})"
