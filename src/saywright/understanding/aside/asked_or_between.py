""" "Is a tenth too much on a disc", "four mil difference between them": no value of either. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from saywright.understanding.facts import Fact


def is_asked(_: Fact, texts: tuple[str, ...]) -> bool:
    """ "Is a tenth too much on a disc": asked."""
    return texts[:1] in {("is",), ("are",)}


def is_between(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Four mil difference between inner and outer": how far apart they are."""
    return texts[fact.phrase.end : fact.phrase.end + 2] == ("difference", "between")
