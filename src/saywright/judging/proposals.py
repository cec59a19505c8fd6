"""What became of each proposal: done since, decided against since, or still to do."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from saywright.record.ledger import REPLACES
from saywright.record.order import in_order_said
from saywright.record.types import Action, Movement, Record
from saywright.sheets.model import Sheet

ORDERS = frozenset({"order"})  # actions of the common vocabulary that ask for a part to be bought
_REUSES = frozenset({"reuse"})  # those that put the old one back

Step = Action | Movement


@dataclass(slots=True)
class _Met:
    """How much of a proposal was done so far."""

    places: set[str] = field(default_factory=set)
    replaced: int = 0  # parts of which no position was said, told as work: "replaced one bush"
    fitted: int = 0  # the same, told as what went on: it may be the same part

    @property
    def count(self) -> int:
        return len(self.places) + max(self.replaced, self.fitted)

    def add(self, step: Step, amount: int) -> None:
        """Count what *step* did; what comes off again is on no more."""
        if isinstance(step, Action):
            self.replaced += amount
        else:
            self.fitted = max(0, self.fitted + (amount if step.movement == "fitted" else -amount))


def settled(record: Record, sheet: Sheet, *, bought: bool = False, renewed: bool = False) -> dict[str, Step]:
    """Id of each proposal that is settled → the step that settled it, following the job from start to end.

    "Replace" is settled once it was done or a new part was fitted, "reuse" once the old one is back.
    "Order" is settled only by having been ordered or declined: who fits the last one from the shelf may
    well order another. *bought*: a part that was ordered counts for "replace" too, as nothing is left to
    buy. *renewed*: a new part that is on counts for "order" too. Of several, as many must be done as were
    meant: better one proposal too many than one forgotten.
    """
    waiting: dict[str | None, list[Action]] = defaultdict(list)
    met: dict[str, _Met] = defaultdict(_Met)
    found: dict[str, Step] = {}
    steps: list[Step] = [*record.actions, *record.movements]
    for step in in_order_said(step for step in steps if step.superseded_by is None):
        here = waiting[step.component]
        if isinstance(step, Action) and step.status == "proposed":
            here.append(step)
            continue
        if isinstance(step, Movement) and step.movement == "removed" and step.which is None:
            for proposal in here:
                met[proposal.id].add(step, step.count)
        about = [p for p in here if _answers(step, p, sheet, bought=bought, renewed=renewed)]
        for proposal in _enough(step, about, met, sheet):
            found[proposal.id] = step
            here.remove(proposal)
    return found


def asks_for_a_part(action: str, sheet: Sheet) -> bool:
    """True for what needs a part to be bought: "order", "replace", what the sheet says so of."""
    known = sheet.get_action(action)
    return action in REPLACES or (known is not None and known.order)


def _answers(step: Step, proposal: Action, sheet: Sheet, *, bought: bool, renewed: bool) -> bool:
    """True where *step* does or declines what is proposed."""
    part, order = asks_for_a_part(proposal.action, sheet), proposal.action in ORDERS
    if isinstance(step, Movement):
        if step.movement != "fitted":
            return False
        return (part and (renewed or not order)) if step.part == "new" else proposal.action in _REUSES
    if step.action == proposal.action:
        return True
    if not (part and asks_for_a_part(step.action, sheet)):
        return False
    if step.action in ORDERS:
        return bought
    return step.status == "declined" or renewed or not order


def _enough(step: Step, about: Sequence[Action], met: dict[str, _Met], sheet: Sheet) -> list[Action]:
    """Those of *about* of which all was done with *step*."""
    amount = step.count if isinstance(step, Movement) else step.quantity
    component = sheet.get(step.component) if step.component else None
    fitted = component.count if component else 1
    if step.which is None and amount is None:
        return list(about)
    if step.which is not None:
        loose = [p for p in about if p.which is None]
        for proposal in loose:
            met[proposal.id].places.add(step.which)
        whole = [p for p in loose if met[p.id].count >= (p.quantity or fitted)]
        return [p for p in about if p.which == step.which or p in whole]
    meant = quantity(about, fitted) or fitted
    for proposal in about:
        met[proposal.id].add(step, amount or 0)
    return [p for p in about if met[p.id].count >= meant]


def quantity(proposals: Sequence[Action], fitted: int) -> int | None:
    """How many: said again is not more; positions add up; unsaid is one only where one is fitted."""
    by_which: dict[str, int] = {}
    for proposal in proposals:
        if proposal.which is not None:
            by_which[proposal.which] = max(by_which.get(proposal.which, 1), proposal.quantity or 1)
    named = sum(by_which.values())
    loose = [proposal.quantity for proposal in proposals if proposal.which is None]
    said = [number for number in loose if number is not None]
    if said:
        return max(named, *said)
    if loose and fitted > 1:
        return named if named == fitted else None
    return named or 1
