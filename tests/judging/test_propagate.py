"""Propagation of uncertainty against the worked example of the Guide."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from saywright.judging.propagate import Linear, NotComputedError, evaluate
from saywright.judging.uncertainty import effective_degrees
from saywright.sheets.formula import Reference, parse_formula

F = Fraction

# JCGM 100:2008, H.1, end gauge: value, u, degrees of freedom (values verified in the documentation of GTC;
# degrees of freedom from memory). Lengths in nm; d is 215 nm with three contributions to its u.
GAUGE: dict[str, tuple[Fraction, tuple[tuple[float, int | None], ...]]] = {
    "ls": (F(50_000_623), ((25.0, 18),)),
    "d": (F(215), ((5.8, 24), (3.9, 5), (6.7, 8))),
    "alpha": (F("11.5e-6"), ((1.2e-6, None),)),
    "theta": (F("-0.1"), ((0.41, None),)),
    "da": (F(0), ((0.58e-6, 50),)),
    "dt": (F(0), ((0.029, 2),)),
}


def gauge(reference: Reference, _every: bool) -> tuple[Linear, ...]:
    """One input of the gauge."""
    name = reference.characteristic
    return (Linear(GAUGE[name][0], {name: F(1)}),)


def test_end_gauge_of_the_guide() -> None:
    """l = ls + d − ls·(δα·θ + αs·δθ): 50 000 838 nm, u = 32 nm, 16 effective degrees of freedom."""
    found = evaluate(parse_formula("ls + d - ls * (da * theta + alpha * dt)"), gauge)
    assert 50_000_838 == found.value
    parts = [
        (found.slopes[name] ** 2 * F(u) ** 2, degrees)
        for name, (_, contributions) in GAUGE.items()
        for u, degrees in contributions
        if name in found.slopes
    ]
    u = math.sqrt(sum(variance for variance, _ in parts))
    assert 32 == round(u)
    assert 31.71 == pytest.approx(u, abs=0.05)
    assert 16 == effective_degrees(parts)


@pytest.mark.parametrize(
    ("formula", "value", "slope"),
    [("abs(x)", "3", "-1"), ("x * x", "9", "-6"), ("1 / x", "-1/3", "-1/9"), ("min(x, 5)", "-3", "1"),
     ("max(x, 5)", "5", "0"), ("x - x", "0", "0"), ("range(x, 1)", "4", "-1"), ("mean(x, x, 6)", "0", "2/3")],
)  # fmt: skip
def test_slopes(formula: str, value: str, slope: str) -> None:
    """How much each result moves with x at −3, exactly."""
    found = evaluate(parse_formula(formula), lambda _ref, _every: (Linear(F(-3), {"x": F(1)}),))
    assert (F(value), F(slope)) == (found.value, found.slopes.get("x", F(0)))


def test_division_by_nought() -> None:
    """Told, not raised from the depths."""
    with pytest.raises(NotComputedError, match="divided by nought"):
        evaluate(parse_formula("1 / x"), lambda _ref, _every: (Linear(F(0)),))
