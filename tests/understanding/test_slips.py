"""What may have been said where a number was heard."""

from __future__ import annotations

from decimal import Decimal

import pytest

from saywright.understanding.sounds.slips import misheard_for


@pytest.mark.parametrize(
    ("said", "heard"),
    [
        ("31.965", "31.65"),  # a decimal lost
        ("32.05", "30.05"),  # "thirty two point oh five" without "two"
        ("31.95", "30.195"),  # "thirty point one nine five" for "thirty one point nine five"
        ("27", "7"),  # "twenty" lost
        ("260", "216"),  # "sixty" heard as "sixteen"
        ("16", "60"),
        ("86", "186"),  # "eighteen six" for "eighty six"
        ("0.8746", "0.8476"),  # two digits swapped
        ("128", "218"),
        ("8.99", "8.499"),  # "eight four nine nine" for "eight point nine nine"
    ],
)
def test_one_slip(said: str, heard: str) -> None:
    """Each kind of slip leads back from what was heard to what was said."""
    assert Decimal(said) in set(misheard_for(heard, 3 if "8746" not in said else 4))


@pytest.mark.parametrize(("other", "heard"), [("18.61", "28.61"), ("31.9655", "31.965"), ("18.42", "17.42")])
def test_no_slip(other: str, heard: str) -> None:
    """Another digit is no slip, nor is a decimal more than is read here."""
    assert Decimal(other) not in set(misheard_for(heard, 3))


def test_shares_and_odd_values_have_none() -> None:
    """A third has no digits to lose."""
    assert [] == list(misheard_for("1/3", 2))
