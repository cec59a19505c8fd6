"""Parts to order: what was proposed and neither done nor declined since, merged by component."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saywright.judging.proposals import Step, asks_for_a_part, quantity, settled
from saywright.judging.wording import limits_text, thing, with_unit
from saywright.record.order import in_order_said
from saywright.record.types import Action, Condition, Item, Reading, Record, waits
from saywright.sheets.model import Sheet

NEW_ONE_SINCE = "a new one was fitted since"  # the order stands: what is on may have been the last one


@dataclass(frozen=True, slots=True)
class Order:
    """One line of the order list."""

    component: str | None  # None: the part was not named
    label: str
    quantity: int | None  # None: not said, and several are fitted
    part_number: str | None  # as read out, else the sheet's
    reason: str  # from conditions and readings, and that a new one is on; "" where nothing was said
    evidence: tuple[str, ...]  # ids of the items it rests on
    provisional: bool  # true while one of these asks


def orders(record: Record, sheet: Sheet) -> tuple[Order, ...]:
    """What is to be ordered, in the order first asked for. *record* is judged.

    Which proposals still stand is told by `saywright.judging.proposals`.
    """
    over = settled(record, sheet, bought=True)
    wanted: dict[str | None, list[Action]] = {}
    for action in in_order_said(record.actions):
        held = action.status == "proposed" and action.superseded_by is None and action.id not in over
        if held and asks_for_a_part(action.action, sheet):
            wanted.setdefault(action.component, []).append(action)
    fitted = settled(record, sheet, bought=True, renewed=True)
    return tuple(_order(asked, fitted, record, sheet) for asked in wanted.values())


def _order(proposals: list[Action], fitted: Mapping[str, Step], record: Record, sheet: Sheet) -> Order:
    component_id = proposals[0].component
    component = sheet.get(component_id)
    named = {p.which for p in proposals if p.which is not None}
    named = set() if any(p.which is None for p in proposals) else named
    conditions = [
        c
        for c in record.conditions
        if _about(c, component_id, named) and c.present and not sheet.is_good(c.condition)
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
    if all(proposal.id in fitted for proposal in proposals):
        reasons[NEW_ONE_SINCE] = None
    number = numbers[-1].value if numbers else component.part_number if component else None
    return Order(
        component=component_id,
        label=component.label if component else "part not named",
        quantity=quantity(proposals, component.count if component else 1),
        part_number=number,
        reason=", ".join(reasons),
        evidence=tuple(dict.fromkeys(item.id for item in evidence)),
        provisional=any(waits(item) for item in evidence),
    )


def _about(item: Condition | Reading, component_id: str | None, named: set[str]) -> bool:
    fits = item.component == component_id and component_id is not None and item.superseded_by is None
    return fits and (not named or item.which is None or item.which in named)


def _fails(reading: Reading) -> bool:
    return reading.decision == "does_not_conform" and reading.stage == "as_found"


def _condition_text(condition: Condition, sheet: Sheet) -> str:
    text = sheet.condition_label(condition.condition)
    text = f"{text} ({condition.severity})" if condition.severity else text
    return f"{condition.which}: {text}" if condition.which else text


def _failed_text(reading: Reading, sheet: Sheet) -> str:
    characteristic = sheet.find(reading.component, reading.characteristic)
    limits = f" (limits {limits_text(characteristic)})" if characteristic else ""
    name = thing(sheet, reading.component, reading.which, reading.characteristic)
    return f"{name} {with_unit(reading.value, reading.unit)}{limits}"
