""" "Out comes the impeller and its key": what is talked of from here on is the impeller, and not its key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_TWO: Final = 2  # the owner and its own


def keep_owner(fact: Fact, moved: Sequence[Part], work: Working) -> None:
    """Take the owner in hand again, behind which what is its own moved with it."""
    if "its" not in work.texts or len(moved) != len(fact.subjects) or len(moved) < _TWO:
        return
    owner, own = fact.subjects[-2], fact.subjects[-1]
    if owner.pronoun or own.pronoun or "its" not in work.texts[owner.end : own.start + 1]:
        return
    work.named(moved[-2].component, moved[-2].single)
