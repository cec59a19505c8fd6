"""Which of several moved, and in what order: "rollers out idle first then the drive". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK

_IN_ORDER = frozenset({"first", "then", "and", "the", "next", BREAK})


def moved_in_order(tags: Sequence[Tag], texts: Sequence[str], at: int) -> bool:
    """ "rollers out idle first then the drive": which of them moved, and in what order.

    So with "one" and nothing more: "top shoe prised off, then the bottom one".
    """
    if "first" not in texts:
        return _moved_next(tags, texts, at)
    before = next((i for i in range(at - 1, 0, -1) if tags[i].meaning.positions), 0)
    between = texts[tags[before].end : tags[at].start]
    moved = before > 0 and tags[before - 1].kind in {"OFF", "ON"}
    return moved and "first" in between and _IN_ORDER.issuperset(between)


def _moved_next(tags: Sequence[Tag], texts: Sequence[str], at: int) -> bool:
    """ "top shoe prised off, then the bottom one": of the same part, and the clause ends there."""
    move = next((i for i in range(at - 1, 1, -1) if tags[i].kind in {"OFF", "ON"}), 0)
    if not move or texts[tags[at].end :] != ("one",) or tags[move - 1].kind != "PART":
        return False
    between = texts[tags[move].end : tags[at].start]
    return "then" in between and _IN_ORDER.issuperset(between) and bool(tags[move - 2].meaning.positions)
