"""Readings of one utterance that speak against each other: each of them asks.

A word lost or swapped often leaves two numbers for one thing, one of several without its place beside one
that has it, or a value with a digit less than those said in the same breath.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Reading
from saywright.understanding.values.sums import is_sum
from saywright.understanding.working import Working

_OUTSIDE: Final = frozenset({FlagKind.OUTSIDE_PLAUSIBLE, FlagKind.UNIT_MISMATCH})
_ROUND: Final = frozenset(
    (verb, what)
    for verb in ("turn", "turned", "spin", "rotate", "swing")
    for what in ("it", "them", "round", "that")
)  # to read it at another place
_FINE: Final = 2  # decimals from which a missing one tells


def neighbour_doubts(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """What other readings of the utterance say against *reading*, made of *fact*."""
    others = [s for s in work.out if type(s) is Reading and s.id != reading.id and s.id not in work.gone]
    if not others:
        return
    crowd = [s for s in others if _thing(s) == _thing(reading) and not _apart(s, reading)]
    yield from _crowd(reading, fact, crowd, work)
    alike = [s for s in others if _what(s) == _what(reading)]
    if (reading.which is None) and any(s.which is not None for s in alike):
        yield flag(FlagKind.WHICH_UNCLEAR, "others of them were told apart")
    elif reading.which is not None and any(s.which is None for s in alike):
        yield flag(FlagKind.WHICH_UNCLEAR, "one of them was not told apart")
    same = [s for s in alike if s.which == reading.which and s.place == reading.place]
    most = max((_decimals(s) for s in same if s.id in work.said and s.unit == reading.unit), default=0)
    if most >= _FINE and reading.unit != "turn" and 0 < _decimals(reading) < most:
        yield flag(FlagKind.POORLY_HEARD, f"{reading.value} has fewer decimals than the value beside it")


def _crowd(reading: Reading, fact: Fact, others: list[Reading], work: Working) -> Iterator[Flag]:
    """Another value for the same thing, with its part or its name said again, or one that cannot be."""
    for other in others:
        before = work.said.get(other.id)
        if before is None or other.value == reading.value:
            continue
        first, last = sorted((fact, before), key=lambda one: one.phrase.start)
        if last.changes:
            return  # "was twenty, now it's eight"
        between = work.texts[first.phrase.end : last.phrase.start]
        if "again" in between or not _ROUND.isdisjoint(pairwise(between)):
            return  # "I'll do that again", "turn it": the same was measured once more
        if last is fact and is_sum(work, fact):
            return  # "… so that's three forty altogether"
        named = any(first.phrase.end <= s.start < last.phrase.start for s in last.subjects)
        outside = any(f.kind in _OUTSIDE for f in other.flags)
        if named or outside or _names_it(first, last, other, work):
            yield flag(FlagKind.NUMBER_AMBIGUOUS, f"{other.value} for the same")
            return


def _names_it(first: Fact, last: Fact, other: Reading, work: Working) -> bool:
    """ "valve one lift point six": the characteristic stands between the two numbers."""
    key = (other.component, other.characteristic)
    between = range(first.phrase.end, last.phrase.start)
    return any(key in work.lexicon.names(work.texts, at).characteristics for at in between)


def _thing(reading: Reading) -> tuple[object, ...]:
    return *_what(reading), reading.which


def _apart(one: Reading, other: Reading) -> bool:
    """ "left journal …, right journal …": read at two places."""
    return None not in {one.place, other.place} and one.place != other.place


def _what(reading: Reading) -> tuple[object, ...]:
    return reading.component, reading.characteristic, reading.stage


def _decimals(reading: Reading) -> int:
    return len(reading.value.partition(".")[2])
