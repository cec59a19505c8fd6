"""Turns counted once for both: "then out one, two, two and a half, both sides". Pure."""

from __future__ import annotations

from typing import Final

from saywright.sheets.model import Component

_SIDES: Final = frozenset({"sides", "side", "ends", "end", "of", "them", "one", "ones"})
_PAIR: Final = 2


def both_behind(rest: tuple[str, ...], component: Component) -> int:
    """How many tokens at the end of *rest*, behind a count, say that it is of both, or of each."""
    many = len(component.whiches)
    at = next((i for i in range(len(rest) - 1, -1, -1) if rest[i] in {"both", "each", "pair"}), None)
    if at is None or many < _PAIR or not _SIDES.issuperset(rest[at + 1 :]):
        return 0
    if rest[at] != "each" and many != _PAIR:
        return 0
    while at and rest[at - 1] in {"on", "for", "the", "from", "with"}:
        at -= 1
    return len(rest) - at


def both_before(head: tuple[str, ...], component: Component) -> bool:
    """ "both screws in and back out one, two": it is said before the count."""
    return "both" in head and len(component.whiches) == _PAIR
