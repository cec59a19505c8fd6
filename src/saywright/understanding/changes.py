"""What a value was and what it is now: "it was twenty thou, now it's eight"."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_WAS: Final = frozenset({"was", "were"})
_BEFORE: Final = 3  # tokens from "was" to its value
_BETWEEN: Final = 9  # tokens from the value that was to the one that is
_IT: Final = frozenset({"it", "that", "this", "is", "now"})
_WENT: Final = frozenset({"gone", "went", "set", "opened", "closed", "brought", "taken", "put", "made"})


def mark_changes(told: Told, work: Working) -> None:
    """Mark the second value of each pair; where it names nothing, it is of what the first is of."""
    if _WAS.isdisjoint(work.texts):
        return
    values = [fact for fact in told.facts if fact.kind == "value"]
    for first, last in pairwise(values):
        if not _is_change(first, last, work.texts):
            continue
        named = [s for s in last.subjects if s.start >= first.phrase.end]
        if any(not _IT.issuperset(work.texts[s.start : s.end]) for s in named):
            continue  # "right's thirty one point nine six now"
        if last.characteristics and last.characteristics != first.characteristics:
            continue
        last.changes = True
        last.characteristics = first.characteristics
        last.subjects = [*first.subjects]


def _is_change(first: Fact, last: Fact, texts: tuple[str, ...]) -> bool:
    start, end = first.phrase.end, last.phrase.start
    before, gap = texts[max(0, first.phrase.start - _BEFORE) : first.phrase.start], texts[start:end]
    if _WAS.isdisjoint(before) or "not" in before or len(gap) > _BETWEEN:
        return False
    said = [text for text in gap if text != BREAK]
    if "now" in said or texts[last.phrase.end : last.phrase.end + 1] == ("now",):
        return True
    return not _WENT.isdisjoint(said) and bool({"to", "at"} & set(said[-2:]))
