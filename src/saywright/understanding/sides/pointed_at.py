""" "New magnet on that corner": who points at the place named last works there from here on. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

_NOUNS: Final = frozenset({"corner", "side", "end", "wheel"})
_POINTS: Final = frozenset({"this", "that"})
_WHERE: Final = frozenset({"on", "at", "for", "in", "off"})


def points_there(texts: Sequence[str]) -> bool:
    """True for "on that corner", "at this end"; not for "on that side of the gasket"."""
    if _POINTS.isdisjoint(texts):
        return False
    return any(
        text in _NOUNS
        and texts[at - 1] in _POINTS
        and texts[at - 2] in _WHERE
        and texts[at + 1 : at + 2] != ("of",)
        for at, text in enumerate(texts)
        if at > 1
    )
