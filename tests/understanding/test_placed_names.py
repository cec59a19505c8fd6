"""Parts whose names hold a place word, beside parts that have that place: "front disc", "front disc bolt"."""

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import ConditionNote, Movement, Reading

SHEET = """
[sheet]
id = "two-wheel-carriage"
title = "Carriage with a wheel at each end"
revision = "A"
source = "Invented for this test"
extends = "base"

[[component]]
id = "wheel"
names = ["wheel"]
positions = ["front", "rear"]
[[component.characteristic]]
id = "thickness"
names = ["thickness"]
unit = "mm"
plausible = [2, 9]

[[component]]
id = "hub"
names = ["hub"]
positions = ["front", "rear"]

[[component]]
id = "front_wheel_bolt"
names = ["front wheel bolt"]
count = 6
[[component.characteristic]]
id = "torque"
names = ["torque"]
unit = "N.m"
plausible = [5, 80]

[[component]]
id = "rear_wheel_bolt"
names = ["rear wheel bolt"]
count = 5
[[component.characteristic]]
id = "torque"
names = ["torque"]
unit = "N.m"
plausible = [5, 80]
"""


@pytest.fixture(scope="module")
def lexicon(tmp_path_factory):
    """The small sheet, ready to be heard about."""
    path = tmp_path_factory.mktemp("sheets") / "two-wheel-carriage.toml"
    path.write_text(SHEET)
    return build_lexicon(load_sheet(str(path)))


def _told(lexicon, *lines, kind):
    state, made = Discourse(), ()
    for words in lines:
        state, made = understand(typed(words), state, lexicon)
    return [s for s in made if isinstance(s, kind)]


def test_a_place_before_a_name_is_no_short_name_of_another_part(lexicon):
    """ "Rear wheel five point oh one" is of the wheel, not of the rear wheel bolt."""
    (reading,) = _told(lexicon, "rear wheel five point oh one", kind=Reading)
    assert ("wheel", "rear", "5.01") == (reading.component, reading.which, reading.value)


def test_as_many_as_there_are_tell_which_kind(lexicon):
    """ "Five wheel bolts" are those of which there are five, in front there are six."""
    (moved,) = _told(lexicon, "five wheel bolts out", kind=Movement)
    assert ("rear_wheel_bolt", 5) == (moved.component, moved.count)


def test_the_side_in_hand_tells_which_kind(lexicon):
    """ "Wheel bolts" while the rear is worked on are the rear ones."""
    (reading,) = _told(lexicon, "now the rear", "hub off", "wheel bolts at thirty", kind=Reading)[:1]
    assert "rear_wheel_bolt" == reading.component


@pytest.mark.parametrize("turn", ["right rear now", "right the rear one next", "rear now"])
def test_right_before_a_place_is_a_word_of_talk_where_nothing_is_right(lexicon, turn):
    """ "Right, rear now" turns to the rear on a sheet without left and right."""
    (moved,) = _told(lexicon, "front hub off", turn, "wheel off", kind=Movement)
    assert ("wheel", "rear") == (moved.component, moved.which)


def test_back_to_front_is_no_place(lexicon):
    """ "I've got those two back to front" gives each value to the other, and turns to no side."""
    lines = ("wheel front four point five rear four point six", "hang on i've got those two back to front")
    given = {(r.which, r.value) for r in _told(lexicon, *lines, kind=Reading)}
    assert {("front", "4.6"), ("rear", "4.5")} == given


def test_how_a_thing_hung_is_no_side(tmp_path):
    """ "It wasn't hanging right" says nothing of the right side."""
    path = tmp_path / "two-wheel-carriage.toml"
    path.write_text(SHEET.replace('"front", "rear"', '"left", "right"'))
    sides = build_lexicon(load_sheet(str(path)))
    lines = ("left wheel four point five", "no hang on it wasn't hanging right four point six")
    (reading,) = _told(sides, *lines, kind=Reading)
    assert ("left", "4.6") == (reading.which, reading.value)
    (found,) = _told(sides, *lines, "it's worn", kind=ConditionNote)
    assert "left" == found.which
