"""Does one of several values stand apart from the others? Grubbs' test, two-sided, for one value.

G is the largest distance from the mean over s; the value stands apart where G exceeds
(n − 1)/√n · √(t²/(n − 2 + t²)) with t the quantile of Student's distribution with n − 2 degrees of freedom
at 1 − α/(2n). Sources: ISO 5725-2:1994, 7.3.4 (a straggler at 5 %); NIST/SEMATECH e-Handbook of
Statistical Methods, 1.3.5.17.1.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from saywright.judging.repeats import mean, variance
from saywright.judging.student import t_quantile

ALPHA = 0.05
# With three values, two equal ones make any third stand apart, were it by one digit.
FEWEST = 4


@dataclass(frozen=True, slots=True)
class Outlier:
    """The value that stands apart."""

    index: int  # its place among the values
    g: float  # distance from the mean over s
    critical: float  # what chance exceeds in 5 % of cases


def critical_g(n: int, alpha: float = ALPHA) -> float:
    """The critical value for *n* ≥ 3 values."""
    t2 = t_quantile(1 - alpha / (2 * n), n - 2) ** 2
    return (n - 1) / math.sqrt(n) * math.sqrt(t2 / (n - 2 + t2))


def outlier(values: tuple[Fraction, ...]) -> Outlier | None:
    """The value that stands apart; None where none does, or there are too few to tell."""
    n = len(values)
    if n < FEWEST:
        return None
    spread = variance(values)
    if spread == 0:
        return None
    middle = mean(values)
    ends = values.index(min(values)), values.index(max(values))
    index = max(sorted(ends), key=lambda i: abs(values[i] - middle))
    g = math.sqrt((values[index] - middle) ** 2 / spread)
    critical = critical_g(n)
    return Outlier(index, g, critical) if g > critical else None
