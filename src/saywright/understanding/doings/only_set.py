"""Words of movement by which a thing is set, or the work is named: "back it off a bit", "on refitting"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.working import Working
from saywright.units import get_unit

_WORK: Final = frozenset(
    {"refitting", "fitting", "reassembling", "assembling", "installing", "refit", "reassembly"}
)
_WHEN: Final = frozenset({"on", "after", "before", "during", "when", "while", "since", "at"})
_IT: Final = frozenset({"it", "that", "them", "this", "her", "him"})
_SET_IN: Final = frozenset({"turn", "number", "pressure"})


def is_only_set(work: Working, fact: Fact) -> bool:
    """True where nothing came off or went on: a setting is told, or when something was measured."""
    texts, start, end = work.texts, fact.phrase.start, fact.phrase.end
    if names_the_work(fact, texts):
        return not any(s.components and s.start >= end for s in fact.subjects)  # "runout on refitting"
    if texts[end - 1] == "off":
        begin = start - 1 if start and texts[start - 1] in _IT else start
        # "back it off a bit"
        return "back" in texts[max(0, begin - 1) : begin + 1] and _is_setting(work, fact)
    return False


def names_the_work(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Runout on refitting", "before fitting": when something was done or read."""
    start = fact.phrase.start
    return start > 0 and fact.phrase.end - start == 1 and texts[start] in _WORK and texts[start - 1] in _WHEN


def _is_setting(work: Working, fact: Fact) -> bool:
    """True for one part that is on, and that is turned or clicked, or opens at a pressure."""
    held = work.hand.component if work.hand is not None else None
    named = {c for s in fact.subjects for c in s.components} or ({held} if held is not None else set())
    part = work.sheet.get(next(iter(named))) if len(named) == 1 else None
    if part is None or work.off.get(part.id, 0):
        return False
    return any(get_unit(c.unit).kind in _SET_IN for c in part.characteristic)
