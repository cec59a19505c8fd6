"""A value said over in the same breath is one reading: "three bar in it, only three on the gauge"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.aside.outside import outside
from saywright.understanding.counting.aloud import CAN_BEGIN, count_run
from saywright.understanding.facts import Fact, Told
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.quantities.said_twice import NUMBER_WORDS
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK, HESITATIONS
from saywright.understanding.working import Working
from saywright.units import convert, convertible

_FEWEST: Final = 3  # numbers of a count
_ENDS: Final = frozenset({("half",), ("quarter",)})  # "four and the half" for "a half"
# Between two values: the same was measured once more, or at another place, or on another one.
_ANEW: Final = frozenset(
    ["again", "turn", "turned", "spin", "spun", "rotate", "round", "around", "other", "others", "opposite",
     "twice", "time", "times", "once", "more", "still", "next", "second", "third", "was", "were", "no", "not",
     "same", "too", "also", "then", "after", "before", "now", "yesterday", "new", "old", "as",
     "fitted", "set", "reset"]
)  # fmt: skip
# Nothing else may stand between the two, or behind the second, that was not said before.
_TALK: Final = HESITATIONS | frozenset(
    ["a", "about", "all", "and", "call", "exactly", "figure", "i", "in", "is", "it", "just", "let", "make",
     "makes", "me", "number", "of", "on", "only", "read", "reads", "right", "say", "says", "so", "stands",
     "that", "the", "them", "there", "they", "us", "well", "yes", "you", "both", "each"]
)  # fmt: skip
_SIZES: Final = frozenset({"thick", "long", "deep", "high", "wide", "tall", "big", "free", "out", "turns"})
_LARGE: Final = frozenset({"hundred", "thousand"})
_BY: Final = frozenset({"under", "by", "with", "my"})  # what it was measured with
_DUE: Final = frozenset(["as", "it", "should", "ought", "to", "be", "must", "we", "wanted", "intended"])
_ON: Final = frozenset({"on", "the", "gauge", "dial", "rule", "ruler", "scale", "clock", "meter", "tape"})
_FOR_EACH: Final = frozenset({"and", BREAK})
_SO: Final = frozenset({"so", "makes", "stands", "both", "all"})  # said over in the same words
_OF_ALL: Final = frozenset({"both", "all", "each", "pair", "every"})


def mark_said_over(told: Told, work: Working) -> None:
    """Put aside each value of *told* that only says over the one before it, in its clearer form.

    "two point seven thick, two and seven tenths", "twenty newton metres, twenty and twenty". Behind a mere
    "and" it is of the next one, unless all were told of. In the same words it was read once more, as in
    "point oh seven and point oh seven", unless words of talk join the two: "seven, so that is seven".
    """
    values = [fact for fact in told.facts if fact.kind == "value" and fact.phrase.measure is not None]
    _after_count(values[:1], work)
    for before, fact in combinations(values, 2):
        if before.kind != "value" or fact.kind != "value" or not _says_over(before, fact, told, work):
            continue
        one, then = before.phrase.measure, fact.phrase.measure
        if one is not None and then is not None and _is_clearer(then, one) and before.phrase.head is not None:
            before.phrase = replace(before.phrase, head=replace(before.phrase.head, measure=then))
        fact.kind = "said over"
        work.covered.append((fact.phrase.start, fact.phrase.end))
        work.aside.append((fact.phrase.start, fact.phrase.end))


def _after_count(values: Sequence[Fact], work: Working) -> None:
    """ "… three four and a half turns, so four and a half": what was counted aloud just before."""
    counted = [s for s in work.out if type(s) is Reading and s.id not in work.said]
    for fact in values:
        measure, start = fact.phrase.measure, fact.phrase.start
        if not counted or measure is None or work.texts[start - 1 : start] != ("so",):
            continue
        if parse_value(measure.readings[0].value) == parse_value(counted[-1].value):
            fact.kind = "said over"
            work.covered.append((start, fact.phrase.end))


def _says_over(before: Fact, fact: Fact, told: Told, work: Working) -> bool:
    one, then = before.phrase.measure, fact.phrase.measure
    if one is None or then is None or one.second or then.second:
        return False
    if not _alike(one, then) and not _counts_up_to(one, fact, work.texts):
        return False
    gap = work.texts[before.phrase.end : fact.phrase.start]
    if (
        not _ANEW.isdisjoint(gap)
        or not _is_only_talk(gap, before, fact, work)
        or _names_another(before, fact, told, work)
    ):
        return False
    same_words = (
        work.texts[before.phrase.start : before.phrase.end] == work.texts[fact.phrase.start : fact.phrase.end]
    )
    if same_words and _SO.isdisjoint(gap):
        return False
    if _FOR_EACH.issuperset(gap) and not (_is_of_all(before, work) or _is_of_one(before, work)):
        return False
    return not outside(before, told, work.texts, work.sheet)


def _is_only_talk(gap: tuple[str, ...], before: Fact, fact: Fact, work: Working) -> bool:
    """True where no place, way, time or doing stands between the two values, or behind the second one.

    "three in, three out", "one eighty across, one eighty down", "two turns, wound in and out two".
    """
    behind = work.texts[fact.phrase.end :]
    stop = next((at for at, text in enumerate(behind) if text == BREAK or text in NUMBER_WORDS), len(behind))
    tail = behind[:stop]
    known = (_TALK | _SIZES | _ON).union(work.texts[: before.phrase.start]) - work.lexicon.positions
    if "in" in gap and "out" in tail:
        return False
    tools = (word for tool in work.sheet.instrument for name in tool.names for word in name.split())
    gap = gap[: len(gap) - (gap[-1:] == ("at",))]  # "it stands at twenty eight"
    between = known.union(work.lexicon.read_words, NUMBER_WORDS, _LARGE, _BY, tools)
    return between.issuperset(gap) and (known.issuperset(tail) or (tail[0] == "as" and _DUE.issuperset(tail)))


def _alike(one: Measure, then: Measure) -> bool:
    """True where *then* can be *one* in other words, in its unit or in one that converts."""
    if then.unit is not None and one.unit is not None and not convertible(then.unit, one.unit):
        return False
    same_unit = then.unit == one.unit or None in {then.unit, one.unit}
    first, again = (_values(m) for m in (one, then))
    if one.units or then.units:
        both = one.unit_said is not None and then.unit_said is not None
        meant = [{*m.units, m.unit} - {None} for m in (one, then)]
        same_unit = not meant[0].isdisjoint(meant[1]) or not both
    if same_unit:
        return first[0] in again or again[0] in first
    known = one.unit is not None and then.unit is not None
    return known and convert(again[0], then.unit or "", one.unit or "") == first[0]


def _counts_up_to(one: Measure, fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "four and a half turns, one two three four and a half": counted aloud, up to what was told."""
    start = fact.phrase.start
    if one.unit_said is None or texts[start] not in CAN_BEGIN:
        return False
    said = [
        "a" if word == "the" and texts[at + 1 : at + 2] in _ENDS else word
        for at, word in enumerate(texts[start:], start)
    ]
    run = count_run(said, 0, None)
    if run is None or run.said < _FEWEST or start + run.end < fact.phrase.end:
        return False
    return parse_value(run.value) == parse_value(one.readings[0].value)


def _values(measure: Measure) -> Sequence[Fraction]:
    return [parse_value(reading.value) for reading in measure.readings]


def _is_clearer(then: Measure, one: Measure) -> bool:
    """True where *then* says the point that *one* leaves out, or the unit."""
    if parse_value(one.readings[0].value) != parse_value(then.readings[0].value):
        return then.readings[0].how == "decimal"
    return one.unit_said is None and then.unit_said is not None


def _names_another(before: Fact, fact: Fact, told: Told, work: Working) -> bool:
    """True where a part, a place or a measure of its own is named with *fact*."""
    behind = before.phrase.end
    known = {c for s in before.subjects for c in s.components}
    for subject in (*told.subjects, *fact.subjects):
        other = subject.which or subject.selector or not known.issuperset(subject.components)
        if behind <= subject.start <= fact.end and other:
            return True
    if fact.characteristics and before.characteristics and fact.characteristics != before.characteristics:
        return True
    return any(behind <= spot.start < fact.phrase.end for spot in work.spots)


def _is_of_all(before: Fact, work: Working) -> bool:
    return not _OF_ALL.isdisjoint(work.texts[: before.phrase.start])


def _is_of_one(before: Fact, work: Working) -> bool:
    """True where what was told of is fitted once, or is told which."""
    named = [s for s in before.subjects if s.components]
    if named:
        parts = [work.sheet.get(c) for s in named for c in s.components]
        return all(s.which for s in named) or all(p is not None and p.count == 1 for p in parts)
    held = work.hand
    part = work.sheet.get(held.component) if held is not None else None
    return held is not None and part is not None and (part.count == 1 or held.which is not None)
