"""Tests of the sides of a sheet and of what turns to one."""

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.turning import has_side, head_side, other_side, side_of, turned_by
from saywright.understanding.statements import Movement

HUB = Component(id="hub", names=("hub",), positions=("near", "off"), count=2)
PAD = Component(
    id="pad", names=("pad",), positions=("near inner", "near outer", "off inner", "off outer"), count=4
)
ROLLER = Component(id="roller", names=("roller",), positions=("one", "two", "three"), count=3)
SHEET = Sheet(id="bench", title="Bench", component=(HUB, PAD, ROLLER))


def off(number, component, which):
    """A movement: taken off."""
    return Movement(
        id=f"s{number}",
        heard="",
        stage="as_found",
        component=component,
        which=which,
        count=1,
        movement="removed",
    )


def test_the_words_that_tell_some_of_the_positions():
    """Each word that several positions share; none where each position is one word."""
    assert frozenset({"near", "off", "inner", "outer"}) == PAD.place_words
    assert frozenset() == HUB.place_words
    assert PAD.has_places(("inner", "near outer"))
    assert not PAD.has_places(("upper",))


def test_the_side_in_a_position_of_two_kinds():
    """The word that is a position by itself somewhere; a whole position where there is none."""
    assert "near" == side_of(SHEET, "near inner")
    assert "two" == side_of(SHEET, "two")
    assert side_of(SHEET, None) is None
    assert [True, True, False] == [has_side(PAD, "near"), has_side(HUB, "off"), has_side(ROLLER, "near")]


def test_the_other_side_where_there_are_two():
    """Of three there is no other one."""
    assert "off" == other_side(SHEET, "near")
    assert other_side(SHEET, "one") is None


def test_what_comes_off_turns_to_its_side():
    """Until the same part comes off on another side; what has no side turns to none."""
    held = Hand("hub", "near", 4, side="near", side_at=4)
    turned = turned_by(SHEET, held, [off(9, "hub", "near")], [])
    assert ("near", True) == (turned.side, turned.turned)
    both = turned_by(SHEET, held, [off(9, "hub", "near")], [[off(8, "hub", "off")]])
    assert (None, None) == (both.side, both.turned_to)
    assert held == turned_by(SHEET, held, [], [])


def test_the_first_words_turn_to_the_other_side():
    """At the head of an utterance, and only where a side is in hand."""
    held = Hand("hub", "near", 4, side="near", side_at=4)
    assert "off" == head_side(("right", "then", "other", "side", "hub", "off"), held, SHEET)
    assert head_side(("same", "on", "the", "other", "side"), held, SHEET) is None
    assert head_side(("other", "side"), None, SHEET) is None
