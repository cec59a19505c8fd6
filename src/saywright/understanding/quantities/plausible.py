"""How well a number fits what a sheet thinks a characteristic can be at all."""

from __future__ import annotations

from fractions import Fraction

from saywright.quantity import within
from saywright.sheets.model import Characteristic


def is_plausible(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is within its plausible range or none is known."""
    bounds = characteristic.plausible_bounds
    return bounds is None or within(value, bounds)


def is_inside(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is within its limits, or none are known."""
    return within(value, characteristic.exact_limits)


def is_far_out(characteristic: Characteristic, value: Fraction) -> bool:
    """True where *value*, in the characteristic's unit, is out of the limits by more than wear explains.

    Of a permitted size: where it is none of them.
    """
    if characteristic.allowed and value not in characteristic.exact_sizes:
        return True
    return not within(value, characteristic.far_bounds)
