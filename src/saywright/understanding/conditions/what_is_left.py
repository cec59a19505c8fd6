"""How much is left of a part: "plenty of meat left on it", "down to nothing", "not got much life left in it".

Told by an amount, what it is an amount of, that it is left, and where. Of a spring it is its strength.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from saywright.understanding.around import Around
from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.tokens import BREAK

_PLENTY: Final[tuple[Name, ...]] = (
    ("a", "good", "few", "years"), ("good", "few", "years"), ("a", "few", "years"), ("years",),
    ("a", "good", "bit"), ("a", "fair", "bit"), ("a", "decent", "bit"), ("a", "fair", "amount"),
    ("a", "good", "amount"), ("a", "little", "bit"), ("good", "bit"), ("fair", "bit"), ("a", "bit"),
    ("a", "lot"), ("plenty",), ("loads",), ("lots",), ("heaps",), ("bags",), ("stacks",), ("tons",),
    ("some",), ("bit",), ("enough",),
)  # fmt: skip
_LITTLE: Final[tuple[Name, ...]] = (
    ("next", "to", "nothing"), ("next", "to", "no"), ("hardly", "any"), ("hardly", "anything"),
    ("barely", "any"), ("barely", "anything"), ("very", "little"), ("precious", "little"),
    ("nothing",), ("no",), ("zero",),
)  # fmt: skip
# Behind a "not" they are little too.
_NOT_MUCH: Final[tuple[Name, ...]] = (
    ("much",), ("a", "lot"), ("a", "great", "deal"), ("a", "deal"), ("any",), ("anything",), ("very", "much"),
)  # fmt: skip
_STUFF: Final = frozenset({"life", "meat", "material", "lining", "tread", "use", "go"})
_SPRINGY: Final = frozenset({"snap", "spring", "springiness", "bounce", "tension", "pep", "push"})
# "No life in it": it need not be "left".
_OF_IT_ALONE: Final = frozenset({"life", "meat", "snap", "bounce", "pep"})
_WHERE: Final = frozenset({"in", "on"})
_POINTS: Final = frozenset({"it", "them", "that", "those", "these", "this", "him", "there", "either", "both"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "yet", "though"})
_HAS: Final = frozenset({"has", "have", "is", "are", "had"})
_TOLD: Final = frozenset({"left", "life", "meat", "snap", "bounce", "pep", "nothing"})
LEFT_HEADS: Final = frozenset({one[0] for one in (*_PLENTY, *_LITTLE)}) | _HAS | {"not", "down"}


class _Amount(NamedTuple):
    end: int  # behind its words
    little: bool
    nothing: bool = False  # "hardly anything left of it"


def what_is_left(around: Around, at: int) -> tuple[int, Meaning] | None:
    """Length and meaning of the state that begins at *at*, told by what is left; None where none is."""
    if _TOLD.isdisjoint(around.texts):
        return None
    if around.texts[at] == "down":
        return _down_to_nothing(around, at)
    amount = _amount(around, at)
    if amount is None:
        return None
    texts, end = around.texts, amount.end + (around.text(amount.end) == "of")
    stuff = around.text(end) if around.text(end) in _STUFF | _SPRINGY else ""
    if not stuff and end > amount.end:
        return None  # "plenty of grease left on it"
    end += bool(stuff)
    left = around.text(end) == "left"
    if not left and stuff not in _OF_IT_ALONE:
        return None
    end += left
    placed = around.text(end) in _WHERE or (left and around.text(end) == "of" and amount.nothing)
    if placed:
        end += 1 + (around.text(end + 1) in _POINTS and not around.names_part(end + 2))
    elif around.text(end) not in _ENDS or not (stuff or texts[max(0, at - 1)] in {"got", "has", "have"}):
        return None
    return _told(around, at, end, stuff, little=amount.little)


def is_amount(words: Sequence[str]) -> bool:
    """ "Plenty left on it", "no life in it": it says itself how much; no "not" before a comma reaches it."""
    return len(words) > 1 and words[0] in LEFT_HEADS and not _TOLD.isdisjoint(words)


def _amount(around: Around, at: int) -> _Amount | None:
    """The amount whose words begin at *at*, with a "not" or "has not got" before it."""
    texts, end = around.texts, at
    if texts[end] in _HAS:
        if around.text(end + 1) != "not":
            return None
        end += 1
    if texts[end] == "not":
        end += 1 + (around.text(end + 1) == "got")
        denied = next((one for one in _NOT_MUCH if texts[end : end + len(one)] == one), None)
        return _Amount(end + len(denied), little=True) if denied is not None else None
    for little, every in ((False, _PLENTY), (True, _LITTLE)):
        found = next((one for one in every if texts[at : at + len(one)] == one), None)
        if found is not None:
            return _Amount(at + len(found), little=little, nothing=little)
    return None


def _down_to_nothing(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "front one's down to nothing", "worn down to next to nothing"; not "clearance down to nothing"."""
    if around.last_kind == "CHAR":
        return None
    for size, words in ((3, ("to", "nothing")), (5, ("to", "next", "to", "nothing"))):
        if around.texts[at + 1 : at + size] == words:
            return _told(around, at, at + size, "", little=True)
    return None


def _told(around: Around, at: int, end: int, stuff: str, *, little: bool) -> tuple[int, Meaning] | None:
    """What the sheet calls a part of which so much is left."""
    name = ("like", "new") if not little else ("gone", "weak") if stuff in _SPRINGY else ("worn",)
    found = around.lexicon.table.get(name, NOTHING)
    return (end - at, Meaning(conditions=found.conditions)) if found.conditions else None
