"""Is a probability of 0.9 right nine times in ten? Fit, and show. Pure."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import log

import numpy as np
import numpy.typing as npt

from saywright.understanding.doubt import SHARE_LIMIT, Evidence, probability_right
from saywright.understanding.doubt_figures import Figures

Floats = npt.NDArray[np.float64]

_RIDGE = 0.1  # keeps coefficients finite where all samples agree; the base is free
_STEPS = 50
EDGES = (0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 0.95, 1.0)


@dataclass(frozen=True, slots=True)
class Sample:
    """One reading of one clip."""

    known: Evidence
    right: bool
    asks: bool  # for a reason other than how it was heard


@dataclass(frozen=True, slots=True)
class Heard:
    """What came of one clip in which a reading was said."""

    samples: tuple[Sample, ...]
    unclear: bool  # measured-looking words that were not understood ask anyway


@dataclass(frozen=True, slots=True)
class Price:
    """What a threshold costs and what it lets through, as shares of the clips."""

    threshold: float
    silent: float  # a wrong reading is taken without an ask
    asks: float  # something waits for a person
    needless: float  # … though every reading in the clip is right


@dataclass(frozen=True, slots=True)
class Bin:
    """The readings whose probability lies in one stretch."""

    low: float
    high: float
    count: int
    said: float  # mean probability
    right: float  # share that is right


def fit(samples: Sequence[Sample]) -> Figures:
    """The figures under which *samples* are likeliest (logistic regression, Newton's method, ridge 0.1)."""
    rows = np.array([_row(sample.known) for sample in samples], dtype=np.float64)
    right = np.array([sample.right for sample in samples], dtype=np.float64)
    penalty = np.diag([0.0, *[_RIDGE] * (rows.shape[1] - 1)])
    found = np.zeros(rows.shape[1])
    for _ in range(_STEPS):
        said = 1 / (1 + np.exp(-rows @ found))
        slope = rows.T @ (right - said) - penalty @ found
        curve = (rows * (said * (1 - said))[:, None]).T @ rows + penalty
        found = found + np.linalg.solve(curve + 1e-9 * np.eye(len(found)), slope)
    return Figures(*(round(float(one), 2) for one in found))


def brier(samples: Iterable[Sample], figures: Figures) -> float:
    """Mean squared distance of the probability from what came true; 0 is perfect, 0.25 a coin.

    Brier, Verification of forecasts expressed in terms of probability, 1950 (the half of his score
    that is usual for two outcomes).
    """
    squares = [(probability_right(one.known, figures) - one.right) ** 2 for one in samples]
    return sum(squares) / len(squares) if squares else 0.0


def reliability(samples: Sequence[Sample], figures: Figures) -> list[Bin]:
    """The stretches of probability that hold samples, with how many in them were right."""
    told = [(probability_right(one.known, figures), one.right) for one in samples]
    found = []
    for low, high in itertools.pairwise(EDGES):
        inside = [(said, right) for said, right in told if low <= said < high or said == high == 1.0]
        if inside:
            count = len(inside)
            found.append(
                Bin(low, high, count, sum(s for s, _ in inside) / count, sum(r for _, r in inside) / count)
            )
    return found


def prices(clips: Sequence[Heard], figures: Figures, thresholds: Iterable[float]) -> list[Price]:
    """The trade-off: for each threshold the share of silent errors at the share of asks."""
    return [_price(clips, figures, threshold) for threshold in thresholds]


def cheapest(clips: Sequence[Heard], figures: Figures, most_needless: float) -> Price:
    """The threshold with the fewest silent errors of those whose needless asks are at most *most_needless*.

    Of equal ones the one with fewer asks, then the highest; the lowest threshold where none keeps to it.
    """
    found = prices(clips, figures, [number / 100 for number in range(30, 100)])
    kept = [price for price in found if price.needless <= most_needless] or found[:1]
    return min(kept, key=lambda price: (price.silent, price.asks, -price.threshold))


def _price(clips: Sequence[Heard], figures: Figures, threshold: float) -> Price:
    silent = asked = needless = 0
    for clip in clips:
        taken = [
            one for one in clip.samples if not one.asks and probability_right(one.known, figures) >= threshold
        ]
        silent += any(not one.right for one in taken)
        waits = clip.unclear or len(taken) < len(clip.samples)
        asked += waits
        needless += waits and bool(clip.samples) and all(one.right for one in clip.samples)
    count = max(1, len(clips))
    return Price(threshold, silent / count, asked / count, needless / count)


def _row(known: Evidence) -> list[float]:
    share = min(1 - SHARE_LIMIT, max(SHARE_LIMIT, known.share))
    flags = (known.outside, known.odd, known.crowded, known.misfit)
    return [1.0, log(share / (1 - share)), *map(float, flags)]
