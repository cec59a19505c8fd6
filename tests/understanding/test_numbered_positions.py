"""Tests of positions that are numbers."""

from saywright.sheets.model import Component, Sheet
from saywright.understanding.sides.numbered_positions import as_called, as_counted, called_on
from saywright.understanding.statements import Movement

JAW = Component(id="jaw", names=("jaw",), positions=("number one", "number two"), count=2)
SIDE = Component(id="pad", names=("pad",), positions=("left", "right"), count=2)
SHEET = Sheet(id="s", title="S", revision="A", source="Own", component=(JAW, SIDE))


def test_numbers_are_counted() -> None:
    """A sheet's numbers are no positions; its sides are."""
    counted = as_counted(SHEET).component
    assert [((), 2), (("left", "right"), 2)] == [(c.positions, c.count) for c in counted]


def test_names_come_back() -> None:
    """What is understood bears the sheet's name of the position."""
    made = Movement(
        id="s1",
        stage="as_found",
        heard="jaw two out",
        component="jaw",
        which="2",
        count=1,
        movement="removed",
    )
    (called,) = as_called((made,), called_on(SHEET))
    assert "number two" == getattr(called, "which", None)
