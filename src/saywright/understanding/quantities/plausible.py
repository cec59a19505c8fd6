"""How well a number fits what a sheet thinks a characteristic can be at all."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from saywright.quantity import decimals, parse_value, within
from saywright.sheets.model import Characteristic

_FEWEST_IN_THOU: Final = 3  # digits
_COARSE: Final = 1  # step of the last digit said, in widths of the limits
_FINE_PLACES: Final = 2  # decimals of the limits from which a missing one tells


def is_plausible(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is within its plausible range or none is known."""
    bounds = characteristic.plausible_bounds
    return bounds is None or within(value, bounds)


def is_inside(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is within its limits, or none are known."""
    return within(value, characteristic.exact_limits)


def is_no_excess(value: Fraction, characteristic: Characteristic, sign: str) -> bool:
    """ "Eight point oh six, over the limit": so far past it nothing can be, so it is the value itself."""
    lower, upper = characteristic.exact_limits
    limit = upper if sign == "over" else lower
    if limit is None or characteristic.plausible is None or not is_plausible(characteristic, value):
        return False
    return not is_plausible(characteristic, limit + value if sign == "over" else limit - value)


def is_far_out(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is out of the limits by more than wear explains.

    Of a permitted size: where it is none of them.
    """
    if characteristic.allowed and value not in characteristic.exact_sizes:
        return True
    return not within(value, characteristic.far_bounds)


def is_told_in_thou(value: str, characteristic: Characteristic, *, grouped: bool) -> bool:
    """ "Six two eight five" of what is read in inches: as many digits as its limits have, behind the point.

    *value* is what was said with the point before it. A digit less may be one misheard, but not where whole
    thou were said in groups: "two forty nine".
    """
    if characteristic.unit != "in" or not value.startswith("0."):
        return False
    wanted = max(characteristic.limit_places, decimals(characteristic.nominal))
    places = len(value) - len("0.")
    whole = places == wanted or (grouped and places < wanted)
    return whole and places >= _FEWEST_IN_THOU and not is_far_out(characteristic, parse_value(value))


def is_coarse(value: str, spec: Characteristic) -> bool:
    """True where the last digit said is too coarse for the limits: a digit behind it was lost."""
    lower, upper = spec.exact_limits
    places = len(value.partition(".")[2])
    wanted = max(spec.limit_places, decimals(spec.nominal))
    if places >= wanted or wanted < _FINE_PLACES or spec.unit == "turn":
        return False
    if lower is None or upper is None or lower >= upper:
        return True
    width = upper - lower
    return bool(width.denominator >= _COARSE * width.numerator * 10**places)


def is_as_expected(spec: Characteristic, value: str) -> bool:
    """True where *value*, in the characteristic's unit, may well have been read: 11.4 within 9 and 12.

    It is plausible, not far out of the limits, and as fine as they are told.
    """
    exact = parse_value(value)
    return is_plausible(spec, exact) and not is_far_out(spec, exact) and not is_coarse(value, spec)
