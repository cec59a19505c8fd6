""" "Bore fifty point oh two" / "that's just in", "so it's in": within its limits; nothing went in."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.statements import Movement, Reading
from saywright.understanding.working import Working

_BARELY: Final = frozenset({"just", "still", "only", "well", "barely"})
_IN: Final = frozenset({"is", "are", "in"})


def is_within(work: Working, fact: Fact) -> bool:
    """True where a bare "that's in" is said of what was just measured against a limit, and not put back."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    if fact.kind != "on" or words[-1:] != ("in",) or not {*words} <= _IN | _BARELY:
        return False
    bare = len(fact.subjects) == 1 and fact.subjects[0].pronoun and not fact.subjects[0].selector
    if not bare or fact.subjects[0].age is not None or fact.subjects[0].components:
        return False
    said = work.out or work.last_group()
    read = said[-1] if said and not any(isinstance(s, Movement) for s in said) else None
    if not isinstance(read, Reading) or (work.stage == "as_left" and _BARELY.isdisjoint(words)):
        return False
    spec = work.sheet.find(read.component, read.characteristic)
    return spec is not None and spec.limits != (None, None)
