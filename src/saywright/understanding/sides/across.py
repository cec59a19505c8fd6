"""The other side by the way there: "cross the axle", "across the car now", "straight over the top of her".

Who goes across what is worked on, said at the head of a line, goes on with the other side of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import AWAY, MACHINES, NO_NAME, PLAIN
from saywright.understanding.sides.place_meant import side_in_hand
from saywright.understanding.sides.turning import other_side
from saywright.understanding.sides.turns import Turn
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import words_of
from saywright.understanding.working import Working

_CROSS: Final = words_of("cross crossing")
WAYS: Final = _CROSS | {"across"}
# What may stand before it: "right then, we go straight across the car".
_LEADS: Final = words_of(
    "right okay so now then and well next i we will am is are let us straight go going gone move moving hop "
    "nip step crawl walk shift back up on just over"
)
_BODIES: Final = MACHINES | words_of(
    "axle beam chassis frame bed body cart buggy trolley wagon lorry lathe press unit her him it"
)
_NO_WAYS: Final = AWAY | NO_NAME | PLAIN | words_of("street flats threads wires terminals lot bar head heads")
_GOES: Final = words_of("straight go going gone move moving hop nip step crawl walk shift over")
_THE: Final = words_of("the this")
_BEHIND: Final = words_of("now then and next again")
_BEGINS: Final = frozenset({"NEW", "OLD", "DET", "AND"})


def across_turn(tags: Sequence[Tag], work: Working) -> Turn | None:
    """The turn to the other side that the head of an utterance tells by its way; None where it tells none."""
    texts = work.texts
    if WAYS.isdisjoint(texts):
        return None
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    end = _straight_end(texts, at) or _way_end(texts, at)
    first = next((i for i, tag in enumerate(tags) if tag.start >= end), len(tags)) if end else 0
    held = side_in_hand(work.hand, work.sheet) if first else None
    if held is None or not _begins_anew(tags[first:]):
        return None
    side = other_side(work.sheet, held)
    return Turn(side, 0, first) if side is not None else None


def _straight_end(texts: Sequence[str], at: int) -> int:
    """Index behind "straight across now", "we go across then", where no more is said; 0 else."""
    led = not _GOES.isdisjoint(texts[:at]) and texts[at : at + 1] == ("across",)
    return len(texts) if led and _BEHIND.issuperset(texts[at + 1 :]) else 0


def _way_end(texts: Sequence[str], at: int) -> int:
    """Index behind "cross the axle", "across the car", "cross over" at *at*; 0 where there is none."""
    way, *behind = (*texts[at : at + 3], "", "", "")
    if way not in WAYS:
        return 0
    if (way in _CROSS and behind[0] == "over") or behind[0] in _BODIES:
        end = at + 2
    elif behind[0] in _THE and (behind[1] in _BODIES or (way in _CROSS and _is_body(behind[1]))):
        end = at + 3
    else:
        return 0
    while end < len(texts) and texts[end] in _BEHIND:
        end += 1
    return end


def _is_body(noun: str) -> bool:
    return noun.isalpha() and noun not in _NO_WAYS


def _begins_anew(behind: Sequence[Tag]) -> bool:
    """True where nothing is told of the way: "across the car, new hose", not "across the axle two mil"."""
    first = behind[0] if behind else None
    return first is None or first.kind in {"PART", "BREAK"} or not first.tags.isdisjoint(_BEGINS)
