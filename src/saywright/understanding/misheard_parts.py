"""Traces that the name of a part was lost or misheard: a reading that leans on the part in hand asks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.number_words import CLASSES
from saywright.understanding.statements import Reading
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_INFERRED = frozenset({FlagKind.PART_FROM_CONTEXT, FlagKind.PART_FROM_CHARACTERISTIC})


def part_doubts(reading: Reading, fact: Fact, work: Working, tags: Sequence[Tag]) -> Iterator[Flag]:
    """What the words say against the part of *reading*."""
    part = work.sheet.get(reading.component)
    if part is not None and reading.which is not None and reading.which not in part.whiches:
        yield flag(FlagKind.WHICH_UNCLEAR, f"{part.label}: {reading.which}")
    kinds = {f.kind for f in reading.flags}
    if kinds & _INFERRED:
        odd = _unplaced(fact, work, tags)
        if odd:
            yield flag(FlagKind.PART_AMBIGUOUS, odd)


def _unplaced(fact: Fact, work: Working, tags: Sequence[Tag]) -> str:
    """A word before the number that should name something, and does not; "" for none."""
    for tag in tags:
        if tag.start >= fact.phrase.start or tag.kind != "WORD" or tag.end - tag.start != 1 or tag.tags:
            continue
        word = work.texts[tag.start]
        following = work.texts[tag.end]
        if word in work.lexicon.heads:
            return f"'{word}' names nothing here"
        if word == "number" and following not in CLASSES:
            return "a number was said that was not made out"
    return ""
