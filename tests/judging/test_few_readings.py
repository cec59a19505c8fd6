"""Decisions on the mean of few readings hold with Student's t, by scipy."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import partial

from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from judging.conftest import SHEET
from saywright.judging.limits import decide, guard_factor, two_sided_factor
from saywright.judging.uncertainty import Budget, UncertaintyPart
from saywright.sheets.model import Characteristic

F = Fraction
HEIGHT = Characteristic(id="x", unit="mm", lower=Decimal("18.0"), upper=Decimal("18.8"))


def budget(fixed: Fraction, spread: Fraction, degrees: int) -> Budget:
    """u² of the instrument, and u² of a mean with its degrees of freedom."""
    return Budget(
        "mm",
        (UncertaintyPart("instrument_error", fixed, ""), UncertaintyPart("repeats", spread, "", degrees)),
    )


_variances = st.integers(1, 100_000).map(lambda n: F(n, 10**6))
_values = st.fractions(F(17), F(20), max_denominator=1000)


@given(_values, _variances, _variances, st.integers(1, 30))
def test_conforming_is_at_least_95_percent(
    value: Fraction, fixed: Fraction, spread: Fraction, degrees: int
) -> None:
    """And not conforming at most 5 %, by scipy's t with the degrees of freedom of Welch and Satterthwaite."""
    known = budget(fixed, spread, degrees)
    found = decide(value, HEIGHT, known, SHEET, told="x", n=degrees + 1)
    effective = float((fixed + spread) ** 2 / (spread**2 / degrees))
    t = stats.t(math.floor(effective)) if effective < 1000 else stats.norm
    inside = t.cdf(float(F("18.8") - value) / known.u) - t.cdf(float(F("18.0") - value) / known.u)
    if found.decision == "conforms":
        assert inside >= 0.95 - 1e-9
    if found.decision == "does_not_conform":
        assert inside <= 0.05 + 1e-9
    assert abs(inside - (found.probability or 0.0)) < 1e-6


@given(st.integers(1, 400))
def test_few_degrees_ask_for_more(degrees: int) -> None:
    """The factors fall with the degrees of freedom and never below those of the normal distribution."""
    rules = [partial(guard_factor, rule, F(1)) for rule in ("iso14253", "guarded")]
    for of in (*rules, two_sided_factor):
        assert of(degrees) >= of(degrees + 1) >= of(None)
