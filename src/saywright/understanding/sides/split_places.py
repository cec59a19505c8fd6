"""A place told in two pieces, each part of it: "outlet end drive", "the drive bush outlet end". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Component
from saywright.understanding.around import Around
from saywright.understanding.meanings import Meaning

_NOUNS = frozenset({"end", "side"})
# Behind a right that is a side: a verb that needs somebody to do it.
BEHIND_RIGHT = frozenset(
    ["one", "ones", "is", "hand", "side", "has", "reads", "measures", "wants", "needs", "looks", "feels",
     "gets", "weighs", "shows"]
)  # fmt: skip


def goes_on_place(around: Around, meaning: Meaning) -> bool:
    """ "outlet end drive twenty point oh nine": with the position right before, one position of a part."""
    before = around.last
    if before is None or before.kind != "MOD" or not before.meaning.positions:
        return False
    sheet, told = around.lexicon.sheet, before.meaning.positions
    return any(one_place(c, told, meaning.positions) is not None for c in sheet.component)


def one_place(component: Component, one: Sequence[str], other: Sequence[str]) -> str | None:
    """The one position of *component* that has the words of *one* and of *other*, neither of which is whole.

    Of the drive inlet, the drive outlet, … "outlet end" and "drive" tell the drive outlet.
    """
    found = {
        place
        for place in component.positions
        for a in one
        for b in other
        if _tells_of(a, place) and _tells_of(b, place) and not _overlap(a, b)
    }
    return found.pop() if len(found) == 1 else None


def _tells_of(said: str, place: str) -> bool:
    """True for some but not all of the words of *place*; "outlet end" tells of a drive outlet."""
    words, whole = set(said.split()), set(place.split())
    return bool(words & whole) and words - whole <= _NOUNS and not whole <= words


def _overlap(one: str, other: str) -> bool:
    return not (set(one.split()) - _NOUNS).isdisjoint(other.split())


def is_right_of(around: Around, positions: Sequence[str]) -> bool:
    """ "right inner pistons" where there is a right upper inner one: two words of one place."""
    if not positions:
        return False
    every = [set(place.split()) for part in around.lexicon.sheet.component for place in part.positions]
    said = [{"right", *place.split()} for place in positions]
    return any(place.issuperset(words) for place in every for words in said)
