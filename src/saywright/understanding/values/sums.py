"""What comes out in the end: "a drop more, so that's three forty altogether". Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.working import Working

_LEADS: Final = frozenset(
    {("so", "that", "is"), ("which", "makes", "it"), ("that", "makes", "it"), ("so", "it", "is")}
)
_TOTALS: Final = frozenset({("altogether",), ("all", "told"), ("in", "all"), ("in", "total"), ("total",)})
_MORE: Final = frozenset({"more", "another", "extra", "further"})


def is_sum(work: Working, fact: Fact) -> bool:
    """True where more was added before the value of *fact*, and it is told as what there is now."""
    texts, start, end = work.texts, fact.phrase.start, fact.phrase.end
    if _MORE.isdisjoint(texts[:start]):
        return False
    led = texts[max(0, start - 3) : start] in _LEADS
    return led or texts[end : end + 1] in _TOTALS or texts[end : end + 2] in _TOTALS
