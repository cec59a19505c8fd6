"""Measures that their neighbours change: "one point five, second one's …", "two inches two forty nine"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.understanding.numbers.ranked import NumberReading, read_number
from saywright.understanding.numbers.words import CLASSES, TO_TWELVE
from saywright.understanding.quantities.measures import Measure

_OF_A_SECOND = (("one",), ("is",), ("has",), ("time",), ("go",), ("try",))
_TWICE = 6  # words of the shortest number said twice
_PAIR = 2  # words of two counts
_COUNTS = frozenset(TO_TWELVE)
_OF_THEM = (("them",), ("those",), ("these",))
_MOVED = frozenset({"out", "off", "too", "in", "on", "all"})
_ROUND = frozenset({"TEEN", "TENS"})
_AGAIN = 2  # times
_THOUSANDTHS = 3  # digits that a machinist says behind whole inches


def repaired(measures: Sequence[Measure], words: Sequence[str]) -> list[Measure]:
    """The same measures, left to right, where their neighbours take a unit away or go on with the number."""
    out: list[Measure] = []
    apart = _said_for_each(measures, words)
    for measure in (one for said in apart for one in _two_counts(said, words)):
        one = _said_twice(_without_ordinal(measure, words), words)
        before = out[-1] if out else None
        whole = _inches(before, one) if before is not None else None
        if whole is not None:
            out[-1] = whole
        else:
            out.append(one)
    return out


def _said_for_each(measures: Sequence[Measure], words: Sequence[str]) -> Iterator[Measure]:
    """ "forty five forty five and forty five", "fifteen fifteen fifteen": the same for each of three."""
    for at, measure in enumerate(measures):
        run = tuple(words[measure.start : measure.start + measure.readings[0].words])
        beside = (*measures[max(0, at - 1) : at], *measures[at + 1 : at + 2])
        piece = _piece(run, [tuple(words[m.start : m.end]) for m in beside])
        if not piece or measure.hedge is not None or measure.second:
            yield measure
            continue
        cuts = range(measure.start, measure.start + len(run), piece)
        for start in cuts:
            end = start + piece if start != cuts[-1] else measure.end
            read = read_number(words[start : start + piece])
            yield replace(measure, readings=read, start=start, end=end, flags=(), behind_first=())


def _piece(run: tuple[str, ...], beside: Sequence[tuple[str, ...]]) -> int:
    """How many words of *run* are said twice in it and once more *beside*, or three times in it; else 0."""
    if run.count(run[0]) < _AGAIN or CLASSES.get(run[0], ("",))[0] not in _ROUND:
        return 0  # digits may be told one by one
    for size in range(1, len(run) // 2 + 1):
        times, rest = divmod(len(run), size)
        if rest or run != run[:size] * times:
            continue
        if times > 2 or run[:size] in [said[:size] for said in beside]:
            return size
    return 0


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


def named_points(words: Sequence[str], before: frozenset[str]) -> set[int]:
    """ "boiling point two hundred": each "point" that a name ends with, behind one of *before*."""
    return {at for at, (noun, word) in enumerate(pairwise(words), 1) if word == "point" and noun in before}
