"""What would settle a value that lies in the uncertainty zone, computed.

A value is settled when g·u is no larger than its distance from the limit. Repeats lessen only
the part of u that spreads, and make it better known, which lessens g (Student's t); a finer instrument
lessens the rest. The error limit of an instrument
cannot be smaller than its step (ISO 13385-1:2019, metrological characteristics), so an
instrument of step d has at best u² = d²/12 + d²/3 = 5·d²/12.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from saywright.judging.uncertainty import Budget, effective_degrees
from saywright.judging.wording import with_unit
from saywright.quantity import decimal_text

MANY_REPEATS = 50  # beyond it nobody repeats by hand
_DECADES = 3  # a step finer than that changes no decision


@dataclass(frozen=True, slots=True)
class Settle:
    """The ways out of the uncertainty zone, as far as there are any."""

    repeats: int | None  # readings in all, with the spread and mean there is now; None: repeats do not do it
    resolution: Fraction | None  # step an instrument needs, in the budget's unit; None: no instrument does it
    sentence: str


Advise = Callable[[Fraction, Budget, Callable[[int | None], Fraction], int], Settle]


def settle(distance: Fraction, budget: Budget, factor_of: Callable[[int | None], Fraction], n: int) -> Settle:
    """What would settle a value *distance* (≥ 0) from its limit, read *n* times.

    *factor_of* gives g for effective degrees of freedom: the guard band is g·u.
    """
    if distance == 0:
        text = "The value lies on the limit; no measurement settles that. Agree on it with the customer."
        return Settle(None, None, text)
    spread = budget.variance - budget.fixed_variance

    def holds(fixed: Fraction, repeats: int) -> bool:
        mean = spread * n / repeats
        degrees = effective_degrees(((fixed, None), (mean, repeats - 1 if mean else None)))
        return factor_of(degrees) ** 2 * (fixed + mean) <= distance * distance

    repeats = _repeats(n, partial(holds, budget.fixed_variance)) if spread else None
    allowed = distance * distance / factor_of(None) ** 2  # u² may be this large
    resolution = _step(allowed - spread, lambda fixed: holds(fixed, n))
    ways = []
    if repeats is not None:
        more = f"{repeats - n} more reading{'s' if repeats - n > 1 else ''}"
        ways.append(f"{more} ({repeats} in all), if they spread no more than these")
    if resolution is not None:
        step = with_unit(decimal_text(resolution), budget.unit)
        ways.append(f"an instrument that reads to {step} or finer, with an error limit no larger than that")
    if not ways:
        text = "The readings spread too much for any instrument to settle it. Find out why they differ."
        return Settle(None, None, text)
    text = f"This would settle it: {', or '.join(ways)}."
    if repeats is None:
        text += " More readings with the same instrument would not."
    return Settle(repeats, resolution, text)


def _repeats(n: int, holds: Callable[[int], bool]) -> int | None:
    """The least number of readings, more than *n*, that is enough; None past `MANY_REPEATS`."""
    return next((more for more in range(n + 1, MANY_REPEATS + 1) if holds(more)), None)


def _step(allowed: Fraction, holds: Callable[[Fraction], bool]) -> Fraction | None:
    """The coarsest step of the series 1, 2, 5 for which u² = 5·d²/12 is enough."""
    if allowed <= 0:
        return None
    power = math.floor(math.log10(math.sqrt(allowed))) + 1
    for exponent in range(power, power - _DECADES, -1):
        for digit in (5, 2, 1):
            step = digit * Fraction(10) ** exponent
            if holds(step * step * 5 / 12):
                return step
    return None
