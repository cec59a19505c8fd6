"""Tests of the side that goes with what is in hand."""

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.hand_sides import kept_in_hand, taken_up

PAD = Component(id="pad", names=("pad",), positions=("inner", "outer"), count=2)
SHEET = Sheet(id="bench", title="Bench", component=(PAD,))
LEFT = Hand("seat", "outer", 3, side="outer", side_at=3)


def test_a_side_goes_on_to_the_next_part() -> None:
    """A part named without a position is on the side of the one before, said when that was."""
    taken = taken_up(Hand("spring", None, 4), LEFT, SHEET, ("spring",))
    assert (taken.component, taken.side, taken.side_at) == ("spring", "outer", 3)


def test_another_side_takes_its_place() -> None:
    """A position that is said takes the place of the side in hand."""
    taken = taken_up(Hand("pad", "inner", 4), LEFT, SHEET, ("inner", "pad"))
    assert (taken.side, taken.side_at) == ("inner", 4)


def test_all_of_them_end_a_side() -> None:
    """A part that has the side among its positions, named without one, is all of them."""
    assert taken_up(Hand("pad", None, 4), LEFT, SHEET, ("pads",)).side is None


def test_a_side_wears_off() -> None:
    """A side that was not turned to holds for five utterances."""
    assert taken_up(Hand("spring", None, 8), LEFT, SHEET, ()).side == "outer"
    assert taken_up(Hand("spring", None, 9), LEFT, SHEET, ()).side is None


def test_no_side_is_kept_where_the_job_goes_back_together() -> None:
    """The part stays in hand, its side does not."""
    assert kept_in_hand(LEFT, 5) == Hand("seat", "outer", 3, side_at=3)
    assert kept_in_hand(LEFT, 3) == LEFT
    assert kept_in_hand(None, 5) is None


def test_a_position_of_another_kind() -> None:
    """A part with positions of its own leaves the side that was turned to."""
    turned = Hand("drum", "left", 3, "left", 3, "left")
    assert taken_up(Hand("pad", "inner", 4), turned, SHEET, ("inner", "pad")).side == "left"
