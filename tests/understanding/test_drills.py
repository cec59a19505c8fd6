"""Drill sizes against the published table."""

from __future__ import annotations

from decimal import Decimal

import pytest

from saywright.understanding.numbers.drills import drill_diameter_in

# ASME B94.11M, as quoted in open drill charts.
PUBLISHED = {
    "1": "0.2280",
    "7": "0.2010",
    "10": "0.1935",
    "20": "0.1610",
    "30": "0.1285",
    "40": "0.0980",
    "45": "0.0820",
    "50": "0.0700",
    "55": "0.0520",
    "56": "0.0465",
    "60": "0.0400",
    "65": "0.0350",
    "70": "0.0280",
    "80": "0.0135",
    "52": "0.0635",
    "53": "0.0595",
    "A": "0.234",
    "B": "0.238",
    "E": "0.250",
    "F": "0.257",
    "H": "0.266",
    "J": "0.277",
    "K": "0.281",
    "L": "0.290",
    "O": "0.316",
    "Q": "0.332",
    "S": "0.348",
    "X": "0.397",
    "Y": "0.404",
    "Z": "0.413",
}


@pytest.mark.parametrize(("name", "inches"), PUBLISHED.items())
def test_published_diameters(name: str, inches: str) -> None:
    """Each size that a published chart gives."""
    assert Decimal(inches) == drill_diameter_in(name)


def test_a_higher_number_is_a_smaller_drill() -> None:
    """Number drills decrease strictly from 1 to 80, letters increase from A, which is larger than 1."""
    numbered = [drill_diameter_in(f"#{n}") or Decimal(0) for n in range(1, 81)]
    lettered = [drill_diameter_in(letter) or Decimal(0) for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    assert sorted(set(numbered), reverse=True) == numbered
    assert sorted(set(lettered)) == lettered
    assert numbered[0] < lettered[0]


@pytest.mark.parametrize("name", ["0", "81", "", "#", "aa", "é", "²", "1.5", "128"])
def test_no_such_drill(name: str) -> None:
    """Anything else names no drill."""
    assert drill_diameter_in(name) is None
