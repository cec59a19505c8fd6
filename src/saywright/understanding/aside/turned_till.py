"""How far something was turned: "wound it up till it binds", "ran them in until they stopped". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact

_STOPS: Final = frozenset({"tight", "seized", "blocked", "sticking"})  # what such words are else
_TILL: Final = frozenset({"till", "until"})
_REACH: Final = 4  # tokens of "till they just bind"


def is_how_far(fact: Fact, texts: Sequence[str]) -> bool:
    """True for a state that only tells where the turning ended."""
    start = fact.phrase.start
    if fact.kind != "finding" or fact.negated or _TILL.isdisjoint(texts[max(0, start - _REACH) : start]):
        return False
    return not _STOPS.isdisjoint(fact.phrase.meaning.conditions)
