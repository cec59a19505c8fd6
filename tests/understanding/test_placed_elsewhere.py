"""Tests of positions and characteristics that the part in hand does not have, and another part has."""

import pytest

from saywright.hearing.words import typed
from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand

_CORNERS = ("upper left", "upper right", "lower left", "lower right")


def _read(*names: str, lower: str, upper: str) -> Characteristic:
    return Characteristic(
        id=names[0].replace(" ", "_"), names=names, unit="mm", lower=lower, upper=upper, plausible=("0", "90")
    )


def _part(name: str, positions: tuple[str, ...], *read: Characteristic) -> Component:
    return Component(id=name, names=(name,), positions=positions, count=len(positions), characteristic=read)


LEXICON = build_lexicon(
    Sheet(
        id="bench",
        title="Bench",
        component=(
            _part("bearing", ("upper", "lower"), _read("gap", lower="1.0", upper="2.0")),
            _part("guide", _CORNERS, _read("gap", lower="0.1", upper="0.5")),
            _part(
                "cylinder",
                ("front", "rear"),
                _read("diameter", "cylinder diameter", lower="60.00", upper="60.05"),
            ),
            _part("piston", ("front", "rear"), _read("diameter", "skirt", lower="59.90", upper="59.95")),
            _part("disc", ("left", "right"), _read("thickness", lower="10.0", upper="11.0")),
            _part(
                "pad",
                ("left inner", "left outer", "right inner", "right outer"),
                _read("thickness", lower="3.0", upper="8.0"),
            ),
        ),
    )
)


@pytest.mark.parametrize(
    ("before", "said", "of", "asks"),
    [
        (
            "upper bearing gap one point five",
            "gap on the upper left point three",
            ("guide", "upper left"),
            False,
        ),
        ("upper bearing gap one point five", "lower right point three", ("guide", "lower right"), False),
        ("upper bearing gap one point five", "lower one point six", ("bearing", "lower"), False),
        ("upper left guide gap point three", "upper right point four", ("guide", "upper right"), False),
        (
            "front cylinder diameter sixty point oh two",
            "skirt fifty nine point nine two",
            ("piston", "front"),
            True,
        ),
        (
            "left inner pad thickness five point five",
            "ten point six on the left",
            ("pad", "left inner"),
            True,
        ),
        ("left inner pad thickness five point five", "right six point one", ("pad", "right inner"), False),
        ("left disc thickness ten point five", "left outer six point one", ("pad", "left outer"), False),
    ],
)
def test_a_position_or_a_name_of_another_part_alone_is_of_that_part(before, said, of, asks):
    """What the part in hand does not have is read on the part that has it; where either may be, it asks."""
    state, _ = understand(typed(before), Discourse(), LEXICON)
    _, made = understand(typed(said), state, LEXICON)
    (reading,) = [one for one in made if one.kind == "reading"]
    assert (of, asks) == ((reading.component, reading.which), reading.asks)
