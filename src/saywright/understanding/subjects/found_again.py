"""The same found again: "same again, it's scored", behind the cover of the other end: of that cover."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import ConditionNote, Movement
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.working import Working

_UTTERANCES = 2  # since the other one came off


def found_again(fact: Fact, told: Told, work: Working) -> list[Subject]:
    """The other one of the part that was found so before, and came off just now; [] where it is not so."""
    if not any("SAME" in mark.tags and mark.end <= fact.phrase.start for mark in told.marks):
        return []
    if any(s.components or s.other_words for s in fact.subjects) or fact.negated:
        return []
    condition = fact.phrase.meaning.conditions[-1:]
    notes = (s for s in work.newest() if isinstance(s, ConditionNote) and s.present)
    note = next((s for s in notes if (s.condition,) == condition), None)
    if note is None or note.component is None or note.which is None:
        return []
    recent = [s for group in work.before.recent[-_UTTERANCES:] for s in group if isinstance(s, Movement)]
    other = [s.which for s in recent if s.component == note.component and s.which not in {None, note.which}]
    if len(other) != 1 or other[0] is None:
        return []
    said = subject_of_components((note.component,), fact.start, fact.phrase.end)
    return [replace(said, which=(other[0],))]
