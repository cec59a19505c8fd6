"""In which order things were said."""

from __future__ import annotations

from typing import Any

import pytest

from saywright.record.order import in_order_said, number
from saywright.record.types import Movement


def moved(item_id: str, utterance: int | None = None) -> Movement:
    """A screw that came off."""
    fields: dict[str, Any] = {"stage": "as_found", "heard": "screw off", "component": "screw"}
    return Movement(id=item_id, utterance=utterance, movement="removed", count=1, **fields)


def ordered(*items: Movement) -> list[str]:
    """Ids in the order said."""
    return [item.id for item in in_order_said(items)]


@pytest.mark.parametrize(("item_id", "expected"), [("s12", 12), ("p3", 3), ("s", 0), ("", 0)])
def test_number(item_id: str, expected: int) -> None:
    """The number in the id, 0 where there is none."""
    assert expected == number(item_id)


def test_ten_comes_after_nine() -> None:
    """Numbers are compared, not letters."""
    assert ["s2", "s9", "s10"] == ordered(moved("s10"), moved("s9"), moved("s2"))


def test_pieces_of_a_split_stand_where_their_words_were_said() -> None:
    """Their ids are new, their utterance is the old one."""
    items = (moved("s1", 3), moved("s3", 9), moved("s4", 3), moved("s5", 3))
    assert ["s1", "s4", "s5", "s3"] == ordered(*items)


def test_what_was_entered_by_hand_stands_where_it_was_entered() -> None:
    """Behind what was said before, also where a piece of an early utterance has a higher number."""
    items = (moved("s1", 3), moved("s2", 7), moved("s3"), moved("s4", 12), moved("s5", 3))
    assert ["s1", "s5", "s2", "s3", "s4"] == ordered(*items)
