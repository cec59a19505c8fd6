"""Names and figures as people read them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from saywright.judging.wording import figure, limits_text, percent, short, thing, with_unit
from saywright.sheets.model import Characteristic, Component, Sheet

SHEET = Sheet(
    id="s",
    title="S",
    component=(
        Component(
            id="needle",
            names=("float needle",),
            characteristic=(Characteristic(id="length", names=("needle length",), unit="mm"),),
        ),
        Component(
            id="bush",
            names=("bush",),
            positions=("upper", "lower"),
            count=2,
            characteristic=(Characteristic(id="bore", names=("bush bore",), unit="mm"),),
        ),
    ),
)


@pytest.mark.parametrize(
    ("component", "which", "characteristic", "name"),
    [
        ("needle", None, "length", "float needle length"),
        ("bush", "upper", "bore", "upper bush bore"),
        ("bush", None, None, "bush"),
        ("spring", None, "free_length", "spring free length"),
    ],
)
def test_no_word_twice(component: str, which: str | None, characteristic: str | None, name: str) -> None:
    """Part and characteristic make one name; what both say is said once."""
    assert name == thing(SHEET, component, which, characteristic)


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("18.40", "mm", "18.40 mm"),
        ("128", "1", "128"),
        ("1", "turn", "1 turn"),
        ("1.5", "turn", "1.5 turns"),
        ("45", "deg", "45°"),
        ("9", "N.m", "9 N·m"),
    ],
)
def test_units(text: str, unit: str, shown: str) -> None:
    """Digits stay as said; the unit is its symbol."""
    assert shown == with_unit(text, unit)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.0176, "0.018"),
        (0.0350, "0.035"),
        (0.03501, "0.036"),
        (1.234, "1.3"),
        (123.0, "130"),
        (0.0, "0"),
        (0.3, "0.3"),
    ],
)
def test_figures_of_uncertainty_are_rounded_up(value: float, shown: str) -> None:
    """Two digits, never smaller than it is (JCGM 100:2008, 7.2.6)."""
    assert shown == figure(value)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("0.38", "0.38"),
        ("0.123456", "0.1235"),
        ("7.9584", "7.958"),
        ("1234.5", "1234"),
        ("0", "0"),
        ("1/3000", "0.0003333"),
    ],
)
def test_short(value: str, shown: str) -> None:
    """Four significant digits."""
    assert shown == short(Fraction(value))


@pytest.mark.parametrize(
    ("probability", "shown"),
    [(0.5, "50.0 %"), (0.9995, "more than 99.9 %"), (0.0001, "less than 0.1 %"), (0.999, "99.9 %")],
)
def test_percent_never_claims_certainty(probability: float, shown: str) -> None:
    """Neither 0 % nor 100 % is ever printed."""
    assert shown == percent(probability)


@pytest.mark.parametrize(
    ("given", "shown"),
    [
        ({"lower": "18.0", "upper": "18.80"}, "18.0 to 18.80 mm"),
        ({"upper": "8.06"}, "at most 8.06 mm"),
        ({"lower": "1"}, "at least 1 mm"),
        ({"nominal": "10.0", "tolerance": "0.2"}, "9.8 to 10.2 mm"),
        ({"allowed": ("1.25",)}, "1.25 mm"),
        ({"upper": "1E+2"}, "at most 100 mm"),
        ({"allowed": ("1", "2", "3")}, "1, 2 or 3 mm"),
        ({}, "no limit"),
    ],
)
def test_limits(given: dict[str, object], shown: str) -> None:
    """Limits keep the digits of the sheet."""
    assert shown == limits_text(Characteristic.model_validate({"id": "x", "unit": "mm", **given}))
