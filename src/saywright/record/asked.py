"""Which question is asked first: where the board and whoever answers it must mean the same one. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable

from saywright.record.types import OpenItem

QUESTIONS = frozenset({"ask", "unclear"})


def newest_first(open_items: Iterable[OpenItem]) -> list[OpenItem]:
    """What waits for an answer, newest first."""
    waiting = [one for one in open_items if one.kind in QUESTIONS and not one.explained]
    return sorted(waiting, key=lambda one: -number(one.item or ""))


def number(item_id: str) -> int:
    """The number in an id, which tells the order of speech; 0 where there is none."""
    digits = re.search(r"\d+", item_id)
    return int(digits[0]) if digits else 0
