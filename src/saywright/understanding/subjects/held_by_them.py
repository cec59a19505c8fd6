""" "Two long bolts and it comes off": what is counted before "it" holds what came off. Pure."""

from __future__ import annotations

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk

_ONE_THING = frozenset({("it",), ("she",), ("he",)})


def held_by_them(walk: Walk, subject: Subject) -> bool:
    """True for "it" behind fasteners: "four screws, it's off"; not for "they" and "them"."""
    if walk.texts[subject.start : subject.end] not in _ONE_THING:
        return False
    held = walk.current[-1]
    fastened = held.many and walk.texts[held.end - 1] in FASTENERS
    return fastened and (held.count is not None or "AND" in walk.glue)
