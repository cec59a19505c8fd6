""" "Right the same, no, two and three quarters": a value in place of what was to be the same on a side."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.words import NO
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_AGAIN: Final = frozenset({"again", "there", "here", "as", "that", "well", "oh"})
_REACH: Final = 9  # tokens from the no to the value: "no, hang on, still going, …"


def same_denied(work: Working, told: Told, fact: Fact) -> bool:
    """True for a value that is of its own side, and puts nothing right: "the same" before it was too soon.

    It is of what was read last, on the side that was to have the same.
    """
    texts, start = work.texts, fact.phrase.start
    at = next((i for i in range(start - 1, 0, -1) if texts[i] == "same"), None)
    if at is None or start - at > _REACH:
        return False
    behind = next((i for i in range(at + 1, start) if texts[i] not in _AGAIN), start)
    if behind == start or texts[behind] not in NO:
        return False
    of = _side_before(told, at)
    last = next((s for s in reversed(just_said(work)) if isinstance(s, Reading)), None)
    if of is None or last is None or (of.components and last.component not in of.components):
        return False
    if not any(s.which or s.components or s.other_words for s in fact.subjects):
        fact.subjects = [replace(of, components=of.components or (last.component,))]
    fact.characteristics = fact.characteristics or ((last.component, last.characteristic),)
    return True


def _side_before(told: Told, at: int) -> Subject | None:
    """What was to be the same, where a side or the other one was said."""
    found = [s for s in told.subjects if s.end <= at and (s.which or s.selector or s.other_words)]
    return found[-1] if found else None
