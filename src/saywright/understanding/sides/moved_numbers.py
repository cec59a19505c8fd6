""" "End covers back on one and two", "bolts out three and four": which moved, told behind the movement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.sheets.model import Component, Sheet
from saywright.understanding.counting.counts import small_count
from saywright.understanding.phrases import Phrase
from saywright.understanding.quantities.plausible import is_plausible

_MOVES = frozenset({"off", "on"})


def numbers_behind_move(found: Sequence[Phrase], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases; numbers that end a clause behind a movement tell which of its part moved."""
    for at in range(len(found) - 3):
        part, move = found[at : at + 2]
        if part.kind != "subject" or move.kind not in _MOVES or not part.meaning.many or part.head is None:
            continue
        end, orders = _row(found, at + 2)
        named = [sheet.get(c) for c in (*part.meaning.parts, *part.meaning.aliases)]
        one = named[0] if len(named) == 1 else None
        if one is None or not _are_of(one, orders) or not (end == len(found) or found[end].kind == "break"):
            continue
        told = () if one.positions else orders
        head = replace(part.head, count=len(orders) if one.positions else None, orders=told)
        behind = replace(move, end=found[end - 1].end)
        return [*found[:at], replace(part, head=head), behind, *found[end:]]
    return found


def counted_behind(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """ "new springs two of them drum on": how many of the springs, and the drum is the next."""
    for at in range(len(found) - 1):
        part, them = found[at : at + 2]
        if "THEM" not in them.tags or part.kind != "subject" or part.end != them.start or part.head is None:
            continue
        count = next((tag.count for tag in them.lead if tag.count), None) or (them.head and them.head.count)
        ends = at + 2 == len(found) or found[at + 2].kind in {"subject", "break"}
        if count and ends and "NEW" in part.lead_tags and part.meaning.many:
            one = replace(part, end=them.end, head=replace(part.head, count=count))
            return [*found[:at], one, *found[at + 2 :]]
    return found


def _row(found: Sequence[Phrase], at: int) -> tuple[int, tuple[int, ...]]:
    """The end of the row of rising small numbers that begins at phrase *at*, and the numbers."""
    orders: list[int] = []
    end, joined = at, False
    while at < len(found):
        said = found[at].measure if found[at].kind == "measure" else None
        count = small_count(said) if said is not None and said.unit_said is None else None
        if count is not None and (not orders or count > orders[-1]):
            orders.append(count)
            end = at + 1
        elif not (orders and found[at].kind == "link" and "AND" in found[at].tags):
            break
        joined = joined or found[at].kind == "link"
        at += 1
    return end, tuple(orders) if joined and len(orders) > 1 else ()


def _are_of(part: Component, orders: Sequence[int]) -> bool:
    """True where *part* has as many, and they are no values that are read on it."""
    most = len(part.positions) or part.count
    fits = bool(orders) and orders[-1] <= most and (not part.positions or len(orders) == most)
    values = [parse_value(str(order)) for order in orders]
    return fits and not any(is_plausible(c, value) for c in part.characteristic for value in values)
