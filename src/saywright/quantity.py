"""A value with the digits and the unit it was said in; conversion is exact and derived.

A value is text: "18.40" keeps its zero, "1/3" stays a third. Everything computed from it
goes through `Fraction`, so nothing is rounded before it is printed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import lru_cache

from saywright.errors import InputError
from saywright.units import convert, get_unit

OpenBounds = tuple[Fraction | None, Fraction | None]  # ends included; None: no bound on that side

_DECIMAL = re.compile(r"[+-]?\d+(\.\d+)?")
_RATIO = re.compile(r"[+-]?\d+/[1-9]\d*")


@lru_cache(maxsize=4_096)
def parse_value(text: str) -> Fraction:
    """The exact number written in *text* ("18.40", "-3", "1/3"); InputError for anything else."""
    stripped = text.strip().replace("−", "-").replace(",", ".")
    if _DECIMAL.fullmatch(stripped) or _RATIO.fullmatch(stripped):
        return Fraction(stripped)
    raise InputError(f"'{text}' is not a number", to_do="Write it like 18.42 or 1/3")


def decimal_text(value: Fraction, max_places: int = 12) -> str:
    """*value* as a decimal without superfluous zeros; rounded only past *max_places*, half to even."""
    with localcontext() as context:
        context.prec = 60
        exact = Decimal(value.numerator) / Decimal(value.denominator)
        text = f"{round(exact, max_places):f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def decimals(value: Decimal | None) -> int:
    """Decimals that a number of the sheet is written with; 0 where it gives none."""
    return max(0, -int(value.as_tuple().exponent)) if value is not None else 0


def within(value: Fraction, bounds: OpenBounds) -> bool:
    """True where *value* is inside *bounds* or on them.

    Compared in whole numbers: fractions take five times as long, and this is asked for every number said.
    """
    number, by = value.as_integer_ratio()
    if bounds[0] is not None:
        low, low_by = bounds[0].as_integer_ratio()
        if number * low_by < low * by:
            return False
    if bounds[1] is not None:
        high, high_by = bounds[1].as_integer_ratio()
        return number * high_by <= high * by
    return True


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and its unit, both as said."""

    text: str  # digits as said
    unit: str  # code of `saywright.units`
    u: str | None = None  # standard uncertainty in that unit, decimal, where the measurement itself told one

    def __post_init__(self) -> None:
        parse_value(self.text)
        get_unit(self.unit)

    @property
    def value(self) -> Fraction:
        """The exact number."""
        return parse_value(self.text)

    @property
    def step(self) -> Fraction | None:
        """The place value of the last digit said, in the unit said; None for a ratio such as 1/3."""
        if "/" in self.text:
            return None
        _, _, decimals = self.text.partition(".")
        return Fraction(1, 10 ** len(decimals))

    def to(self, unit: str) -> Fraction:
        """The exact value in another unit of the same kind."""
        return convert(self.value, self.unit, unit)

    def __str__(self) -> str:
        symbol = get_unit(self.unit).symbol
        if self.unit == "turn" and self.text not in ("1", "-1"):
            symbol = "turns"  # the one unit whose sign is a word
        return f"{self.text} {symbol}" if symbol else self.text
