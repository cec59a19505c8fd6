""" "I'll measure it all the same", "all the same I'd change it": anyway, no "all". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.tokens import BREAK

_IDIOM = ("all", "the", "same")
_OBJECTS = frozenset({"it", "him", "that"})
_BE = frozenset({"is", "was", "makes", "be"})
_OPENS = frozenset({BREAK, "and", "but"})
_GOES_ON = frozenset({"i", "we"})


def is_anyway(texts: Sequence[str], at: int) -> bool:
    """True where "all the same" at *at* stands behind a verb with one object, or before "I" at the head."""
    if tuple(texts[at : at + 3]) != _IDIOM:
        return False
    before = texts[at - 1] if at else BREAK
    if before in _OBJECTS:
        return at > 1 and texts[at - 2] not in _BE | _OPENS
    return before in _OPENS and not _GOES_ON.isdisjoint(texts[at + 3 : at + 4])
