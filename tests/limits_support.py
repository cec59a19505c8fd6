"""What the tests of limits have in common."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from saywright.judging.limits import Judgement, decide
from saywright.judging.uncertainty import Budget, UncertaintyPart
from saywright.sheets.model import Characteristic, Rule, Sheet

F = Fraction


def of_u(u: str | Fraction, unit: str = "mm") -> Budget:
    """A budget with this standard uncertainty."""
    return Budget(unit, (UncertaintyPart("instrument_error", Fraction(u) ** 2, "given"),))


def run(
    value: str | Fraction,
    u: str | Fraction,
    *,
    lower: str | None = None,
    upper: str | None = None,
    rule: Rule = "iso14253",
    ratio: str = "1",
    unit: str = "mm",
) -> Judgement:
    """Judge a value against limits."""
    characteristic = Characteristic(
        id="x",
        unit=unit,
        lower=None if lower is None else Decimal(lower),
        upper=None if upper is None else Decimal(upper),
    )
    sheet = Sheet(id="s", title="S", rule=rule, guard_ratio=Decimal(ratio))
    budget = Budget(unit) if F(u) == 0 else of_u(u, unit)
    return decide(F(value), characteristic, budget, sheet, told=f"height {value} {unit}")
