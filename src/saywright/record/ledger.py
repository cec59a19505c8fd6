"""What came off and what went on, part by part.

One line a component; one a position where every movement of the component names its
position. Parts said to be new, or fitted on a component said to be replaced, count as new.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeGuard

from saywright.errors import NotFoundError
from saywright.record.order import in_order_said
from saywright.record.types import Action, Condition, Item, Movement, Record
from saywright.sheets.model import Component, Sheet

REPLACES = frozenset({"replace"})  # actions of the common vocabulary that put in a new part
GONE = frozenset({"missing"})  # conditions that say a part was not there to come off


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """The balance of one component, or of one position of it. Counts are parts, all ≥ 0."""

    component: str
    which: str | None  # position; None for the component as a whole
    places: int  # how many the sheet says are fitted here
    renew: bool  # one out, one new in
    removed: int = 0
    fitted_old: int = 0
    fitted_new: int = 0  # said to be new, or fitted where the part was said to be replaced
    fitted_unsaid: int = 0  # fitted, and not said whether old or new
    absent: int = 0  # found missing, so there was none to come off
    items: tuple[str, ...] = ()  # ids of the movements and replacements counted here

    @property
    def fitted(self) -> int:
        """All that went on."""
        return self.fitted_old + self.fitted_new + self.fitted_unsaid

    @property
    def net(self) -> int:
        """Fitted less removed: 0 when all is back, below 0 when something is off."""
        return self.fitted - self.removed

    @property
    def missing(self) -> int:
        """Off and not back on."""
        return max(0, -self.net)

    @property
    def renewed(self) -> int:
        """Replaced by new ones."""
        return self.fitted_new

    @property
    def not_renewed(self) -> int:
        """Of parts to renew: came off, and no new one was said to be fitted."""
        return max(0, self.removed - self.fitted_new) if self.renew else 0

    @property
    def renewed_twice(self) -> int:
        """New ones beyond the places there are."""
        return max(0, self.fitted_new - self.places)

    @property
    def surplus(self) -> int:
        """Fitted beyond what came off or was found missing."""
        return max(0, self.net - self.absent)

    @property
    def dropped(self) -> int:
        """Old parts that came off and were given up for new ones."""
        return min(self.fitted_new, max(0, self.removed - self.fitted_old - self.fitted_unsaid))


@dataclass(frozen=True, slots=True)
class Ledger:
    """All lines, in the sheet's order."""

    lines: tuple[LedgerLine, ...]

    def of(self, component: str, which: str | None = None) -> LedgerLine | None:
        """The line of this component (and position); None where nothing of it moved."""
        return next((x for x in self.lines if (x.component, x.which) == (component, which)), None)

    @property
    def balanced(self) -> bool:
        """True where all that came off is back, and nothing else is on."""
        return all(not (x.missing or x.surplus) for x in self.lines)


def ledger(record: Record, sheet: Sheet, *, up_to: str | None = None) -> Ledger:
    """The balance of all parts that moved; with *up_to*, as it stood when that item had been said.

    Withdrawn and replaced items do not count. NotFoundError where nothing said has the id *up_to*.
    """
    held = [item for item in _said(record, up_to) if item.superseded_by is None]
    by_component: dict[str, list[Movement | Action]] = defaultdict(list)
    for item in held:
        if (isinstance(item, Movement) or _puts_in_new(item)) and item.component is not None:
            by_component[item.component].append(item)
    absent = {
        (item.component, item.which)
        for item in held
        if isinstance(item, Condition) and item.present and item.condition in GONE
    }
    order = {component.id: number for number, component in enumerate(sheet.component)}
    lines: list[LedgerLine] = []
    for component_id in sorted(by_component, key=lambda c: order.get(c, len(order))):
        component = sheet.get(component_id) or Component(id=component_id)
        lines.extend(_lines(component, by_component[component_id], absent))
    return Ledger(tuple(lines))


def _lines(
    component: Component, items: list[Movement | Action], absent: set[tuple[str | None, str | None]]
) -> list[LedgerLine]:
    """One line a position where every item names one; else one for the component."""
    places = component.whiches
    if places and all(item.which in places for item in items):
        found = [_line(component, which, [i for i in items if i.which == which], absent) for which in places]
        return [line for line in found if line.items]
    return [_line(component, None, items, absent)]


def _line(
    component: Component,
    which: str | None,
    items: Iterable[Movement | Action],
    absent: set[tuple[str | None, str | None]],
) -> LedgerLine:
    places = 1 if which is not None else component.count
    line = LedgerLine(component.id, which, places, component.renew)
    swapped = 0
    for item in items:
        line = replace(line, items=(*line.items, item.id))
        if isinstance(item, Action):
            swapped += item.quantity or (places if item.which is None else 1)
        elif item.movement == "removed":
            line = replace(line, removed=line.removed + item.count)
        elif item.part == "new":
            line = replace(line, fitted_new=line.fitted_new + item.count)
        elif item.part == "old":
            line = replace(line, fitted_old=line.fitted_old + item.count)
        else:
            line = replace(line, fitted_unsaid=line.fitted_unsaid + item.count)
    line = _with_replacements(line, min(swapped, places))
    if (component.id, which) in absent or (component.id, None) in absent:
        line = replace(line, absent=places)
    elif which is None:
        line = replace(line, absent=sum(1 for c, w in absent if c == component.id and w is not None))
    return line


def _with_replacements(line: LedgerLine, swapped: int) -> LedgerLine:
    """Count a part that was said to be replaced as new, once: first where a fitting did not say, then
    where the part was off and no fitting was said at all.
    """
    lacking = max(0, swapped - line.fitted_new)
    said = min(lacking, line.fitted_unsaid)
    unsaid = min(lacking - said, max(0, line.removed - line.fitted))
    return replace(line, fitted_new=line.fitted_new + said + unsaid, fitted_unsaid=line.fitted_unsaid - said)


def _puts_in_new(item: Item) -> TypeGuard[Action]:
    """True for a replacement that was done."""
    return isinstance(item, Action) and item.status == "done" and item.action in REPLACES


def _said(record: Record, up_to: str | None) -> list[Item]:
    """The items in the order said, to *up_to*; pictures and what was measured in them have no place there."""
    said = in_order_said(item for item in record.items() if item.id.startswith("s"))
    if up_to is None:
        return said
    at = next((at for at, item in enumerate(said, start=1) if item.id == up_to), None)
    if at is None:
        what = f"nothing said has the id '{up_to}'"
        raise NotFoundError(what, to_do="Take the id of an item from the record, like s12")
    return said[:at]
