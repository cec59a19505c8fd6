"""Tests of the numbers that name a station of a sheet whose parts are numbered alike."""

import pytest

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.sides.stations import stations_in
from saywright.understanding.tokens import tokenise

CYLINDERS = ("1", "2", "3")
SHEET = Sheet(
    id="pump",
    title="Pump",
    component=(
        *(Component(id=name, names=(name,), positions=CYLINDERS) for name in ("head", "valve", "piston")),
        Component(id="bolt", names=("bolt",), count=8),
    ),
)
LEXICON = build_lexicon(SHEET)
AT_ONE = Hand("valve", "1", 1, side="1", side_at=1, turned_to="1")


def stations(said):
    """The stations named in *said*, with "+" where one is turned to and "-" where one is left."""
    texts = tuple(token.text for token in tokenise(said.split()))
    marks = {"TURNED": "+", "LEFT": "-", "": ""}
    return [f"{marks[one.tag]}{one.order}" for one in stations_in(texts, LEXICON, AT_ONE).values()]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("now two so head off", ["+2"]),
        ("three so head off", ["+3"]),
        ("on to number three then", ["+3"]),
        ("that's one done now two", ["-1", "+2"]),
        ("new piston in number three", ["3"]),
        ("bolt and piston for three as well", ["3"]),
        ("second cylinder piston's worn", ["2"]),
        ("now two new piston in", ["+2"]),
    ],
)
def test_a_number_names_a_station(said: str, expected: list[str]) -> None:
    """Words that lead to a number, or what it is called, make it a station."""
    assert expected == stations(said)


@pytest.mark.parametrize(
    "said",
    [
        "now two heads off",
        "so two valves are out",
        "number two phillips",
        "part number two six four one",
        "now two point four",
        "back to two turns",
        "now three",
        "it's now two",
        "two of the pistons are worn",
        "number five head off",
    ],
)
def test_a_number_is_none(said: str) -> None:
    """A value, a count, a size, a digit and more than there are name no station."""
    assert [] == stations(said)


def test_parts_numbered_once_make_none() -> None:
    """One part that is numbered has nothing that goes with it."""
    alone = Sheet(id="s", title="S", component=(Component(id="jaw", names=("jaw",), positions=CYLINDERS),))
    assert 0 == build_lexicon(alone).stations
