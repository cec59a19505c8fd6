"""What a sheet thinks a value can be."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from saywright.sheets.model import Characteristic
from saywright.understanding.quantities.plausible import is_far_out, is_inside, is_plausible


def test_the_sheet_says():
    """A stated range is taken as it stands, ends included."""
    spec = Characteristic(id="h", unit="mm", plausible=(Decimal(10), Decimal(30)))
    assert (Fraction(10), Fraction(30)) == spec.plausible_bounds
    assert [True, True, False] == [is_plausible(spec, Fraction(v)) for v in (10, 30, 31)]


@pytest.mark.parametrize(
    ("spec", "inside", "outside"),
    [
        ({"lower": Decimal(18), "upper": Decimal("18.8")}, "18.4", "184"),
        ({"allowed": (Decimal(125), Decimal(130))}, "128", "12.8"),
        ({"upper": Decimal("0.3")}, "0.2", "20"),
        ({"lower": Decimal(4)}, "5", "500"),
    ],
)
def test_limits_tell_where_no_range_is_stated(spec, inside, outside):
    """Without a range, a point or a digit heard wrong still falls outside what the limits suggest."""
    characteristic = Characteristic(id="x", unit="mm", **spec)
    assert is_plausible(characteristic, Fraction(inside))
    assert not is_plausible(characteristic, Fraction(outside))


def test_nothing_known_is_no_reason_to_ask():
    """A characteristic without limits takes any value."""
    assert Characteristic(id="x").plausible_bounds is None
    assert is_plausible(Characteristic(id="x"), Fraction(10**6))


@pytest.mark.parametrize(
    ("spec", "near", "far"),
    [
        ({"lower": Decimal(18), "upper": Decimal("18.8")}, "17.3", "19.7"),
        ({"allowed": (Decimal(125), Decimal(130))}, "130", "128"),
        ({"lower": Decimal(4)}, "2.1", "1.9"),
        ({"upper": Decimal("0.3")}, "2", None),
    ],
)
def test_far_out(spec, near, far):
    """Far is more than one width of the limits, half of a lone lower one, or any size not permitted."""
    characteristic = Characteristic(id="x", unit="mm", **spec)
    assert not is_far_out(characteristic, Fraction(near))
    assert far is None or is_far_out(characteristic, Fraction(far))


@pytest.mark.parametrize(
    ("value", "inside"), [("17.9", False), ("18", True), ("18.8", True), ("18.81", False)]
)
def test_the_limits_are_inside(value, inside):
    """A value on a limit is within it; without limits every value is."""
    spec = Characteristic(id="h", unit="mm", lower=Decimal(18), upper=Decimal("18.8"))
    assert inside == is_inside(spec, Fraction(value))
    assert is_inside(Characteristic(id="x"), Fraction(value))
