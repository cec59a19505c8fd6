"""Turned so far, and not taken off: "wound it out a bit", "backed it off till it was free"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import LITTLE
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.measures import find_measures

TURNING = frozenset(
    ["wound", "winding", "wind", "winds", "turned", "turning", "turn", "turns", "screwed", "screwing", "back",
     "backed", "backs", "backing"]
)  # fmt: skip
_LITTLE = frozenset(("a", text) for text in LITTLE)
_BACKED = frozenset({"backed", "back", "backing"})


def turned_a_little(texts: Sequence[str], at: int) -> bool:
    """ "wound it out a bit", "screwed the rod in a touch": it was set, not moved."""
    if texts[at] not in TURNING:
        return False
    behind = texts[at + 1 : at + 7]
    to = next((i for i, text in enumerate(behind) if text in {"in", "out", "off", "up", "down"}), None)
    return to is not None and tuple(behind[to + 1 : to + 3]) in _LITTLE


def is_backed(fact: Fact, texts: Sequence[str]) -> bool:
    """ "backed the adjuster right off", "adjuster backed off": of what is counted, turned."""
    before = texts[max(0, fact.phrase.start - 1) : fact.phrase.start + 1]
    return not _BACKED.isdisjoint(before) or any(
        texts[s.start - 1] in _BACKED for s in fact.subjects if s.start
    )


def backed_until(fact: Fact, texts: Sequence[str]) -> bool:
    """ "backed the adjuster off till it quit dragging": turned, as far as it is told behind."""
    return is_backed(fact, texts) and texts[fact.phrase.end : fact.phrase.end + 1] in (("till",), ("until",))


def in_fractions(behind: Sequence[str]) -> bool:
    """True where a number that counts no things stands first."""
    return any(not (m.start or m.readings[0].value.isdigit()) for m in find_measures(behind, {})[:1])
