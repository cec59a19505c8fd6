"""Individuals and moving-range chart of a series, with Nelson's eight rules.

Limits: mean ± 3·MR/d2 and D4·MR, with MR the mean of the ranges of neighbours (NIST/SEMATECH e-Handbook
6.3.2.2; ISO 7870-2). For ranges of two, d2 = 2/√π and D4 = 1 + 3·d3/d2 with d3 = √(2 − 4/π), exactly.
Rules: L. S. Nelson, "The Shewhart Control Chart: Tests for Special Causes", Journal of Quality
Technology 16 (1984), 237 to 239.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

FEWEST = 10  # points; with fewer the limits say little
D2 = 2 / math.sqrt(math.pi)
D3 = math.sqrt(2 - 4 / math.pi)
D4 = 1 + 3 * D3 / D2

RULES: dict[int, str] = {
    1: "one point more than three sigma from the mean",
    2: "nine points in a row on one side of the mean",
    3: "six points in a row, all rising or all falling",
    4: "fourteen points in a row going up and down by turns",
    5: "two of three points in a row more than two sigma away, on one side",
    6: "four of five points in a row more than one sigma away, on one side",
    7: "fifteen points in a row within one sigma of the mean",
    8: "eight points in a row more than one sigma away, on either side",
}


@dataclass(frozen=True, slots=True)
class Signal:
    """A rule that a run of points breaks."""

    rule: int  # 1 to 8, a key of `RULES`
    last: int  # index of the point with which it is broken


@dataclass(frozen=True, slots=True)
class Chart:
    """Both charts of one series, in its unit."""

    mean: float
    sigma: float  # from the moving range, ≥ 0
    moving_range: float  # mean of the moving ranges
    signals: tuple[Signal, ...]  # in the order of the points
    wide: tuple[int, ...]  # indices of points whose range from the one before is past its limit

    @property
    def upper(self) -> float:
        """Upper limit of the individuals chart."""
        return self.mean + 3 * self.sigma

    @property
    def lower(self) -> float:
        """Lower limit of the individuals chart."""
        return self.mean - 3 * self.sigma

    @property
    def range_upper(self) -> float:
        """Upper limit of the moving-range chart; its lower limit is 0."""
        return D4 * self.moving_range


def chart(values: Sequence[float]) -> Chart | None:
    """The charts of at least `FEWEST` values in order of time; None where there are fewer."""
    if len(values) < FEWEST:
        return None
    mean = math.fsum(values) / len(values)
    ranges = [abs(b - a) for a, b in pairwise(values)]
    moving = math.fsum(ranges) / len(ranges)
    sigma = moving / D2
    signals = nelson(values, mean, sigma) if sigma > 0 else ()
    wide = tuple(n for n, one in enumerate(ranges, start=1) if one > D4 * moving)
    return Chart(mean, sigma, moving, signals, wide)


def nelson(values: Sequence[float], mean: float, sigma: float) -> tuple[Signal, ...]:
    """Every rule broken, once for each run that breaks it, at the point where it first does."""
    z = [(value - mean) / sigma for value in values]
    steps = [0, *(_sign(b - a) for a, b in pairwise(z))]
    turns = [False, *(a * b < 0 for a, b in pairwise(steps))]
    broken = {
        1: [abs(one) > 3 for one in z],
        2: _either(lambda sign: _at_least(9, [sign * one > 0 for one in z])),
        3: _either(lambda sign: _at_least(5, [sign * step > 0 for step in steps])),
        4: _at_least(12, turns),
        5: _either(lambda sign: _of_last(2, 3, [sign * one > 2 for one in z])),
        6: _either(lambda sign: _of_last(4, 5, [sign * one > 1 for one in z])),
        7: _at_least(15, [abs(one) < 1 for one in z]),
        8: _at_least(8, [abs(one) > 1 for one in z]),
    }
    found = [
        Signal(rule, at)
        for rule, hits in broken.items()
        for at, hit in enumerate(hits)
        if hit and not (at and hits[at - 1])  # a run that goes on is told once
    ]
    return tuple(sorted(found, key=lambda signal: (signal.last, signal.rule)))


def _sign(step: float) -> int:
    return (step > 0) - (step < 0)


def _either(side: Callable[[int], list[bool]]) -> list[bool]:
    """Where a rule is broken on one side or on the other."""
    return [above or below for above, below in zip(side(1), side(-1), strict=True)]


def _at_least(count: int, hits: Sequence[bool]) -> list[bool]:
    """Where at least *count* hits in a row end."""
    run, found = 0, []
    for hit in hits:
        run = run + 1 if hit else 0
        found.append(run >= count)
    return found


def _of_last(count: int, window: int, hits: Sequence[bool]) -> list[bool]:
    """Where a hit makes *count* or more of the last *window*; only where there are as many points."""
    return [
        hit and at >= window - 1 and sum(hits[at - window + 1 : at + 1]) >= count
        for at, hit in enumerate(hits)
    ]
