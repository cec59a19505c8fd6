"""Probability that a mark and a picture belong together, for all of them at once.

The model. With clock offset o, a mark at t has its picture with probability P_TAKEN, at
t + o + d, where d is normal with one of SPREADS_S; pictures without a mark come at random at a rate
taken from the set. Every offset in the window is as likely as any other beforehand. The weight of a
pair against "this mark has none and this picture has none" is then

    w = P_TAKEN · normal(d) / ((1 − P_TAKEN) · rate)

The sum of the products of w over all ways to pair in order, for one offset, comes from dynamic
programming (forward), as does the share of each pair in it (forward × backward). Summed over all
offsets and spreads this is the probability of each pair, given everything. The pairs reported are
the one set in order that maximises the sum of these; again dynamic programming. A single mark and
a single picture fit at some offset whatever they are, so their probability is small; marks at even
intervals fit at several offsets, which share the probability. Nothing else is needed for honesty.

A clock that drifts by a second in an hour stays within the spread.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

P_TAKEN = 0.85  # a spoken mark has its picture
EXTRA_SHARE = 0.35  # of the pictures have no mark; sets their rate
SPREADS_S = (0.7, 1.5, 3.0, 6.0, 12.0)  # of mark to shutter, about the usual delay; one holds for the set
WINDOW_S = 2 * 86_400.0  # the clock is off by no more, either way
NEVER_SET_WINDOW_S = 10 * 365 * 86_400.0  # unless no pair fits so; then much more must agree
_REACH = 4.0  # spreads from a pair to the farthest offset weighed
_CHUNK = 1_000_000  # numbers held at once
_NEGLIGIBLE = 35.0  # natural logarithms below the best


@dataclass(frozen=True, slots=True)
class Posterior:
    """What is known once all marks and pictures have been weighed."""

    pairs: Floats  # (n_marks, n_photos), probability of each pair
    any_pair: float  # probability that any pair belongs together at all
    offset_share: float  # probability of the likeliest stretch of offsets
    offset_s: float  # mean of the likeliest stretch of offsets


def posterior(marks_s: Floats, photos_s: Floats, possible: npt.NDArray[np.bool_]) -> Posterior:
    """Probability of each pair, over all offsets and spreads. Times ascending, seconds.

    *possible* (n_marks, n_photos) is False for pairs that are ruled out by what a person placed.
    """
    if not possible.any():
        return Posterior(np.zeros(possible.shape), 0.0, 0.0, 0.0)
    differences_s = (photos_s[None, :] - marks_s[:, None])[possible]
    within = differences_s[np.abs(differences_s) <= WINDOW_S]
    window_s = WINDOW_S if within.size else NEVER_SET_WINDOW_S
    if not within.size:
        within = differences_s
    span_s = max(float(np.ptp(photos_s)), float(np.ptp(marks_s)), 60.0)
    rate = max(1.0, EXTRA_SHARE * photos_s.size) / span_s
    log_odds = np.where(possible, np.log(P_TAKEN / ((1 - P_TAKEN) * rate)), -np.inf)
    parts: list[tuple[Floats, Floats, float]] = []
    for spread_s in SPREADS_S:
        best_sum = max((float(sums.max()) for _, sums, _ in parts), default=-np.inf)
        parts.append(_weigh(marks_s, photos_s, within, spread_s, log_odds, best_sum=best_sum))
    offsets = np.concatenate([offset for offset, _, _ in parts])
    log_mass = np.concatenate([log_sum + np.log(step_s) for _, log_sum, step_s in parts])
    spreads = np.concatenate([np.full(o.size, s) for (o, _, _), s in zip(parts, SPREADS_S, strict=True)])
    # Where no pair is within reach the sum over pairings is 1 (none at all) for each offset.
    log_nothing = float(np.log(2 * window_s * len(SPREADS_S)))
    top = max(float(log_mass.max()), log_nothing)
    mass = np.exp(log_mass - top)
    total = float(mass.sum()) + float(np.exp(log_nothing - top))
    pairs = np.zeros((marks_s.size, photos_s.size))
    keep = np.flatnonzero(mass > 1e-6 * mass.max())
    for index in keep:
        weights = _pair_weights(marks_s, photos_s, offsets[index : index + 1], spreads[index], log_odds)[0]
        pairs += mass[index] / total * _shares(weights)
    best = offsets[int(mass.argmax())]
    near = np.abs(offsets - best) <= 2 * max(SPREADS_S)
    offset_s = float(np.average(offsets[near], weights=mass[near]))
    return Posterior(pairs, float(mass.sum()) / total, float(mass[near].sum()) / total, offset_s)


def _weigh(
    marks_s: Floats,
    photos_s: Floats,
    differences_s: Floats,
    spread_s: float,
    log_odds: Floats,
    *,
    best_sum: float,
) -> tuple[Floats, Floats, float]:
    """Offsets within reach of a pair, on a grid; log of the sum over non-empty pairings at each; the step.

    Sums that are negligible beside *best_sum*, the largest known, or beside the best here are left at −inf.
    """
    step_s = spread_s / 2
    cells = np.unique(np.round(differences_s / step_s).astype(np.int64))
    reach = np.arange(-int(_REACH * 2), int(_REACH * 2) + 1)
    offsets = np.unique((cells[:, None] + reach[None, :]).ravel()) * step_s
    # No sum exceeds (1 + the largest weight) to the power of the pairs in reach; with hundreds of marks
    # this spares nearly all offsets.
    ordered = np.sort(differences_s)
    in_reach = np.searchsorted(ordered, offsets + _REACH * spread_s) - np.searchsorted(
        ordered, offsets - _REACH * spread_s
    )
    bound = in_reach * np.logaddexp(0.0, log_odds.max() - np.log(spread_s * np.sqrt(2 * np.pi)))
    best_first = np.argsort(-bound, kind="stable")
    size = max(1, _CHUNK // max(1, marks_s.size * photos_s.size))
    sums = np.full(offsets.size, -np.inf)
    for start in range(0, offsets.size, size):
        part = best_first[start : start + size]
        if bound[part[0]] < max(best_sum, float(sums.max())) - _NEGLIGIBLE:
            break
        sums[part] = _log_sum(_pair_weights(marks_s, photos_s, offsets[part], spread_s, log_odds))
    return offsets.astype(np.float64), sums, step_s


def _pair_weights(
    marks_s: Floats, photos_s: Floats, offsets: Floats, spread_s: float, log_odds: Floats
) -> Floats:
    """w of the module's docstring, (n_offsets, n_marks, n_photos); *log_odds* (n_marks, n_photos)."""
    miss = (photos_s[None, None, :] - marks_s[None, :, None] - offsets[:, None, None]) / spread_s
    weights: Floats = np.exp(log_odds - 0.5 * miss**2 - np.log(spread_s * np.sqrt(2 * np.pi)))
    weights[np.abs(miss) > _REACH] = 0.0
    return weights


def _log_sum(weights: Floats) -> Floats:
    """Log of (the sum over all non-empty pairings in order of the product of *weights*), (n_offsets,).

    A row of the table is the row above plus, cumulated, the pairings that use this mark. Each row is
    scaled, since hundreds of pairs pass what a float can hold.
    """
    n_offsets, n_marks, n_photos = weights.shape
    row = np.ones((n_offsets, n_photos + 1))
    log_scale = np.zeros(n_offsets)
    for mark in range(n_marks):
        row[:, 1:] += np.cumsum(weights[:, mark, :] * row[:, :-1], axis=1)
        scale = row[:, -1].copy()
        row /= scale[:, None]
        log_scale += np.log(scale)
    with np.errstate(divide="ignore"):
        result: Floats = log_scale + np.log(-np.expm1(-np.maximum(log_scale, 0.0)))
    return result


def _shares(weights: Floats) -> Floats:
    """Share of each pair in the sum over all non-empty pairings, (n_marks, n_photos)."""
    forward, forward_log = _table(weights)
    backward, backward_log = _table(weights[::-1, ::-1])
    n_marks, n_photos = weights.shape
    shares = np.zeros_like(weights)
    log_total = forward_log[n_marks]
    for mark in range(n_marks):
        before = forward[mark, :n_photos]
        after = backward[n_marks - 1 - mark, n_photos - 1 :: -1][:n_photos]
        log_scale = forward_log[mark] + backward_log[n_marks - 1 - mark] - log_total
        shares[mark] = weights[mark] * before * after * np.exp(log_scale)
    non_empty = -np.expm1(-max(float(log_total), 1e-300))
    result: Floats = np.clip(shares / non_empty, 0.0, 1.0)
    return result


def _table(weights: Floats) -> tuple[Floats, Floats]:
    """Sums over pairings of the first i marks and j photos, each row scaled; the logs of the scales."""
    n_marks, n_photos = weights.shape
    table = np.ones((n_marks + 1, n_photos + 1))
    logs = np.zeros(n_marks + 1)
    for mark in range(n_marks):
        row = table[mark].copy()
        row[1:] += np.cumsum(weights[mark] * table[mark, :-1])
        table[mark + 1] = row / row[-1]
        logs[mark + 1] = logs[mark] + np.log(row[-1])
    return table, logs


def best_path(gains: Floats) -> list[tuple[int, int]]:
    """Pairs (row, column), ascending in both, with the largest sum of *gains*; what gains 0 is left out."""
    n_rows, n_columns = gains.shape
    best = np.zeros((n_rows + 1, n_columns + 1))
    for row in range(n_rows):
        paired = best[row, :-1] + gains[row]
        best[row + 1, 1:] = np.maximum.accumulate(np.maximum(best[row, 1:], paired))
    pairs = []
    row, column = n_rows, n_columns
    while row and column:
        if best[row, column] == best[row - 1, column]:
            row -= 1
        elif best[row, column] == best[row, column - 1]:
            column -= 1
        else:
            pairs.append((row - 1, column - 1))
            row, column = row - 1, column - 1
    return pairs[::-1]
