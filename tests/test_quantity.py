"""Values keep their digits; conversions are exact."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.errors import InputError
from saywright.quantity import Quantity, decimal_text, parse_value


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("18.40", Fraction(92, 5)),
        ("-3", Fraction(-3)),
        ("−3", Fraction(-3)),
        ("+0.5", Fraction(1, 2)),
        ("1/3", Fraction(1, 3)),
        ("18,42", Fraction("18.42")),
        (" 007 ", Fraction(7)),
    ],
)
def test_reads_numbers(text: str, value: Fraction) -> None:
    """Decimals, ratios, either sign, comma or point."""
    assert value == parse_value(text)


@pytest.mark.parametrize(
    "text", ["", "eighteen", "1.", ".5", "1e3", "1/0", "1/2/3", "1.5/2", "nan", "inf", "1 2", "٣x"]
)
def test_refuses_everything_else(text: str) -> None:
    """What is no plain number is refused in one line."""
    with pytest.raises(InputError) as refused:
        parse_value(text)
    assert f"'{text}' is not a number. Write it like 18.42 or 1/3" == str(refused.value)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(92, 5), "18.4"),
        (Fraction(100), "100"),
        (Fraction(1, 3), "0.333333333333"),
        (Fraction("0.1016"), "0.1016"),
        (Fraction(-1, 10**15), "0"),
        (Fraction(0), "0"),
        (Fraction(10**20), "100000000000000000000"),
    ],
)
def test_decimal_text(value: Fraction, text: str) -> None:
    """Plain decimals, without exponent, superfluous zeros or a negative zero."""
    assert text == decimal_text(value)


@given(st.decimals(allow_nan=False, allow_infinity=False, places=6, min_value=-(10**9), max_value=10**9))
def test_decimal_text_is_read_back(value: Decimal) -> None:
    """What is written is read back as the same number."""
    assert Fraction(value) == parse_value(decimal_text(Fraction(value)))


@pytest.mark.parametrize(
    ("text", "step"),
    [("18.40", "0.01"), ("18.4", "0.1"), ("18", "1"), ("0.027", "0.001"), ("1.250", "0.001")],
)
def test_last_digit_said_is_the_step(text: str, step: str) -> None:
    """ "One point two five zero" was read to a thousandth; the trailing zero is kept."""
    assert Fraction(step) == Quantity(text, "mm").step


def test_a_ratio_has_no_decimal_step() -> None:
    """A spoken third has no last digit."""
    assert Quantity("1/3", "turn").step is None


def test_told_in_another_unit() -> None:
    """The digits and unit said stay; the conversion is derived and exact."""
    said = Quantity("60", "thou")
    assert Fraction("1.524") == said.to("mm")
    assert ("60 thou", "128") == (str(said), str(Quantity("128", "1")))


@pytest.mark.parametrize(("text", "unit"), [("x", "mm"), ("1", "furlong")])
def test_checked_when_built(text: str, unit: str) -> None:
    """A quantity that is no number or has no known unit cannot exist."""
    with pytest.raises(InputError):
        Quantity(text, unit)


def test_turns_are_counted_in_words() -> None:
    """One turn, two turns; other units have signs, which take no plural."""
    told = [str(Quantity(text, unit)) for text, unit in (("1", "turn"), ("1.5", "turn"), ("2", "mm"))]
    assert ["1 turn", "1.5 turns", "2 mm"] == told
