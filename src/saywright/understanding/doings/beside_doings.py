"""Numbers beside a doing or a value that are no reading: by how much, what with, for how many, when."""

from __future__ import annotations

from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past
from saywright.units import get_unit

_STROKES = {("strokes",), ("pumps",), ("pulls",), ("goes",), ("readings",), ("revolutions",), ("revs",)}
_ON_TOP = {("another",), ("further",)}
_MORE = {("more",), ("further",)}
_FILLS = frozenset({"filled", "refilled", "topped", "fill", "refill"})
_FILL_REACH = 4  # tokens of "topped it up with"
_TOOK = frozenset({"took", "take", "taken", "taking"})


def is_of_rule(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "you bin them at two point eight": when such a thing is done."""
    return any(
        f.kind == "doing"
        and f.phrase.end <= fact.phrase.start
        and f.phrase.meaning.acts[0].form == "base"
        and texts[max(0, f.phrase.start - 1) : f.phrase.start] == ("you",)
        and "NEED" not in f.aux
        for f in told.facts
    )


def is_taken_off(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "hose shortened by forty mil", "skimmed ten thou off it": by how much, not how much it is."""
    start, end, measure = fact.phrase.start, fact.phrase.end, fact.phrase.measure
    before = texts[max(0, start - 2) : start]
    if before[1:] == ("by",):
        done = any(f.kind == "doing" and f.phrase.end == start - 1 for f in told.facts)
        return done or (is_past(before[0]) and before[0].endswith("ed"))
    if measure is None or measure.unit is None or texts[end : end + 1] != ("off",):
        return False
    done = any(f.kind == "doing" and f.phrase.end <= start and f.segment == fact.segment for f in told.facts)
    return done or not _TOOK.isdisjoint(before)


def turned_further(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "another half, so three and a half turns now": how far it was turned on; the sum is told behind.

    So too "half a turn more in, so four turns".
    """
    start, end = fact.phrase.start, fact.phrase.end
    measure = fact.phrase.measure
    turned = texts[end : end + 1] in _MORE and measure is not None and measure.unit == "turn"
    if not (turned or is_on_top(texts, start)) or fact.characteristics:
        return False
    sums = (f for f in told.facts if f.kind == "value" and f.phrase.start > end)
    return any("so" in texts[end : f.phrase.start] or "makes" in texts[end : f.phrase.start] for f in sums)


def is_on_top(texts: tuple[str, ...], start: int) -> bool:
    """ "another half", and "back a quarter" alone: so much from where it was."""
    return texts[max(0, start - 1) : start] in _ON_TOP or (start == 1 and texts[0] == "back")


def was_used(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "blew it out with ninety psi": what something was done with."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if fact.characteristics or texts[max(0, start - 1) : start] != ("with",):
        return False
    codes = (measure.unit,) if measure is not None and measure.unit else measure.units if measure else ()
    if is_fill(texts, start) and any(get_unit(code).kind == "volume" for code in codes):
        return False  # "filled it with five hundred mil"
    if start == 1 and codes and all(get_unit(code).kind != "length" for code in codes):
        return True  # "with sixty psi on it there's no leak"
    return bool(codes) and any(f.kind == "doing" and f.phrase.end <= start for f in told.facts)


def is_fill(texts: tuple[str, ...], start: int) -> bool:
    """ "filled with", "topped it up with" before the number at *start*: how much went in."""
    before = texts[max(0, start - _FILL_REACH) : start]
    return before[-1:] == ("with",) and not _FILLS.isdisjoint(before)


def measured_over(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "nine millilitres for ten strokes": for how many of them the value right before was measured."""
    start, end, measure = fact.phrase.start, fact.phrase.end, fact.phrase.measure
    if texts[end : end + 1] in _STROKES and "over" in texts[max(0, start - 1) : start + 1]:
        return True
    if texts[max(0, start - 1) : start] != ("for",) or measure is None or measure.unit_said is not None:
        return False
    noun = texts[end : end + 1] not in {(), (BREAK,), ("and",)}
    before = (f.phrase for f in told.facts if f.kind == "value" and f.phrase.end == start - 1)
    return noun and any(p.measure is not None and p.measure.unit_said is not None for p in before)
