"""Conformance probability: JCGM 106:2012, 7.3 (one limit) and 7.4 (two limits).

The distribution is the normal one; where the spread rests on few readings, Student's t (JCGM 101, 6.4.9).

The only floats of judging. They decide nothing where the value is exact.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction


def phi(z: float) -> float:
    """The standard normal distribution function."""
    return 0.5 * math.erfc(-z / math.sqrt(2))


def conformance_probability(
    value: Fraction,
    variance: Fraction,
    lower: Fraction | None,
    upper: Fraction | None,
    below: Callable[[float], float] = phi,
) -> float:
    """The probability, 0…1, that the true value lies within the limits, given u² = *variance*.

    With no uncertainty it is 1 or 0. A limit that is None does not bind. *below* is the distribution
    function of (true value − value) / u.
    """
    if variance == 0:
        above = lower is None or value >= lower
        return 1.0 if above and (upper is None or value <= upper) else 0.0
    below_upper = 1.0 if upper is None else below(z_score(upper - value, variance))
    below_lower = 0.0 if lower is None else below(z_score(lower - value, variance))
    return below_upper - below_lower


def z_score(distance: Fraction, variance: Fraction) -> float:
    """distance / u; the ratio is exact before its root is taken, so units do not change it."""
    root = math.sqrt(distance * distance / variance)
    return root if distance >= 0 else -root
