"""The closed table of units: exact factor, UCUM code, spoken names.

Factors are exact by definition (1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²:
NIST SP 811, appendix B). UCUM codes: The Unified Code for Units of Measure, ucum.org.
A unit's *kind* keeps quantities apart that share a dimension: a torque is no energy, and a
stamped size is no count of turns.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from saywright.errors import InputError

_IN_MM = Fraction("25.4")
_LBF_N = Fraction("0.45359237") * Fraction("9.80665")
_PSI_KPA = _LBF_N / (_IN_MM * _IN_MM) * 1000
_FT_M = Fraction("0.3048")


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measurement."""

    code: str  # as written in sheets and records
    ucum: str  # UCUM, case sensitive
    kind: str  # only units of one kind convert into each other
    factor: Fraction  # how many of the kind's base unit one of these is
    names: tuple[str, ...]  # as spoken, singular and plural
    offset: Fraction = Fraction(0)  # in base units; for temperatures that have their own zero

    @property
    def symbol(self) -> str:
        """How it is printed behind a value; empty for a plain number."""
        return _SYMBOLS.get(self.code, self.code)


_SYMBOLS = {
    "1": "",
    "um": "µm",
    "deg": "°",
    "degC": "°C",
    "degF": "°F",
    "N.m": "N·m",
    "lbf.in": "lbf·in",
    "lbf.ft": "lbf·ft",
    "in2": "in²",
    "mm2": "mm²",
    "inHg": "inHg",
    "ohm": "Ω",
}

_MILLILITRES = (
    "milliliter", "milliliters", "millilitre", "millilitres", "cc", "c c", "ccs", "mils", "mil", "ml", "m l",
)  # fmt: skip


def _per_minute(*names: str) -> tuple[str, ...]:
    """The spoken names of so much a minute, of four words at most."""
    rates = ("per minute", "a minute", "minute", "in a minute")  # the little word is often lost
    return tuple(f"{name} {rate}" for name in names for rate in (rates[:3] if " " in name else rates))


_TABLE = (
    Unit("1", "1", "number", Fraction(1), ()),
    Unit(
        "mm",
        "mm",
        "length",
        Fraction(1),
        ("millimeter", "millimeters", "millimetre", "millimetres", "mil", "mils", "mm", "m m", "em em"),
    ),
    Unit(
        "cm", "cm", "length", Fraction(10), ("centimeter", "centimeters", "centimetre", "centimetres", "cm")
    ),
    Unit("m", "m", "length", Fraction(1000), ("meter", "meters", "metre", "metres")),
    Unit("um", "um", "length", Fraction(1, 1000), ("micron", "microns", "micrometre", "micrometres", "um")),
    Unit("in", "[in_i]", "length", _IN_MM, ("inch", "inches")),
    Unit("ft", "[ft_i]", "length", _IN_MM * 12, ("foot", "feet")),
    Unit(
        "thou",
        "[mil_i]",
        "length",
        _IN_MM / 1000,
        ("thou", "thousandth", "thousandths", "thousands", "thous", "mil", "mils"),
    ),
    Unit(
        "turn",
        "circ",
        "turn",
        Fraction(1),
        ("turn", "turns", "turn out", "turns out", "revolution", "revolutions", "rev", "revs"),
    ),
    Unit("deg", "deg", "angle", Fraction(1), ("degree", "degrees", "deg")),
    Unit("kPa", "kPa", "pressure", Fraction(1), ("kilopascal", "kilopascals", "k p a", "kpa")),
    Unit("Pa", "Pa", "pressure", Fraction(1, 1000), ("pascal", "pascals")),
    Unit("MPa", "MPa", "pressure", Fraction(1000), ("megapascal", "megapascals")),
    Unit("bar", "bar", "pressure", Fraction(100), ("bar", "bars")),
    Unit("mbar", "mbar", "pressure", Fraction(1, 10), ("millibar", "millibars")),
    Unit(
        "psi",
        "[psi]",
        "pressure",
        _PSI_KPA,
        ("psi", "p s i", "pounds per square inch", "pounds a square inch"),
    ),
    Unit("inHg", "[in_i'Hg]", "pressure", Fraction("3.386389"), ("inches of mercury", "inch of mercury")),
    Unit(
        "N.m",
        "N.m",
        "torque",
        Fraction(1),
        ("newton meter", "newton meters", "newton metre", "newton metres", "n m", "nm"),
    ),
    Unit(
        "lbf.in",
        "[lbf_av].[in_i]",
        "torque",
        _LBF_N * _IN_MM / 1000,
        ("inch pound", "inch pounds", "pound inch", "pound inches"),
    ),
    Unit(
        "lbf.ft",
        "[lbf_av].[ft_i]",
        "torque",
        _LBF_N * _FT_M,
        ("foot pound", "foot pounds", "pound foot", "pound feet"),
    ),
    Unit("N", "N", "force", Fraction(1), ("newton", "newtons")),
    Unit("lbf", "[lbf_av]", "force", _LBF_N, ("pound force", "pounds force")),
    Unit("s", "s", "time", Fraction(1), ("second", "seconds")),
    Unit("min", "min", "time", Fraction(60), ("minute", "minutes")),
    Unit("h", "h", "time", Fraction(3600), ("hour", "hours")),
    Unit("mL", "mL", "volume", Fraction(1), _MILLILITRES),
    Unit("L", "L", "volume", Fraction(1000), ("liter", "liters", "litre", "litres")),
    Unit("foz_us", "[foz_us]", "volume", Fraction("29.5735295625"), ("fluid ounce", "fluid ounces")),
    Unit("g", "g", "mass", Fraction(1), ("gram", "grams", "gramme", "grammes")),
    Unit("kg", "kg", "mass", Fraction(1000), ("kilo", "kilos", "kilogram", "kilograms", "kg")),
    Unit("oz", "[oz_av]", "mass", Fraction("28.349523125"), ("ounce", "ounces")),
    Unit("lb", "[lb_av]", "mass", Fraction("453.59237"), ("pound", "pounds")),
    Unit(
        "degC",
        "Cel",
        "temperature",
        Fraction(1),
        ("degrees celsius", "degree celsius", "degrees centigrade", "celsius", "degrees c"),
    ),
    Unit(
        "degF",
        "[degF]",
        "temperature",
        Fraction(5, 9),
        ("degrees fahrenheit", "degree fahrenheit", "fahrenheit", "degrees f"),
        Fraction(-160, 9),
    ),
    Unit("rpm", "{rev}/min", "speed", Fraction(1), ("rpm", "r p m", *_per_minute("rev", "revs"))),
    Unit("V", "V", "voltage", Fraction(1), ("volt", "volts")),
    Unit("A", "A", "current", Fraction(1), ("amp", "amps", "ampere", "amperes")),
    Unit("ohm", "Ohm", "resistance", Fraction(1), ("ohm", "ohms")),
    Unit("kohm", "kOhm", "resistance", Fraction(1000), ("kilohm", "kilohms", "k ohm", "k ohms")),
    Unit("%", "%", "share", Fraction(1), ("percent", "per cent")),
    Unit(
        "L/min",
        "L/min",
        "flow",
        Fraction(1),
        ("lpm", "l p m", *_per_minute("liter", "liters", "litre", "litres")),
    ),
    Unit("mL/min", "mL/min", "flow", Fraction(1, 1000), _per_minute(*_MILLILITRES)),
    Unit("N/mm", "N/mm", "spring_rate", Fraction(1), ("newtons per millimeter", "newtons per millimetre")),
)


class _Units(dict[str, Unit]):
    """Units by their codes; InputError names the known codes where one is not among them."""

    def __missing__(self, code: str) -> Unit:
        raise InputError(f"unknown unit '{code}'", to_do=f"Known units: {', '.join(self)}")


UNITS = _Units({unit.code: unit for unit in _TABLE})
get_unit = UNITS.__getitem__


def spoken_units() -> dict[str, tuple[str, ...]]:
    """Spoken name → codes of the units it may mean (more than one where the name is ambiguous)."""
    found: dict[str, tuple[str, ...]] = {}
    for unit in _TABLE:
        for name in unit.names:
            found[name] = (*found.get(name, ()), unit.code)
    return found


def convertible(from_code: str, to_code: str) -> bool:
    """True where a value in one unit can be told in the other."""
    return UNITS[from_code].kind == UNITS[to_code].kind


def convert(value: Fraction, from_code: str, to_code: str) -> Fraction:
    """*value* told in another unit of the same kind, exactly; InputError across kinds."""
    source, target = UNITS[from_code], UNITS[to_code]
    if source.kind != target.kind:
        raise InputError(f"'{from_code}' ({source.kind}) cannot be told in '{to_code}' ({target.kind})")
    if source is target:
        return value
    return (value * source.factor + source.offset - target.offset) / target.factor
