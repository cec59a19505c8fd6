"""How far a value as heard can be trusted, for each listener. Constants.

A logistic regression of "this reading is right" on what is known about it, over some 1050 readings that
Whisper tiny.en heard in the tuning half of tools/corpus (clean, noise, reverb, telephone; synthetic and
human voices). Made anew by `python -m accuracy --fit` with tools/ on the path. How well it holds on
the other half, and the price of the threshold, are in docs/accuracy.md.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figures:
    """Coefficients of a logistic function, natural log-odds."""

    base: float
    share: float  # for each unit of log-odds of the share of the hypotheses' probability
    outside: float  # … where the value is not plausible, or far out and a slip of hearing from the limits
    odd: float  # added where words around the number do not fit it
    crowded: float  # added where the same words give another value for the same thing, or something unclear
    misfit: float  # added where its decimals are not those of the sheet's limits and instrument


# Probability from which a value is taken without an ask: the one place. On the tuning half this lets
# the fewest silent errors through with at most 4 % of needless asks; what others cost is in docs/accuracy.md.
TAKEN_FROM = 0.6

FIGURES = {
    "whisper": Figures(base=1.11, share=0.45, outside=-3.39, odd=-2.99, crowded=-2.64, misfit=-5.85),
    # A listener's whole name goes before its engine. Fit by `--fit --ears bench`: 811 readings in 950 of the
    # 1321 clips of the tuning half, at random; from 0.3 to 0.65 every threshold costs the same: docs/ears.md.
    "whisper tiny.en, bench ears": Figures(
        base=1.09, share=0.57, outside=-3.76, odd=-2.55, crowded=-2.22, misfit=-5.57
    ),
    # Any other: not measured. The share is the probability; one thing that speaks against a value is
    # enough that it asks.
    "": Figures(base=0.0, share=1.0, outside=-3.0, odd=-1.5, crowded=-3.0, misfit=-3.0),
}
