"""Movements that are not for the record: not yet made, denied, or the place of a value: "they're both in"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.aside.hearsay import quotes
from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.tokens import BREAK

_WHILE_IT = {("while", word) for word in ("it", "they", "that", "she")}
_FOR = frozenset({"use", "grab", "fetch", "something", "nothing", "anything", "try", "trying", "tried"})
_VERBS = frozenset(
    ["get", "take", "pull", "have", "lever", "knock", "drive", "press", "tap", "prise", "draw", "lift"]
)
_REACH = 7  # tokens from what is used to what for
_IT = frozenset({"it", "she", "he"})
_STANDS = frozenset({"in", "out", "is", "are", "both", "all", "only", "just"})  # to a limit

_VOLUMES = frozenset(
    ["mil", "mils", "mill", "ml", "millilitres", "milliliters", "litres", "litre", "liters", "liter", "cc",
     "pints", "pint", "quarts", "quart"]
)  # fmt: skip
_CAME = frozenset({"came", "comes", "ran", "drained", "poured"})


def movement_outside(fact: Fact, told: Told, texts: Sequence[str]) -> str:
    if fact.aux & {"NEG", "DECLINE"} or (fact.aux & {"NEED", "FUTURE"} and not fact.aux & {"DONE"}):
        return "not moved"
    if _so_much_came(fact, texts) or (
        texts[max(0, fact.phrase.start - 2) : fact.phrase.start] in _WHILE_IT
        and texts[fact.phrase.start] in IS
    ):
        return "not moved"  # "a photo of the cover while it's on"
    if _says_in(fact, texts) and quotes(texts[: fact.phrase.start]):
        return "quoted limit"  # "the card says twelve to thirteen, so it is out"
    if _value_is_in(fact, told, texts):
        return "quoted limit"
    for mark in told.marks:
        if "LIMIT" in mark.tags and mark.start < fact.start and _says_in(fact, texts):
            return "quoted limit"  # "book says fourteen, so they're both in"
        if mark.segment == fact.segment and mark.tags & {"NOT_MOVED"} and not _counted_behind(mark, fact):
            return "not moved"
        if (
            (mark.segment == fact.segment or mark.end == fact.start)
            and mark.tags & {"SUBORDINATE", "FUTURE"}
            and mark.end <= fact.start + 8
            and mark.start <= fact.start
        ):
            return "not yet moved"
    return "not yet moved" if "to" in texts and _what_for(fact, texts) else ""


def _so_much_came(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Thirteen litres came out", "a hundred mil came out of it": fluid, and no part that is in hand."""
    if texts[fact.phrase.start] not in _CAME or any(s.components and not s.pronoun for s in fact.subjects):
        return False
    return texts[max(0, fact.phrase.start - 1)] in _VOLUMES


def _what_for(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Use a screwdriver to get it off", "nothing to pull it out with": what for, and not yet."""
    start = fact.phrase.end - 1
    begin = max(0, start - _REACH)
    at = next((i for i in range(start - 1, begin, -1) if texts[i] == "to"), 0)
    verb = texts[at + 1 : at + 2]
    return bool(at) and verb[0] in _VERBS and not _FOR.isdisjoint(texts[max(0, at - _REACH) : at])


def _value_is_in(fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """ "eight point nine, that's in": how the value right before it stands to its limits.

    Or how far it was: "so four and a half it was screwed in".
    """
    start = fact.phrase.start
    was_in = texts[start - 1] in _IT and texts[start] == "was" and texts[fact.phrase.end - 1] in {"in", "out"}
    if was_in and any(f.phrase.measure is not None and f.phrase.end == start - 1 for f in told.facts):
        return True
    said = texts[max(0, start - 1) : fact.phrase.end]
    ends = texts[fact.phrase.end : fact.phrase.end + 1] in ((), (BREAK,), ("and",), ("so",))
    if said not in (("that", "is", "in"), ("that", "is", "out")) or not ends:
        return False
    return any(f.kind == "value" and f.phrase.end in {start - 1, start - 2} for f in told.facts)


def _says_in(fact: Fact, texts: Sequence[str]) -> bool:
    """ "they're both in": how what is in hand stands to a limit, not where it was put."""
    named = any(s.components for s in fact.subjects)
    words = texts[fact.phrase.start : fact.phrase.end]
    out = words[-1] == "out" and words[0] in {"is", "are"} and "so" in texts[: fact.phrase.start]
    return not named and (words[-1] == "in" or out) and _STANDS.issuperset(words)


def _counted_behind(mark: Mark, fact: Fact) -> bool:
    """ "one's still in, there's seven out": how many did move, told behind those that did not."""
    return mark.end <= fact.phrase.start and any(s.count is not None for s in fact.subjects)
