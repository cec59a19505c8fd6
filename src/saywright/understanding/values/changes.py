"""What a value was and what it is now: "it was twenty thou, now it's eight"."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.altered import ALTERS, is_altered
from saywright.understanding.working import Working

_WAS: Final = frozenset({"was", "were"})
_BEFORE: Final = 3  # tokens from "was" to its value
_BETWEEN: Final = 9  # tokens from the value that was to the one that is
_IT: Final = frozenset({"it", "that", "this", "is", "now"})
_LEFT_AT: Final = ("left", "at")
_FOUND: Final = ("as", "found")
_AS_LEFT: Final = {_FOUND: ("as", "left"), ("found",): ("left",)}
_SETS: Final = frozenset({"set", "reset", "brought", "taken", "adjusted"})
_NOW_SET: Final = _IT | _SETS | {"and", "to", "at", "back"}
_CUES: Final = _WAS | _SETS | ALTERS | {"now", "found", "before"}
_WENT: Final = frozenset(
    ["gone", "went", "set", "opened", "closed", "brought", "taken", "put", "made", "left", "got", "turned",
     "wound", "backed", "screwed", "dropped", "let", "eased", "pulled", "knocked",
     "finished", "ended", "settled"]
)  # fmt: skip


def mark_changes(told: Told, work: Working) -> None:
    """Mark both values of each pair; where the second names nothing, it is of what the first is of."""
    if _CUES.isdisjoint(work.texts):
        return
    values = [fact for fact in told.facts if fact.kind == "value"]
    for first, last in pairwise(values):
        texts = work.texts
        if not (
            _is_change(first, last, texts) or _is_set(first, last, texts) or is_altered(first, last, texts)
        ):
            continue
        named = [s for s in last.subjects if s.start >= first.phrase.end]
        left_at = work.texts[first.phrase.end : last.phrase.start] == _LEFT_AT  # no side there
        if not left_at and any(not _IT.issuperset(work.texts[s.start : s.end]) for s in named):
            continue  # "right's thirty one point nine six now"
        if last.measured and not first.measured:
            continue  # "draws one point four now, five point two on the gauge"
        if last.characteristics and last.characteristics != first.characteristics:
            continue
        first.changed, last.changes = True, True
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
    back = said[:1] == ["back"]  # "was twelve, back to ten"
    return (back or not _WENT.isdisjoint(said)) and bool({"to", "at"} & set(said[-2:]))


def _is_set(first: Fact, last: Fact, texts: tuple[str, ...]) -> bool:
    """ "nineteen now three", "four set to six", "found at four, left at six", "four before, six after"."""
    said = tuple(text for text in texts[first.phrase.end : last.phrase.start] if text != BREAK)
    if said in {("before",), ("before", "and")}:
        return texts[last.phrase.end : last.phrase.end + 1] == ("after",)
    if said == _AS_LEFT[_FOUND]:  # "as found twelve, as left ten"
        return _FOUND in pairwise(texts[: first.phrase.start])
    if said == _LEFT_AT:
        return "found" in texts[: first.phrase.start]
    if said[-1:] == ("and",):
        said = said[:-1]
    if said in _AS_LEFT:  # "twelve as found, ten as left"
        return texts[last.phrase.end : last.phrase.end + len(said)] == _AS_LEFT[said]
    if not said or not _NOW_SET.issuperset(said):
        return False
    return said[-1] == "now" or said[:1] == ("now",) or (said[0] in _SETS and said[-1] in {"to", "at"})
