"""What would settle a value that lies in the uncertainty zone, computed.

A value is settled when g·u is no larger than its distance from the limit. Repeats lessen only
the part of u that spreads; a finer instrument lessens the rest. The error limit of an instrument
cannot be smaller than its step (ISO 13385-1:2019, metrological characteristics), so an
instrument of step d has at best u² = d²/12 + d²/3 = 5·d²/12.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from saywright.judging.uncertainty import Budget
from saywright.judging.wording import with_unit
from saywright.quantity import decimal_text

MANY_REPEATS = 50  # beyond it nobody repeats by hand


@dataclass(frozen=True, slots=True)
class Settle:
    """The ways out of the uncertainty zone, as far as there are any."""

    repeats: int | None  # readings in all, with the spread and mean there is now; None: repeats do not do it
    resolution: Fraction | None  # step an instrument needs, in the budget's unit; None: no instrument does it
    sentence: str


def settle(distance: Fraction, budget: Budget, guard_factor: Fraction, n: int) -> Settle:
    """What would settle a value *distance* (≥ 0) from its limit, read *n* times.

    *guard_factor* is g: the guard band is g·u.
    """
    if distance == 0:
        text = "The value lies on the limit; no measurement settles that. Agree on it with the customer."
        return Settle(None, None, text)
    allowed = distance * distance / (guard_factor * guard_factor)  # u² may be this large
    spread = budget.variance - budget.fixed_variance
    repeats = _repeats(allowed - budget.fixed_variance, spread * n)
    resolution = _step(allowed - spread)
    ways = []
    if repeats is not None:
        ways.append(f"{repeats} readings in all, if they spread no more than these")
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


def _repeats(allowed: Fraction, variance: Fraction) -> int | None:
    """The least n for which s²/n fits into what is allowed."""
    if allowed <= 0 or variance <= 0:
        return None
    n = math.ceil(variance / allowed)
    return n if n <= MANY_REPEATS else None


def _step(allowed: Fraction) -> Fraction | None:
    """The coarsest step of the series 1, 2, 5 for which 5·d²/12 fits into what is allowed."""
    if allowed <= 0:
        return None
    power = math.floor(math.log10(math.sqrt(allowed))) + 1
    for exponent in (power, power - 1):
        for digit in (5, 2, 1):
            step = digit * Fraction(10) ** exponent
            if step * step * 5 / 12 <= allowed:
                return step
    return None
