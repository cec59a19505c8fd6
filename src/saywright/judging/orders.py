"""Parts to order: what was proposed and neither done nor declined since, merged by component."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from saywright.judging.wording import limits_text, thing, with_unit
from saywright.record.ledger import REPLACES
from saywright.record.types import Action, Condition, Item, Movement, Reading, Record
from saywright.sheets.model import Sheet


@dataclass(frozen=True, slots=True)
class Order:
    """One line of the order list."""

    component: str | None  # None: the part was not named
    label: str
    quantity: int | None  # None: not said, and several are fitted
    part_number: str | None  # as read out, else the sheet's
    reason: str  # from conditions and readings; "" where nothing was said
    evidence: tuple[str, ...]  # ids of the items it rests on
    provisional: bool  # true while one of these asks


def orders(record: Record, sheet: Sheet) -> tuple[Order, ...]:
    """What is to be ordered, in the order first asked for."""
    return tuple(
        _order(component, wanted, record, sheet) for component, wanted in _wanted(record, sheet).items()
    )


_Wanted = dict[str | None, list[Action]]  # position → proposals still open


def _wanted(record: Record, sheet: Sheet) -> dict[str | None, _Wanted]:
    """Component → what is proposed and still open, following the job from start to end."""
    wanted: dict[str | None, _Wanted] = defaultdict(lambda: defaultdict(list))
    steps: list[Action | Movement] = [*record.actions, *record.movements]
    for step in sorted((s for s in steps if s.superseded_by is None), key=lambda s: _number(s.id)):
        if isinstance(step, Movement):
            if step.movement == "fitted" and step.part == "new":
                _settled(wanted, step.component, step.which, step.count, sheet)
            continue
        action = sheet.get_action(step.action)
        if not ((action is not None and action.order) or step.action in REPLACES):
            continue
        if step.status == "proposed":
            wanted[step.component][step.which].append(step)
        else:
            _settled(wanted, step.component, step.which, step.quantity, sheet)
    return {component: dict(open_) for component, open_ in wanted.items() if any(open_.values())}


def _settled(
    wanted: dict[str | None, _Wanted],
    component: str | None,
    which: str | None,
    amount: int | None,
    sheet: Sheet,
) -> None:
    """Drop what was done or declined: for this position, or for all where none was named.

    One new bush fitted of two to order leaves the order standing: better one too many than one forgotten.
    """
    if component not in wanted:
        return
    if which is not None:
        wanted[component].pop(which, None)
        return
    known = sheet.get(component)
    to_order = _quantity(wanted[component], known.count if known else 1)
    if amount is None or (to_order is not None and amount >= to_order):
        del wanted[component]


def _order(component_id: str | None, wanted: _Wanted, record: Record, sheet: Sheet) -> Order:
    component = sheet.get(component_id)
    proposals = [action for actions in wanted.values() for action in actions]
    named = {which for which in wanted if which is not None}
    conditions = [
        c
        for c in record.conditions
        if _about(c, component_id, named) and c.present and not _is_good(c, sheet)
    ]
    failed = [r for r in record.readings if _about(r, component_id, named) and _fails(r)]
    numbers = [
        i
        for i in record.identifiers
        if i.superseded_by is None
        and i.identifier == "part_number"
        and i.component == component_id
        and component_id is not None
        and not i.partial
    ]
    evidence: list[Item] = [*proposals, *conditions, *failed, *numbers[-1:]]
    reasons = dict.fromkeys(
        [_condition_text(c, sheet) for c in conditions] + [_failed_text(r, sheet) for r in failed]
    )
    number = numbers[-1].value if numbers else component.part_number if component else None
    return Order(
        component=component_id,
        label=component.label if component else "part not named",
        quantity=_quantity(wanted, component.count if component else 1),
        part_number=number,
        reason=", ".join(reasons),
        evidence=tuple(dict.fromkeys(item.id for item in evidence)),
        provisional=any(item.asks and item.accepted_by is None for item in evidence),
    )


def _quantity(wanted: _Wanted, fitted: int) -> int | None:
    """How many: said again is not more; positions add up; unsaid is one only where one is fitted."""
    named = sum(
        max(a.quantity or 1 for a in actions) for which, actions in wanted.items() if which and actions
    )
    loose = wanted.get(None, [])
    said = [a.quantity for a in loose if a.quantity is not None]
    if said:
        return max(named, *said)
    if loose and fitted > 1:
        return named if named == fitted else None
    return named or 1


def _about(item: Condition | Reading, component_id: str | None, named: set[str]) -> bool:
    fits = item.component == component_id and component_id is not None and item.superseded_by is None
    return fits and (not named or item.which is None or item.which in named)


def _is_good(condition: Condition, sheet: Sheet) -> bool:
    known = sheet.get_condition(condition.condition)
    return known is not None and known.good


def _fails(reading: Reading) -> bool:
    return reading.decision == "does_not_conform" and reading.stage == "as_found"


def _condition_text(condition: Condition, sheet: Sheet) -> str:
    known = sheet.get_condition(condition.condition)
    text = known.label if known else condition.condition.replace("_", " ")
    text = f"{text} ({condition.severity})" if condition.severity else text
    return f"{condition.which}: {text}" if condition.which else text


def _failed_text(reading: Reading, sheet: Sheet) -> str:
    characteristic = sheet.find(reading.component, reading.characteristic)
    limits = f" (limits {limits_text(characteristic)})" if characteristic else ""
    name = thing(sheet, reading.component, reading.which, reading.characteristic)
    return f"{name} {with_unit(reading.value, reading.unit)}{limits}"


def _number(item_id: str) -> int:
    digits = "".join(character for character in item_id if character.isdigit())
    return int(digits or 0)
