"""The side that goes with what is in hand: kept over the parts that follow, until another is named. Pure."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.levels import in_row, row_worked_on
from saywright.understanding.sides.turning import has_side, side_with, words_on

_SIDES = frozenset({"side", "end"})
_SIDE_HOLDS = 30  # utterances that a side turned to holds for without being named
_SIDE_NEAR = 5  # the same for the side of the part named last


def taken_up(part: Hand, held: Hand | None, sheet: Sheet, said: Collection[str]) -> Hand:
    """*part*, named now in the words *said*, with the side it is on; *held* was in hand before."""
    side, side_at = _side(part, held, sheet, said)
    turned_to, left = (held.turned_to, held.side_left) if held is not None else (None, None)
    row = row_worked_on(part, held, sheet)
    return Hand(part.component, part.which, part.utterance, side, side_at, turned_to, row, left)


def side_of_several(part: Hand, whiches: Collection[str | None], sheet: Sheet) -> Hand:
    """ "both front bolts are out": the side that all of *whiches* of *part* in hand have in common."""
    said = [set(which.split()) for which in whiches if which is not None]
    shared = set.intersection(*said) if len(said) > 1 and len(said) == len(whiches) else set()
    side = shared.pop() if len(shared) == 1 else None
    if side is None or part.turned or not any(side in c.stations for c in sheet.component):
        return part
    return replace(part, side=side, side_at=part.utterance)


def kept_in_hand(held: Hand | None, now: int) -> Hand | None:
    """What is in hand where the job begins to go back together in utterance *now*.

    No side is turned to any more, but one that was named just now.
    """
    return held if held is None or held.side_at == now else replace(held, side=None, turned_to=None)


def _side(part: Hand, held: Hand | None, sheet: Sheet, said: Collection[str]) -> tuple[str | None, int]:
    """The side that what follows is on, and when it was last said."""
    now, spec = part.utterance, sheet.get(part.component)
    on = side_with(sheet, part.which, held) if spec is not None and part.which in spec.stations else None
    if held is None or held.side is None:
        return on, now
    if spec is not None and part.which is None and not held.turned and held.side in spec.stations:
        return None, 0  # all of them were spoken of
    if on is not None and spec is not None and held.turned and not has_side(spec, held.side):
        return held.side, held.side_at  # "oil ring" while the low side is worked on
    if on is not None and held.turned and _only_other(on, said):
        return held.side, held.side_at  # "the other one was five": in passing
    past = now - held.side_at > (_SIDE_HOLDS if held.turned else _SIDE_NEAR)
    if past or on not in {None, held.side}:
        return on, now
    again = on is not None and (held.turned or set(on.split()) <= set(said))
    return held.side, now if again else held.side_at


def _only_other(on: str, said: Collection[str]) -> bool:
    """True where *on* was told as the other one, and neither by its name nor as a side."""
    return "other" in said and not set(on.split()) & set(said) and _SIDES.isdisjoint(said)


def on_the_side(
    positions: Iterable[str], hand: Hand | None, said: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """Those of *positions* of which each word is *said* or is one of the side in hand."""
    if hand is None or hand.side is None:
        return tuple(p for p in positions if said and said.issuperset(p.split()))
    near = said | set(hand.side.split())
    here = tuple(p for p in positions if near.issuperset(p.split()))
    return here or tuple(p for p in positions if (said | hand.side_words).issuperset(p.split()))


def many_here(
    positions: Sequence[str], hand: Hand | None, said: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """Those of *positions* on the side turned to, where there are several and more on the other."""
    side = set(hand.side.split()) if hand is not None and hand.side is not None and hand.turned else set()
    if len(said) > 1 and not side.isdisjoint(said):
        return ()  # "new pads in front and rear"
    here = tuple(p for p in positions if side and side.issubset(p.split()))
    return here if 1 < len(here) < len(positions) else ()


def both_here(component: Component, hand: Hand | None, now: int = -1) -> tuple[str | None, ...]:
    """The two of *component* in the row worked on, on the side turned to, or named in utterance *now*.

    Else it is not known.
    """
    row = in_row(component.positions, hand)
    if len(row) == 2:
        return row
    near = hand is not None and (hand.turned or hand.side_at == now)
    side = words_on(component, hand.side) if hand is not None and near else set()
    here = tuple(p for p in component.positions if side and side < set(p.split()))
    return here if len(here) == 2 else (None,)


def others_here(
    component: Component, held: str | None, hand: Hand | None, now: int, *, alone: bool
) -> list[str]:
    """Those besides the *held* one; where one *alone* is meant, of the two on the side turned to."""
    here = both_here(component, hand, now) if alone and held is not None else ()
    near = here if held in here else component.whiches
    return [which for which in near if which is not None and which != held]


def two_sides(hand: Hand, now: int) -> list[Flag]:
    """An ask where one side was turned to and the part named last, before this breath, was on another."""
    if hand.turned_to is None or hand.turned or hand.side_at == now:
        return []
    return [flag(FlagKind.WHICH_UNCLEAR, f"{hand.side}, or {hand.turned_to}")]
