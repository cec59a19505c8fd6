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


CORNERS = """
[sheet]
id = "four-wheel-trolley"
title = "Trolley with a wheel at each corner"
revision = "A"
source = "Invented for this test"
extends = "base"

[[component]]
id = "wheel"
names = ["wheel"]
positions = ["nearside front", "offside front", "nearside rear", "offside rear"]
[[component.characteristic]]
id = "thickness"
names = ["thickness"]
unit = "mm"
plausible = [2, 9]

[[component]]
id = "front_block"
names = ["front block"]
positions = ["nearside leading", "nearside trailing", "offside leading", "offside trailing"]
[[component.characteristic]]
id = "height"
names = ["height"]
unit = "mm"
plausible = [2, 9]

[[component]]
id = "rear_block"
names = ["rear block"]
positions = ["nearside leading", "nearside trailing", "offside leading", "offside trailing"]
[[component.characteristic]]
id = "height"
names = ["height"]
unit = "mm"
plausible = [2, 9]

[[component]]
id = "cable"
names = ["cable"]
positions = ["nearside", "offside"]

[[component]]
id = "front_plate"
names = ["front plate", "nearside plate"]

[[component]]
id = "side_plate"
names = ["nearside plate", "front plate"]
"""


@pytest.fixture(scope="module")
def corners(tmp_path_factory):
    """A sheet whose parts stand at corners, in pairs, and one on each side."""
    path = tmp_path_factory.mktemp("sheets") / "four-wheel-trolley.toml"
    path.write_text(CORNERS)
    return build_lexicon(load_sheet(str(path)))


@pytest.mark.parametrize(
    ("turn", "which"),
    [
        ("near side front first", "nearside front"),
        ("off side front now", "offside front"),
        ("last corner offside rear", "offside rear"),
    ],
)
def test_a_corner_is_turned_to(corners, turn, which):
    """ "Off side" is one word on a sheet of nearside and offside, and a corner is kept over what is on it."""
    (reading,) = _told(corners, turn, "wheel off", "thickness five point two", kind=Reading)
    assert ("wheel", which) == (reading.component, reading.which)


def test_a_corner_is_kept_over_a_part_of_its_side(corners):
    """The cable is on the near side; what follows it is at the corner still."""
    lines = ("nearside rear now", "cable's frayed", "wheel off", "thickness five point two")
    (reading,) = _told(corners, *lines, kind=Reading)
    assert ("wheel", "nearside rear") == (reading.component, reading.which)


def test_a_corner_tells_which_kind_is_read(corners):
    """ "Leading height" at the rear is of the rear block on that side."""
    (reading,) = _told(corners, "nearside rear now", "leading height five point two", kind=Reading)
    assert ("rear_block", "nearside leading") == (reading.component, reading.which)


def test_two_kinds_called_after_both_words_of_a_corner_are_both_there(corners):
    """Found by the fuzz: where each of two parts has the other's place in its names, neither is elsewhere."""
    (moved,) = _told(corners, "nearside front now", "plate off", kind=Movement)
    assert moved.component in {"front_plate", "side_plate"}
    assert [f.kind for f in moved.flags if f.level == "ask"]


def test_a_side_before_a_count_is_turned_to_where_nothing_was_made_of_it(corners):
    """ "Right, offside front, five more nuts": nuts are none of the sheet, what follows is on that side."""
    lines = ("nearside front wheel off", "right offside front five more nuts", "wheel's worn")
    (found,) = _told(corners, *lines, kind=ConditionNote)
    assert ("wheel", "offside front") == (found.component, found.which)
