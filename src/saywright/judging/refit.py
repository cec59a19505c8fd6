"""How it goes back together: the parts in the reverse order of their removal, with settings and torques.

A line is ticked when as many went on as came off; a setting when it was said as left. What came off last
goes on first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saywright.judging.repeats import Group, groups
from saywright.judging.restored import restored
from saywright.judging.wording import limits_text, number, thing, with_unit
from saywright.record.ledger import LedgerLine, ledger
from saywright.record.order import in_order_said
from saywright.record.types import Record
from saywright.sheets.model import Component, Sheet
from saywright.units import UNITS

_TORQUE = "torque"  # kind of unit


@dataclass(frozen=True, slots=True)
class RefitStep:
    """A setting to put back or a torque to keep, at one part."""

    name: str
    target: str  # value or limits, with unit
    done: bool  # it was said as left
    items: tuple[str, ...]  # ids of the readings it rests on


@dataclass(frozen=True, slots=True)
class RefitLine:
    """One part to go back."""

    component: str
    which: str | None
    label: str
    count: int  # parts that came off; 0: it stayed on, and only has settings
    to_do: int  # of these not back on
    renew: bool
    steps: tuple[RefitStep, ...]
    items: tuple[str, ...]  # ids of the movements

    @property
    def done(self) -> bool:
        """True where all is back and each setting was said."""
        return self.to_do == 0 and all(step.done for step in self.steps)


def refit(record: Record, sheet: Sheet) -> tuple[RefitLine, ...]:
    """The list; empty where nothing came off. Settings of parts that stayed on come last."""
    gathered = groups(record, sheet)
    off = [line for line in ledger(record, sheet).lines if line.removed]
    removals = [m for m in in_order_said(record.movements) if m.movement == "removed"]
    place = {movement.id: at for at, movement in enumerate(removals)}
    off.sort(key=lambda line: max(place.get(item, -1) for item in line.items), reverse=True)
    lines = [_line(line, record, sheet, gathered) for line in off]
    if not lines:
        return ()
    there = {line.component for line in lines}
    for component in sheet.component:
        if component.id not in there:
            for which in (*component.whiches, None):
                steps = tuple(_settings(record, sheet, gathered, component, which))
                if steps:
                    label = sheet.label(component.id, which)
                    lines.append(RefitLine(component.id, which, label, 0, 0, False, steps, ()))
    return tuple(lines)


def _line(line: LedgerLine, record: Record, sheet: Sheet, gathered: tuple[Group, ...]) -> RefitLine:
    component = sheet.get(line.component) or Component(id=line.component)
    whiches = (line.which,) if line.which is not None else (*component.whiches, None)
    steps: list[RefitStep] = []
    for which in whiches:
        steps += _settings(record, sheet, gathered, component, which)
    steps += _torques(sheet, gathered, component, line.which)
    label = sheet.label(line.component, line.which)
    return RefitLine(
        line.component, line.which, label, line.removed, line.missing, line.renew, tuple(steps), line.items
    )


def _settings(
    record: Record, sheet: Sheet, gathered: tuple[Group, ...], component: Component, which: str | None
) -> Iterator[RefitStep]:
    for setting in restored(record, sheet, gathered):
        if (setting.component, setting.which) != (component.id, which) or setting.found is None:
            continue
        known = component.get(setting.characteristic)
        unit = known.unit if known else "1"
        name = thing(sheet, component.id, which, setting.characteristic)
        target = f"back to {with_unit(number(setting.found), unit)}"
        yield RefitStep(name, target, setting.left is not None, setting.left_items)


def _torques(
    sheet: Sheet, gathered: tuple[Group, ...], component: Component, which: str | None
) -> Iterator[RefitStep]:
    for known in component.characteristic:
        if UNITS[known.unit].kind != _TORQUE or all(limit is None for limit in known.limits):
            continue
        said = [
            g
            for g in gathered
            if (g.component, g.characteristic, g.stage) == (component.id, known.id, "as_left")
            and (which is None or g.which in (which, None))
        ]
        wanted = set(component.whiches) if which is None else {which}
        got = {g.which for g in said}
        done = bool(said) and (None in got or wanted <= got)
        items = tuple(reading.id for g in said for reading in g.readings)
        yield RefitStep(thing(sheet, component.id, which, known.id), limits_text(known), done, items)
