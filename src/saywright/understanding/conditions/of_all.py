"""A state of all of several that are only counted: "clips all four rusty" is one finding, on the clips.

Where the sheet numbers them, or one of them was told by its number before, each keeps its own.
"""

from __future__ import annotations

from saywright.understanding.facts import Fact
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

Whiches = tuple[str | None, ...]


def of_all(work: Working, fact: Fact, part: Part) -> Whiches:
    """Which of *part* the state of *fact* is of."""
    spec = work.sheet.get(part.component) if part.component is not None else None
    counted = spec is not None and not spec.positions and len(part.whiches) > 1
    if spec is None or not counted or part.whiches != spec.whiches or len(fact.subjects) != 1:
        return part.whiches
    every = fact.subjects[0].selector in {"all", "both"}
    each = (spec.id, "1") in work.lexicon.called or _was_numbered(work, spec.id)
    return (None,) if every and not each else part.whiches


def _was_numbered(work: Working, component: str) -> bool:
    """True where one of them was told by its number before."""
    return any(c == component and which is not None for c, which, _, _ in work.before.seen)
