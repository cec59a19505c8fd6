"""A straight line through a series, whether it rises or falls at all, and when it meets a limit.

Least squares; the slope is shown where its 95 % interval leaves out nought. The interval of a further
reading at x is ŷ ± t·s·√(1 + 1/n + (x − x̄)²/Sxx) (NIST/SEMATECH e-Handbook 4.5.1.2). A limit is met
where the line meets it; the earliest and latest day are where that interval does.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from saywright.judging.student import t_quantile

FEWEST = 5  # points; with fewer a line through them foretells nothing
CONFIDENCE = 0.975  # below the upper end of a two-sided 95 % interval
HORIZON = 20 * 365.25  # days past the last point; nobody plans further
_HALVINGS = 60


@dataclass(frozen=True, slots=True)
class Line:
    """y = intercept + slope · x, by least squares, with what it leaves over."""

    n: int  # points, ≥ 3
    slope: float
    intercept: float
    residual: float  # standard deviation s of the residuals, n − 2 below
    mean_x: float
    mean_y: float
    sxx: float  # sum of squares of x about its mean, > 0
    first_x: float
    last_x: float

    @property
    def slope_u(self) -> float:
        """Standard uncertainty of the slope."""
        return self.residual / math.sqrt(self.sxx)

    @property
    def slope_interval(self) -> float:
        """Half width of the 95 % interval of the slope."""
        return t_quantile(CONFIDENCE, self.n - 2) * self.slope_u

    @property
    def shown(self) -> bool:
        """True where the interval of the slope leaves out nought."""
        return abs(self.slope) > self.slope_interval

    def at(self, x: float) -> float:
        """The line at *x*."""
        return self.mean_y + self.slope * (x - self.mean_x)

    def prediction(self, x: float) -> tuple[float, float]:
        """The 95 % interval of a further reading at *x*."""
        spread = self.residual * math.sqrt(1 + 1 / self.n + (x - self.mean_x) ** 2 / self.sxx)
        half = t_quantile(CONFIDENCE, self.n - 2) * spread
        return self.at(x) - half, self.at(x) + half


@dataclass(frozen=True, slots=True)
class Meeting:
    """When a line meets a limit, in the unit of x; None: not within the horizon."""

    limit: float
    at: float | None  # the line itself
    earliest: float | None  # the near end of the interval of a further reading
    latest: float | None  # its far end


def fit(xs: Sequence[float], ys: Sequence[float]) -> Line | None:
    """The line; None for fewer than three points, or all at one x."""
    n = len(xs)
    if n < 3:
        return None
    mean_x = math.fsum(xs) / n
    mean_y = ys[0] + math.fsum(y - ys[0] for y in ys) / n  # values all alike have exactly their own mean
    sxx = math.fsum((x - mean_x) ** 2 for x in xs)
    if sxx == 0:
        return None
    slope = math.fsum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True)) / sxx
    left = math.fsum((y - mean_y - slope * (x - mean_x)) ** 2 for x, y in zip(xs, ys, strict=True))
    residual = math.sqrt(left / (n - 2))
    return Line(n, slope, mean_y - slope * mean_x, residual, mean_x, mean_y, sxx, min(xs), max(xs))


def meeting(line: Line, lower: float | None, upper: float | None) -> Meeting | None:
    """When the line meets the limit it goes towards; None where it goes towards none, or is not shown."""
    limit = upper if line.slope > 0 else lower
    if limit is None or not line.shown:
        return None
    sign = 1 if line.slope > 0 else -1

    def crossed(of: Callable[[float], float]) -> float | None:
        return _first(lambda x: sign * (of(x) - limit) >= 0, line.last_x)

    near, far = (1, 0) if sign > 0 else (0, 1)
    return Meeting(
        limit,
        crossed(line.at),
        crossed(lambda x: line.prediction(x)[near]),
        crossed(lambda x: line.prediction(x)[far]),
    )


def _first(holds: Callable[[float], bool], start: float) -> float | None:
    """The first x from *start* on at which *holds*, to a small part of a day; None past the horizon."""
    if holds(start):
        return start
    low, high = start, start + 1.0
    while not holds(high):
        low, high = high, start + 2 * (high - start)
        if high > start + HORIZON:
            return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if holds(middle):
            high = middle
        else:
            low = middle
    return high
