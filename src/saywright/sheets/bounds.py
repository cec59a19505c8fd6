"""What the limits and sizes of a characteristic say about numbers that can be read on it at all. Pure."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from saywright.quantity import OpenBounds

Bounds = tuple[Fraction, Fraction]  # ends included

_FAR_OUT = Fraction(1)  # widths of the limits
_FAR_OUT_ONE_SIDED = Fraction(1, 2)  # of the limit


def plausible_bounds(
    plausible: tuple[Decimal, Decimal] | None,
    allowed: tuple[Decimal, ...],
    limits: tuple[Decimal | None, Decimal | None],
) -> Bounds | None:
    """What the sheet holds for possible; None where it gives nothing to go by.

    Without *plausible* the bounds are drawn wide around the permitted sizes or the limits, so
    that a number heard wrong by its point or its hundreds still asks.
    """
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


def far_bounds(limits: OpenBounds) -> OpenBounds:
    """Outside these a value is out of the limits by more than wear explains."""
    lower, upper = limits
    if lower is None or (upper is not None and upper <= lower):
        return None, None
    if upper is None:
        return lower - _FAR_OUT_ONE_SIDED * abs(lower), None
    reach = _FAR_OUT * (upper - lower)
    return lower - reach, upper + reach
