""" "Wipe it, twelve point four three, vane three", "… vane number two": the part behind its value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.working import Working

_ENDS: Final = frozenset({"", BREAK, "too", "and", "so", "but", "that"})


def take_part_behind(told: Told, work: Working) -> None:
    """Give a value that is only of "it", or of nothing, the part that is named behind it and can have it."""
    for fact in told.facts:
        if fact.kind != "value" or fact.characteristics or fact.introduced:
            continue
        named = next((s for s in told.subjects if _is_behind(s, fact, told, work.texts)), None)
        if named is None:
            continue
        numbered = _numbered(named, work)
        if fact.subjects and all(s is named or s.start == named.start for s in fact.subjects):
            if numbered is not named and not named.which:
                fact.subjects = [numbered]
                fact.renamed = "" if numbered.end > named.end else "asked"
                fact.cover(named.start, numbered.end)
            continue
        if all(s.pronoun and not s.components and not s.other_words for s in fact.subjects) and _can_have(
            fact, named, work
        ):
            fact.subjects = [numbered]
            fact.cover(named.start, numbered.end)


def _is_behind(subject: Subject, fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """True for a part named right behind the value, of which nothing else is told."""
    start = fact.phrase.end + (tuple(texts[fact.phrase.end : fact.phrase.end + 1]) == ("the",))
    if not subject.components or subject.start not in {fact.phrase.end, start}:
        return False
    end = subject.end + (2 if texts[subject.end : subject.end + 1] == ("number",) else 0)
    if tuple(texts[end : end + 1]) and texts[end] not in _ENDS:
        return False
    return all(other is fact or subject not in other.subjects for other in told.facts)


def _numbered(subject: Subject, work: Working) -> Subject:
    """The part with the number told behind it: "vane number two"."""
    told = work.texts[subject.end : subject.end + 2]
    parts = [part for part in map(work.sheet.get, subject.components) if part is not None]
    if not subject.which and told == ("too",) and any("2" in part.whiches for part in parts):
        return replace(subject, which=("2",))  # "twelve point four, vane too": it may be the second one
    if subject.which or len(told) < 2 or told[0] != "number":
        return subject
    number = str(CARDINALS.index(told[1]) + 1) if told[1] in CARDINALS else told[1]
    if not any(number in part.whiches for part in parts):
        return subject
    return replace(subject, which=(number,), end=subject.end + 2)


def _can_have(fact: Fact, subject: Subject, work: Working) -> bool:
    """True where something is read on the part that such a value fits."""
    parts = [p for p in map(work.sheet.get, subject.components) if p is not None]
    keys = [(p.id, c.id) for p in parts for c in p.characteristic]
    found = best_choice(fact.phrase.measure, keys, work.sheet) if fact.phrase.measure and keys else None
    return found is not None and found[0].fits
