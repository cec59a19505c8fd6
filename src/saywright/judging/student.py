"""Student's t for whole degrees of freedom, and the chi-square distribution.

t: finite sums of Abramowitz and Stegun, 26.7.3 and 26.7.4; past `LONG_SUM` degrees of freedom the
expansion 26.7.5, whose relative error is below 1e-7 there. chi-square: the incomplete gamma function by its
series and continued fraction (6.5.29, 6.5.31). Quantiles are found by halving an interval.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from statistics import NormalDist

from saywright.judging.probability import phi

LONG_SUM = 200  # degrees of freedom
_HALVINGS = 80


def t_cdf(t: float, degrees: int | None) -> float:
    """The probability, 0…1, of a value up to *t*; *degrees* ≥ 1, None: the normal distribution."""
    if degrees is None or degrees > 10 * LONG_SUM:
        return phi(t)
    angle = math.atan2(t, math.sqrt(degrees))
    cos2 = math.cos(angle) ** 2
    term = total = math.cos(angle) if degrees % 2 else 1.0
    for k in range(2 + degrees % 2, degrees - 1, 2):
        term *= cos2 * (k - 1) / k
        total += term
    if degrees % 2:
        inner = angle + (math.sin(angle) * total if degrees > 1 else 0.0)
        inside = 2 / math.pi * inner
    else:
        inside = math.sin(angle) * total
    return 0.5 + inside / 2


@lru_cache(maxsize=4096)
def t_quantile(probability: float, degrees: int | None) -> float:
    """The t with this *probability* below it, 0.5 < probability < 1."""
    z = NormalDist().inv_cdf(probability)
    if degrees is None:
        return z
    if degrees > LONG_SUM:
        g1 = (z**3 + z) / 4
        g2 = (5 * z**5 + 16 * z**3 + 3 * z) / 96
        g3 = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
        return z + g1 / degrees + g2 / degrees**2 + g3 / degrees**3
    return _where(lambda t: t_cdf(t, degrees), probability, first=2.0)


def chi2_cdf(x: float, degrees: int) -> float:
    """The probability, 0…1, of a chi-square value up to *x* ≥ 0."""
    if x <= 0:
        return 0.0
    a, half = degrees / 2, x / 2
    scale = math.exp(-half + a * math.log(half) - math.lgamma(a))
    if half < a + 1:
        term = total = 1 / a
        n = a
        while abs(term) > abs(total) * 1e-16:
            n += 1
            term *= half / n
            total += term
        return total * scale
    tiny = 1e-300
    b = half + 1 - a
    c, d = 1 / tiny, 1 / b
    fraction = d
    for i in range(1, 10_000):
        factor = -i * (i - a)
        b += 2
        d = 1 / ((factor * d + b) or tiny)
        c = (b + factor / c) or tiny
        fraction *= d * c
        if abs(d * c - 1) < 1e-15:
            break
    return 1 - scale * fraction


@lru_cache(maxsize=1024)
def chi2_quantile(probability: float, degrees: int) -> float:
    """The chi-square value with this *probability*, 0 < probability < 1, below it."""
    return _where(lambda x: chi2_cdf(x, degrees), probability, first=float(degrees))


def _where(cdf: Callable[[float], float], probability: float, *, first: float) -> float:
    """Where a rising *cdf* of a positive value reaches *probability*; the search begins at *first*."""
    low, high = 0.0, first
    while cdf(high) < probability:
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if cdf(middle) < probability:
            low = middle
        else:
            high = middle
    return high
