"""Which side another one is: "the other side", "next cylinder", "the last one". Pure."""

from __future__ import annotations

from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.numbers.words import ORDINALS
from saywright.understanding.sides.turning import count_on, has_side, other_side, side_of
from saywright.understanding.working import Working

OTHERS: Final = frozenset({"other", "opposite", "far"})


def side_in_hand(hand: Hand | None, sheet: Sheet) -> str | None:
    """The side worked on, or the one that was left last."""
    if hand is None:
        return None
    spec = sheet.get(hand.component)
    told = hand.which if spec is not None and hand.which in spec.stations else None
    return hand.side or side_of(sheet, told) or hand.side_left


def side_meant(word: str, noun: str, held: str, work: Working) -> str | None:
    """The side that *word*, "other", "next", with its *noun* means beside the one *held*.

    "" where it cannot be told: the next of four corners. None where it is another of what is in hand: "now
    the other one" of the two pads on this side.
    """
    if noun in {"one", ""} and not is_one_there(work.sheet, work.hand, held):
        return None
    sides = {p for c in work.sheet.component if held in c.stations for p in c.stations}
    if word in OTHERS:
        other = other_side(work.sheet, held, "end" if noun == "end" else "side")
        across = len(held.split()) < 2 or noun in {"side", "end"} or len(sides) == 2
        return other if other is not None and across else ""
    if held.isdigit():
        return _station(word, int(held), work.lexicon.stations)
    return next(p for p in sides if p != held) if len(sides) == 2 and word != "first" else ""


def _station(word: str, held: int, count: int) -> str:
    """The station of a rank, or the one behind that in hand; the last only where all before it are done."""
    if word == "last":
        return str(count) if held + 1 == count else ""
    order = ORDINALS.get(word, held + 1)
    return str(order) if order <= count else ""


def is_one_there(sheet: Sheet, hand: Hand | None, held: str | None) -> bool:
    """True where what is in hand is the only one of its part on the side *held*."""
    spec = sheet.get(hand.component) if hand is not None else None
    if spec is None or held is None or not has_side(spec, held):
        return False
    return held in spec.stations or count_on(spec, held) == 1
