"""In which order things were said: by the utterance, then by the number in the id.

Ids alone do not tell it. A person who splits an item makes new ids long after the words were said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TypeVar

from saywright.record.types import Item

ItemT = TypeVar("ItemT", bound=Item)


def number(item_id: str) -> int:
    """The number in an item's id: 12 for "s12"; 0 where there is none."""
    digits = re.search(r"\d+", item_id)
    return int(digits.group()) if digits else 0


def in_order_said(items: Iterable[ItemT]) -> list[ItemT]:
    """*items* in the order of speech. What a person entered stands where it was entered."""
    placed: list[tuple[int, int, ItemT]] = []
    latest = 0  # newest utterance among the ids before
    for item in sorted(items, key=lambda one: number(one.id)):
        at = latest if item.utterance is None else item.utterance
        latest = max(latest, at)
        placed.append((at, number(item.id), item))
    return [item for _, _, item in sorted(placed, key=lambda one: one[:2])]
