"""What may be so is of what is in hand: "the square seal might have swollen a bit", then "it isn't torn"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.working import Working

_MIGHT: Final = frozenset({"might", "may", "could"})
_IF: Final = frozenset({"if", "suppose", "supposing", "unless", "hope", "hoping", "hopefully", "wish"})


def still_in_hand(fact: Fact, work: Working) -> bool:
    """True where what might be so of a part is told at the head, or nothing is in hand yet."""
    if work.hand is None:
        return True
    before = work.texts[: fact.phrase.end]
    if fact.kind != "finding" or not _IF.isdisjoint(before):
        return False
    named = [s for s in fact.subjects if s.components and not s.pronoun and s.end <= fact.phrase.start]
    return bool(named) and not _MIGHT.isdisjoint(before[named[0].end :])
