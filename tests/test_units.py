"""Unit factors against NIST SP 811 (2008), appendix B.8, and exact definitions; UCUM codes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.errors import InputError
from saywright.units import UNITS, convert, convertible, get_unit, spoken_units

# value of one unit in another, as printed to seven digits in NIST SP 811, appendix B.8
SP_811 = [
    ("in", "m", "2.54e-2"),
    ("thou", "m", "2.54e-5"),  # mil; row from memory, recomputed
    ("ft", "m", "3.048e-1"),
    ("psi", "Pa", "6.894757e3"),
    ("bar", "Pa", "1.0e5"),
    ("mbar", "Pa", "1.0e2"),  # from memory
    ("inHg", "Pa", "3.386389e3"),
    ("lbf.in", "N.m", "1.129848e-1"),
    ("lbf.ft", "N.m", "1.355818"),
    ("lbf", "N", "4.448222"),  # from memory, recomputed
    ("lb", "kg", "4.535924e-1"),  # from memory, recomputed
    ("oz", "g", "2.834952e1"),  # from memory, recomputed
    ("foz_us", "mL", "2.957353e1"),
]

# The Unified Code for Units of Measure, ucum-essence 2.2
UCUM = {
    "mm": "mm",
    "in": "[in_i]",
    "thou": "[mil_i]",
    "psi": "[psi]",
    "bar": "bar",
    "inHg": "[in_i'Hg]",
    "N.m": "N.m",
    "lbf.in": "[lbf_av].[in_i]",
    "lbf.ft": "[lbf_av].[ft_i]",
    "foz_us": "[foz_us]",
    "deg": "deg",
    "turn": "circ",
    "degC": "Cel",
    "degF": "[degF]",
}


@pytest.mark.parametrize(("code", "target", "printed"), SP_811)
def test_sp_811(code: str, target: str, printed: str) -> None:
    """The factor rounds to the seven digits printed."""
    assert float(printed) == float(f"{float(convert(Fraction(1), code, target)):.6e}")


@pytest.mark.parametrize(
    ("value", "code", "target", "exact"),
    [
        ("3/64", "in", "mm", "1.190625"),
        ("13/64", "in", "mm", "5.159375"),
        ("60", "thou", "mm", "1.524"),
        ("4", "thou", "mm", "0.1016"),
        ("1", "lb", "g", "453.59237"),
        ("212", "degF", "degC", "100"),
        ("-40", "degF", "degC", "-40"),
        ("0", "degC", "degF", "32"),
        ("2", "min", "s", "120"),
    ],
)
def test_exact(value: str, code: str, target: str, exact: str) -> None:
    """By definition 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 0 °C = 32 °F: no digit is lost."""
    assert Fraction(exact) == convert(Fraction(value), code, target)


@pytest.mark.parametrize(("code", "ucum"), UCUM.items())
def test_ucum(code: str, ucum: str) -> None:
    """Exports carry the code of the standard, case sensitive."""
    assert ucum == get_unit(code).ucum


def test_kinds_stay_apart() -> None:
    """A torque is no length, a turn is no angle in degrees, a number is no count of turns."""
    assert convertible("lbf.in", "N.m")
    assert not convertible("N.m", "mm")
    assert not convertible("turn", "1")
    with pytest.raises(InputError) as refused:
        convert(Fraction(1), "bar", "mm")
    assert "'bar' (pressure) cannot be told in 'mm' (length)" == str(refused.value)


def test_unknown_unit_lists_the_known() -> None:
    """The error names what was asked for and every code there is."""
    with pytest.raises(InputError) as refused:
        get_unit("furlong")
    assert f"unknown unit 'furlong'. Known units: {', '.join(UNITS)}" == str(refused.value)


def test_ambiguous_names_list_every_meaning() -> None:
    """ "Mil" is a millimetre, a thousandth of an inch or a millilitre, by who says it."""
    assert {"mm", "thou", "mL"} == set(spoken_units()["mil"])
    assert ("mL/min",) == spoken_units()["mil a minute"] == spoken_units()["cc per minute"]
    assert ("psi",) == spoken_units()["p s i"]


def test_symbols() -> None:
    """What is printed behind a value; a plain number has none."""
    shown = [get_unit(code).symbol for code in ("1", "um", "deg", "N.m", "mm")]
    assert ["", "µm", "°", "N·m", "mm"] == shown


def test_codes_are_their_own() -> None:
    """No two units share a UCUM code, and each is filed under its own code."""
    assert len(UNITS) == len({unit.ucum for unit in UNITS.values()})
    assert all(code == unit.code for code, unit in UNITS.items())


_pairs = [(a, b) for a in UNITS for b in UNITS if convertible(a, b)]


@given(st.sampled_from(_pairs), st.fractions())
def test_there_and_back(pair: tuple[str, str], value: Fraction) -> None:
    """Told in another unit and back, every value is exactly what it was."""
    one, other = pair
    assert value == convert(convert(value, one, other), other, one)
