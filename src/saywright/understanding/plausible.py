"""What a sheet thinks a characteristic can be at all, and how well a number fits it."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from saywright.sheets.model import Characteristic

_FAR_OUT = Fraction(1)  # widths of the limits
_FAR_OUT_ONE_SIDED = Fraction(1, 2)  # of the limit


def plausible_range(characteristic: Characteristic) -> tuple[Fraction, Fraction] | None:
    """Bounds in the characteristic's unit, ends included; None where the sheet gives nothing to go by.

    Without `plausible` the bounds are drawn wide around the limits or the permitted sizes, so
    that a number heard wrong by its point or its hundreds still asks.
    """
    return _range(characteristic.plausible, tuple(characteristic.allowed), characteristic.limits)


@lru_cache(maxsize=4_096)
def _range(
    plausible: tuple[Decimal, Decimal] | None,
    allowed: tuple[Decimal, ...],
    limits: tuple[Decimal | None, Decimal | None],
) -> tuple[Fraction, Fraction] | None:
    if plausible is not None:
        low, high = plausible
        return Fraction(low), Fraction(high)
    if allowed:
        return Fraction(min(allowed)) / 2, Fraction(max(allowed)) * 2
    lower, upper = limits
    if lower is not None and upper is not None:
        reach = max(Fraction(upper) - Fraction(lower), abs(Fraction(upper)) / 4)
        return max(Fraction(lower) - reach, min(Fraction(lower), Fraction(0))), Fraction(upper) + reach
    if upper is not None:
        return min(Fraction(0), Fraction(upper)), max(Fraction(upper) * 5, Fraction(0))
    if lower is not None:
        return min(Fraction(lower) / 5, Fraction(lower) * 5), max(Fraction(lower) * 5, Fraction(0))
    return None


def is_plausible(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is within its plausible range or none is known."""
    bounds = plausible_range(characteristic)
    return bounds is None or bounds[0] <= value <= bounds[1]


def is_far_out(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is out of the limits by more than wear explains.

    Of a permitted size: where it is none of them.
    """
    if characteristic.allowed and value not in characteristic.exact_sizes:
        return True
    lower, upper = characteristic.exact_limits
    if lower is not None and upper is not None:
        return upper > lower and max(lower - value, value - upper) > _FAR_OUT * (upper - lower)
    if lower is not None:
        return lower - value > _FAR_OUT_ONE_SIDED * abs(lower)
    return False
