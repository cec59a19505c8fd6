"""Process capability with confidence intervals.

Cp = (U − L)/6s and Cpk = the smaller of (U − mean)/3s and (mean − L)/3s (NIST/SEMATECH e-Handbook 6.1.6).
The interval of Cp is exact, by chi-square; that of Cpk is Bissell's approximation,
Cpk·(1 ± z·√(1/(9n·Cpk²) + 1/(2(n − 1)))) (Applied Statistics 39 (1990), 331 to 340).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from saywright.judging.student import chi2_quantile, t_quantile

FEWEST = 30  # values; with fewer the interval is so wide that the figure misleads
_TAIL = 0.025


@dataclass(frozen=True, slots=True)
class Capability:
    """How a characteristic lies within its limits over many jobs."""

    n: int
    mean: float
    s: float  # standard deviation, > 0
    cp: tuple[float, float, float] | None  # value, lower and upper end at 95 %; None with one limit only
    cpk: tuple[float, float, float]


def capability(values: Sequence[float], lower: float | None, upper: float | None) -> Capability | None:
    """None for fewer than `FEWEST` values, without limits, and where all values are alike."""
    n = len(values)
    if n < FEWEST or (lower is None and upper is None):
        return None
    mean = math.fsum(values) / n
    s = math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (n - 1))
    if s == 0:
        return None
    cp = None
    if lower is not None and upper is not None:
        middle = (upper - lower) / (6 * s)
        low, high = (math.sqrt(chi2_quantile(p, n - 1) / (n - 1)) for p in (_TAIL, 1 - _TAIL))
        cp = (middle, middle * low, middle * high)
    sides = [(upper - mean) / (3 * s)] if upper is not None else []
    sides += [(mean - lower) / (3 * s)] if lower is not None else []
    cpk = min(sides)
    half = t_quantile(1 - _TAIL, None) * math.sqrt(1 / (9 * n) + cpk * cpk / (2 * (n - 1)))
    return Capability(n, mean, s, cp, (cpk, cpk - half, cpk + half))
