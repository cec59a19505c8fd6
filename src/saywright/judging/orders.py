"""Parts to order: what was proposed and neither done nor declined since, merged by component."""

from __future__ import annotations

from dataclasses import dataclass

from saywright.judging.wording import limits_text, thing, with_unit
from saywright.record.ledger import REPLACES
from saywright.record.order import in_order_said
from saywright.record.types import Action, Condition, Item, Movement, Reading, Record, waits
from saywright.sheets.model import Sheet

ORDERS = frozenset({"order"})  # actions of the common vocabulary that ask for a part to be bought


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
    """What is to be ordered, in the order first asked for. *record* is judged.

    "Replace" is settled once it was done or a new part was fitted. "Order" is settled only by having
    been ordered or declined: who fits the last one from the shelf may well order another.
    """
    return tuple(_order(asked, record, sheet) for asked in _wanted(record, sheet).values())


def _wanted(record: Record, sheet: Sheet) -> dict[str | None, list[Action]]:
    """Component → proposals still open, following the job from start to end."""
    wanted: dict[str | None, list[Action]] = {}
    steps: list[Action | Movement] = [*record.actions, *record.movements]
    for step in in_order_said(step for step in steps if step.superseded_by is None):
        asked = wanted.setdefault(step.component, [])
        if isinstance(step, Action):
            action = sheet.get_action(step.action)
            if not ((action is not None and action.order) or step.action in REPLACES):
                continue
            if step.status == "proposed":
                asked.append(step)
                continue
            in_hand = step.status == "done" and step.action not in ORDERS
            wanted[step.component] = _left(asked, step.which, step.quantity, in_hand, sheet)
        elif step.movement == "fitted" and step.part == "new":
            wanted[step.component] = _left(asked, step.which, step.count, True, sheet)
    return {component: asked for component, asked in wanted.items() if asked}


def _left(
    asked: list[Action], which: str | None, amount: int | None, in_hand: bool, sheet: Sheet
) -> list[Action]:
    """The proposals still open after one was done or declined, for a position or for all.

    *in_hand*: a new part is in, which settles no explicit order. One new bush fitted of two to
    replace leaves the proposal standing: better one too many than one forgotten.
    """
    if which is None and amount is not None:
        known = sheet.get(asked[0].component) if asked else None
        to_order = _quantity(asked, known.count if known else 1) if asked else None
        if to_order is None or amount < to_order:
            return asked
    return [
        proposal
        for proposal in asked
        if (which is not None and proposal.which != which) or (in_hand and proposal.action in ORDERS)
    ]


def _order(proposals: list[Action], record: Record, sheet: Sheet) -> Order:
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
    number = numbers[-1].value if numbers else component.part_number if component else None
    return Order(
        component=component_id,
        label=component.label if component else "part not named",
        quantity=_quantity(proposals, component.count if component else 1),
        part_number=number,
        reason=", ".join(reasons),
        evidence=tuple(dict.fromkeys(item.id for item in evidence)),
        provisional=any(waits(item) for item in evidence),
    )


def _quantity(proposals: list[Action], fitted: int) -> int | None:
    """How many: said again is not more; positions add up; unsaid is one only where one is fitted."""
    by_which: dict[str, int] = {}
    for proposal in proposals:
        if proposal.which is not None:
            by_which[proposal.which] = max(by_which.get(proposal.which, 1), proposal.quantity or 1)
    named = sum(by_which.values())
    loose = [proposal.quantity for proposal in proposals if proposal.which is None]
    said = [quantity for quantity in loose if quantity is not None]
    if said:
        return max(named, *said)
    if loose and fitted > 1:
        return named if named == fitted else None
    return named or 1


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
