""" "Ball and spring out of there": parts at the place by which the part in hand is called."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_THERE = frozenset(
    [("out", "of", "there"), ("from", "in", "there"), ("from", "behind", "it"), ("from", "under", "it"),
     ("in", "behind", "it"), ("out", "of", "it")]
)  # fmt: skip


def at_its_place(fact: Fact, work: Working) -> list[Subject]:
    """The subjects of *fact*, each at the position that all names of the part in hand begin with."""
    texts, end = work.texts, max((s.end for s in fact.subjects), default=0)
    behind = max(fact.phrase.end, end)
    if work.hand is None or not any(texts[at : at + 3] in _THERE for at in range(behind - 1, behind + 1)):
        return fact.subjects
    held = work.sheet.get(work.hand.component)
    heads = (
        {name[0] for name, _ in component_names(held)} if held is not None and not held.positions else set()
    )
    return [_placed(s, heads, work) for s in fact.subjects] if len(heads) == 1 else fact.subjects


def _placed(subject: Subject, heads: set[str], work: Working) -> Subject:
    parts = [work.sheet.get(c) for c in subject.components]
    there = bool(parts) and all(p is not None and heads <= set(p.positions) for p in parts)
    bare = not (subject.which or subject.selector or subject.count or subject.many)
    return replace(subject, which=tuple(heads)) if there and bare else subject
