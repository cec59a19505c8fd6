"""Traces that the name of a part was lost or misheard: a reading that leans on the part in hand asks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import Reading
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_INFERRED = frozenset({FlagKind.PART_FROM_CONTEXT, FlagKind.PART_FROM_CHARACTERISTIC})


def part_doubts(reading: Reading, fact: Fact, work: Working, tags: Sequence[Tag]) -> Iterator[Flag]:
    """What the words say against the part of *reading*."""
    part = work.sheet.get(reading.component)
    if part is not None and reading.which is not None and reading.which not in part.whiches:
        yield flag(FlagKind.WHICH_UNCLEAR, f"{part.label}: {reading.which}")
    other = _word_of_another(reading, fact, work, tags)
    if other:
        yield flag(FlagKind.PART_AMBIGUOUS, f"'{other}' is of another name")
    kinds = {f.kind for f in reading.flags}
    if kinds & _INFERRED:
        odd = _unplaced(fact, work, tags)
        if odd:
            yield flag(FlagKind.PART_AMBIGUOUS, odd)


def _word_of_another(reading: Reading, fact: Fact, work: Working, tags: Sequence[Tag]) -> str:
    """ "main one jet twenty eight": a word left over that only another part of that short name has."""
    subject = fact.subjects[-1] if fact.subjects else None
    if subject is None or len(subject.components) < 2 or reading.component not in subject.components:
        return ""
    words = {
        part: {word for name, _ in component_names(part) for word in name}
        for part in map(work.sheet.get, subject.components)
        if part is not None
    }
    own = next((said for part, said in words.items() if part.id == reading.component), set())
    others = set().union(*words.values()) - own
    loose = (work.texts[t.start] for t in tags if t.kind in {"WORD", "MOD"} and t.end - t.start == 1)
    return next((word for word in loose if word in others), "")


def _unplaced(fact: Fact, work: Working, tags: Sequence[Tag]) -> str:
    """A word before the number that should name something, and does not; "" for none."""
    for tag in tags:
        if tag.start >= fact.phrase.start or tag.kind != "WORD" or tag.end - tag.start != 1 or tag.tags:
            continue
        word = work.texts[tag.start]
        following = work.texts[tag.end]
        if word in work.lexicon.heads and word not in PAUSES:
            return f"'{word}' names nothing here"
        if word == "number" and following not in CLASSES:
            return "a number was said that was not made out"
    return ""
