"""Propagation beside GTC, an uncertainty calculator of a national measurement laboratory."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

import GTC
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from judging.test_propagate import GAUGE, gauge
from saywright.judging.propagate import Linear, evaluate
from saywright.judging.uncertainty import effective_degrees
from saywright.sheets.formula import parse_formula

Inputs = Sequence[Any]
FORMULAS: dict[str, Callable[[Inputs], Any]] = {
    "a - b": lambda x: x[0] - x[1],
    "a + b - c": lambda x: x[0] + x[1] - x[2],
    "a * b / c": lambda x: x[0] * x[1] / x[2],
    "(a - b) / (a + b + c)": lambda x: (x[0] - x[1]) / (x[0] + x[1] + x[2]),
    "mean(a, b, c) - a": lambda x: (x[0] + x[1] + x[2]) / 3 - x[0],
    "a * a - b * c": lambda x: x[0] * x[0] - x[1] * x[2],
}
values = st.decimals("0.5", "80", places=3)
doubts = st.decimals("0.001", "0.5", places=3)
degrees = st.tuples(*[st.integers(2, 40)] * 3)


def test_end_gauge() -> None:
    """JCGM 100:2008, H.1, by both: the same value, u and effective degrees of freedom."""
    parts = {
        name: [GTC.ureal(0, u, df if df is not None else math.inf) for u, df in doubts]
        for name, (_, doubts) in GAUGE.items()
    }
    one = {name: float(value) + sum(parts[name], 0) for name, (value, _) in GAUGE.items()}
    theirs = one["ls"] + one["d"] - one["ls"] * (one["da"] * one["theta"] + one["alpha"] * one["dt"])
    ours = evaluate(parse_formula("ls + d - ls * (da * theta + alpha * dt)"), gauge)
    contributions = [
        (ours.slopes[name] ** 2 * Fraction(u) ** 2, df)
        for name, (_, doubts) in GAUGE.items()
        for u, df in doubts
        if name in ours.slopes
    ]
    assert GTC.value(theirs) == pytest.approx(float(ours.value), rel=1e-12)
    assert GTC.uncertainty(theirs) == pytest.approx(math.sqrt(sum(v for v, _ in contributions)), rel=1e-9)
    assert math.floor(GTC.dof(theirs)) == effective_degrees(contributions)


@pytest.mark.parametrize("formula", FORMULAS)
@settings(deadline=None)
@given(st.tuples(values, values, values), st.tuples(doubts, doubts, doubts), degrees)
def test_value_doubt_and_degrees(
    formula: str, said: tuple[Decimal, ...], u: tuple[Decimal, ...], df: tuple[int, ...]
) -> None:
    """Value, standard uncertainty and degrees of freedom of a formula are what GTC makes of it."""
    named = dict(zip("abc", said, strict=True))
    theirs = FORMULAS[formula](
        [GTC.ureal(float(x), float(s), n) for x, s, n in zip(said, u, df, strict=True)]
    )
    ours = evaluate(
        parse_formula(formula),
        lambda ref, _every: (Linear(Fraction(named[ref.characteristic]), {ref.characteristic: Fraction(1)}),),
    )
    parts = [
        (ours.slopes.get(name, Fraction(0)) ** 2 * Fraction(s) ** 2, n)
        for name, s, n in zip("abc", u, df, strict=True)
    ]
    assert GTC.value(theirs) == pytest.approx(float(ours.value), rel=1e-9, abs=1e-9)
    assert GTC.uncertainty(theirs) == pytest.approx(math.sqrt(sum(v for v, _ in parts)), rel=1e-6, abs=1e-9)
    known, exact = GTC.dof(theirs), effective_degrees([part for part in parts if part[0]])
    if sum(v for v, _ in parts) > 0 and abs(known - round(known)) > 1e-6:  # not at the edge of rounding down
        assert math.floor(known) == exact
