"""Measures that their neighbours change: "one point five, second one's …", "two inches two forty nine"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.numbers.ranked import NumberReading, read_number
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.quantities.measures import Measure

_OF_A_SECOND = (("one",), ("is",), ("has",), ("time",), ("go",), ("try",))
_TWICE = 6  # words of the shortest number said twice
_PAIR = 2  # words of two counts
_COUNTS = frozenset(TO_TWELVE)
_OF_THEM = (("them",), ("those",), ("these",))
_MOVED = frozenset({"out", "off", "too", "in", "on", "all"})
_THOUSANDTHS = 3  # digits that a machinist says behind whole inches


def repaired(measures: Sequence[Measure], words: Sequence[str]) -> list[Measure]:
    """The same measures, left to right, where their neighbours take a unit away or go on with the number."""
    out: list[Measure] = []
    for measure in (one for said in measures for one in _two_counts(said, words)):
        one = _said_twice(_without_ordinal(measure, words), words)
        before = out[-1] if out else None
        whole = _inches(before, one) if before is not None else None
        if whole is not None:
            out[-1] = whole
        else:
            out.append(one)
    return out


def _two_counts(measure: Measure, words: Sequence[str]) -> tuple[Measure, ...]:
    """ "out, all six, two of them rusty", "out, eight, two are bent": two counts, not sixty two."""
    start, end = measure.start, measure.end
    if end - start != _PAIR or not _COUNTS.issuperset(words[start:end]):
        return (measure,)
    of_them = words[end : end + 1] == ("of",) and words[end + 1 : end + 2] in _OF_THEM
    some = words[end : end + 1] == ("are",) and start > 0 and words[start - 1] in _MOVED
    if not (of_them or some):
        return (measure,)
    cut = end - 1
    pairs = ((start, cut), (cut, end))
    return tuple(
        replace(measure, readings=read_number(words[a:b]), start=a, end=b, flags=(), behind_first=())
        for a, b in pairs
    )


def _without_ordinal(measure: Measure, words: Sequence[str]) -> Measure:
    """ "one point five second one's …", "five and a half second time": the second one, no seconds."""
    if measure.unit_said != "second" or words[measure.end : measure.end + 1] not in _OF_A_SECOND:
        return measure
    return replace(measure, unit=None, unit_said=None, units=(), end=measure.end - 1)


def _said_twice(measure: Measure, words: Sequence[str]) -> Measure:
    """ "one oh five one point oh five": the same digits once more, with their point."""
    run = words[measure.start : measure.end]
    if len(run) < _TWICE or "point" not in run[2:] or run.count("point") > 1 or measure.hedge is not None:
        return measure
    for cut in range(2, len(run) - 2):
        first, again = read_number(run[:cut]), read_number(run[cut:])
        if not first or not again or first[0].words != cut or "." not in again[0].value:
            continue
        if first[0].value in {again[0].value.replace(".", ""), again[0].value.partition(".")[2]}:
            return replace(measure, readings=again, behind_first=(), flags=())
    return measure


def _inches(first: Measure, then: Measure) -> Measure | None:
    """ "two inches two forty nine": 2.249 in, and asks, for the point was left out."""
    whole, digits = first.readings[0], then.readings[0].value
    if first.unit != "in" or not whole.value.isdigit() or then.start != first.end or then.unit_said:
        return None
    if not digits.isdigit() or len(digits) != _THOUSANDTHS:
        return None
    words = then.end - first.start
    reading = NumberReading(f"{whole.value}.{digits}", "decimal_without_point", whole.cost, words)
    return replace(first, readings=(reading,), end=then.end)
