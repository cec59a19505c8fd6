"""The part at the head of what tells how old each is by its place: "old spring at the top", "in goes …".

Or the part in hand, where none is named.
"""

from __future__ import annotations

from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.doings.ages_by_place import AGES, PLACES
from saywright.understanding.meanings import Meaning
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

GOES: Final = frozenset({"goes", "gets", "go", "went", "get", "got", "fitted", "put"})
_LEADS: Final = frozenset({"and", "up", "so", "then", "now", "okay", "well", "the", "a", BREAK})


def named_at(work: Working, begin: int) -> tuple[list[Component], tuple[int, int]] | None:
    """The parts that the name at the head may mean, and its tokens."""
    goes = not GOES.isdisjoint(work.texts[begin + 1 : begin + 2])  # "in goes the new one …"
    texts, at, found = work.texts, begin + 2 * goes, None
    while at < len(texts):
        found = _name_at(work, at)
        if found is not None:
            break
        if texts[at] not in _LEADS | AGES.keys() | PLACES | work.lexicon.positions:
            return None
        at += 1
    parts = [work.sheet.get(c) for c in (found[1].parts or found[1].aliases)] if found is not None else []
    able = [p for p in parts if p is not None and len(p.whiches) > 1]
    return (able, (at, at + found[0])) if able and found is not None else None


def _name_at(work: Working, at: int) -> tuple[int, Meaning] | None:
    """The name of parts at *at*; "spring at the top" is the spring, as "spring at sixty two" is not."""
    found = work.lexicon.match(work.texts, at)
    if found is not None and found[1].characteristics and found[0] > 1 and not found[1].parts:
        found = work.lexicon.match(work.texts[at : at + 1], 0)
    return found if found is not None and (found[1].parts or found[1].aliases) else None


def held_part(work: Working, begin: int) -> tuple[list[Component], tuple[int, int]]:
    """The part in hand, of which new and old ones are told: "new one on the left, old one on the right"."""
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    return [held] if held is not None and len(held.positions) > 1 else [], (begin, begin)
