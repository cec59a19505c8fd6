"""Which question is asked first: where the board and whoever answers it must mean the same one. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from saywright.record.order import number
from saywright.record.types import OpenItem

QUESTIONS = frozenset({"ask", "unclear"})


def newest_first(open_items: Iterable[OpenItem]) -> list[OpenItem]:
    """What waits for an answer, newest first."""
    waiting = [one for one in open_items if one.kind in QUESTIONS and not one.explained]
    return sorted(waiting, key=lambda one: -number(one.item or ""))
