"""What a side or a part has: "right side wants a new hose", "rear has a new disc and the old pads"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk

_HAS = frozenset({"has", "have", "had", "got", "gets", "takes", "getting"})
_ONE = frozenset({"a", "an"})
_APART = frozenset({"PREP", "BREAK", "AND", "BUT"})


def of_its_owner(walk: Walk, subject: Subject) -> Subject:
    """ "right caliper needs a new seal", "the left has a new hose": the new one goes where that is."""
    if not subject.components or subject.which or subject.selector:
        return subject
    owner = walk.current[-1] if len(walk.current) == 1 else None
    if owner is None or len(owner.which) != 1 or walk.glue & _APART:
        return subject
    has = not _HAS.isdisjoint(walk.texts[owner.end : subject.start])
    has = has and (subject.age is not None or walk.texts[subject.start] in _ONE)  # "has a lobe chipped"
    if "NEED" not in walk.glue and not (has and owner.pronoun):
        return subject
    placed = _there(walk, subject, owner.which)
    if placed is not subject:
        walk.owner = owner.which
    return placed


def of_same_owner(walk: Walk, said: Subject) -> Subject:
    """ "rear has a new disc and the old pads": what it has besides goes there too."""
    if not walk.owner or said.which or said.selector or said.age is None or "AND" not in walk.glue:
        return said
    return _there(walk, said, walk.owner) if said.components else said


def _there(walk: Walk, subject: Subject, which: tuple[str, ...]) -> Subject:
    words = {word for place in which for word in place.split()}
    parts = [walk.sheet.get(c) for c in subject.components]
    there = all(c is not None and any(words <= set(p.split()) for p in c.stations) for c in parts)
    return replace(subject, which=which) if there else subject
