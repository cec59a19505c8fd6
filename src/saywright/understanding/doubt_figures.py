"""How far a value as heard can be trusted, for each listener. Constants; made by `make accuracy`.

A logistic regression of "this reading is right" on what is known about it.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figures:
    """Coefficients of a logistic function, natural log-odds."""

    base: float
    share: float  # for each unit of log-odds of the share of the hypotheses' probability
    outside: float  # added where the value is outside the plausible range
    odd: float  # added where words around the number do not fit it
    crowded: float  # added where the same words give another value for the same thing
    misfit: float  # added where its decimals are not those of the sheet's limits and instrument


# Probability from which a value is taken without an ask: the one place. Its price is in docs/accuracy.md.
TAKEN_FROM = 0.6

FIGURES = {
    "whisper": Figures(base=0.96, share=0.42, outside=-5.09, odd=-2.83, crowded=-4.51, misfit=-5.19),
    # Any other: not measured. The share is the probability; what speaks against a value halves its
    # log-odds about as it does for Whisper.
    "": Figures(base=0.0, share=1.0, outside=-3.0, odd=-1.5, crowded=-3.0, misfit=-3.0),
}
