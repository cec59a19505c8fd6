"""Is a value within its limits? Decision, figures and sentence come from one function.

Rules (a sheet names one):
- iso14253: conformity and non-conformity are each shown only with 95 % probability; guard band
  1.65·u at each limit, outside and inside (ISO 14253-1:2017, default). Where two limits lie so
  close that 1.65·u from both leaves less than 95 %, that is not enough either.
- guarded: guard band w = r·U with U = k·u and r from the sheet (JCGM 106:2012, 8.3.2; ILAC-G8:09/2019).
- simple: no guard band (ILAC-G8:09/2019, simple acceptance).

Where the spread of few readings counts, 1.65, 1.96 and k = 2 give way to Student's t for the effective
degrees of freedom (JCGM 100:2008, G.4), so that the stated probability holds.

Comparisons are exact: w² against distance², as fractions.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache, partial

from saywright.judging.probability import conformance_probability, phi
from saywright.judging.settle import Advise, Settle, settle
from saywright.judging.student import t_cdf, t_quantile
from saywright.judging.uncertainty import COVERAGE, COVERAGE_BELOW, Budget
from saywright.judging.wording import capital, figure, limits_text, percent, short, with_unit
from saywright.record.types import Decision
from saywright.sheets.model import Characteristic, Rule, Sheet

ISO_GUARD = Fraction("1.65")  # of u, ISO 14253-1:2017
ISO_PROBABILITY = 0.95  # conformance probability limit, ISO 14253-1:2017
ISO_TWO_SIDED = Fraction("1.96")  # of u, in the middle between two close limits
_DIGITS = 10**6  # factors from t are rounded up to as many parts of one


@dataclass(frozen=True, slots=True)
class Judgement:
    """A decision with all it rests on. Values are in `unit`."""

    decision: Decision
    rule: Rule
    unit: str
    sentence: str  # for the report; ends with a full stop
    value: Fraction | None  # judged value, mean of `n`; None where it cannot be told in the unit
    n: int = 1  # readings the value is the mean of
    range: Fraction | None = None  # of these, the largest less the smallest; None for one
    lower: Fraction | None = None
    upper: Fraction | None = None
    allowed: tuple[Fraction, ...] = ()
    budget: Budget = field(default_factory=lambda: Budget("1"))
    guard: float = 0.0  # width of the guard band, ≥ 0
    distance: Fraction | None = None  # from the nearer limit, positive inside; None without limits
    probability: float | None = None  # that the true value lies within the limits; None without limits
    settle: Settle | None = None  # only where undecided

    @property
    def u(self) -> float:
        """Standard uncertainty."""
        return self.budget.u

    @property
    def expanded(self) -> float:
        """Expanded uncertainty U = k·u."""
        return self.budget.expanded


def guard_factor(rule: Rule, guard_ratio: Fraction, degrees: int | None = None) -> Fraction:
    """g of the guard band w = g·u, for these effective degrees of freedom (None: without end)."""
    if rule == "iso14253":
        return max(ISO_GUARD, _t(ISO_PROBABILITY, degrees)) if degrees else ISO_GUARD
    if rule != "guarded":
        return Fraction(0)
    return guard_ratio * (_t(COVERAGE_BELOW, degrees) if degrees else COVERAGE)


def two_sided_factor(degrees: int | None) -> Fraction:
    """g in the middle between two limits that lie close: 95 % inside both."""
    return max(ISO_TWO_SIDED, _t((1 + ISO_PROBABILITY) / 2, degrees)) if degrees else ISO_TWO_SIDED


_FactorOf = Callable[[int | None], Fraction]  # effective degrees of freedom → g


@lru_cache(maxsize=4096)
def _t(probability: float, degrees: int) -> Fraction:
    return Fraction(math.ceil(t_quantile(probability, degrees) * _DIGITS), _DIGITS)


def decide(
    value: Fraction,
    characteristic: Characteristic,
    budget: Budget,
    sheet: Sheet,
    *,
    told: str,
    n: int = 1,
    advise: Advise = settle,
    words: bool = True,
) -> Judgement:
    """Judge *value*, in the characteristic's unit, the mean of *n*.

    *told* opens the sentence: "float height 18.42 mm". *advise* says what would settle an undecided one.
    Without *words* the decision is the same, and what only the sentence needs is left out.
    """
    if characteristic.allowed:
        return _by_size(value, characteristic, sheet, told, n)
    lower, upper = map(_exact, characteristic.limits)
    unit = characteristic.unit
    if lower is None and upper is None:
        sentence = f"{capital(told)}: no limit is set."
        return Judgement("no_limit", sheet.rule, unit, sentence, value, n, budget=budget)
    distance = min(_room(value, lower, upper))
    degrees = budget.degrees
    factor_of: _FactorOf = partial(guard_factor, sheet.rule, Fraction(sheet.guard_ratio))
    decision = _compare(distance, _squared(factor_of, degrees) * budget.variance)
    close = decision == "conforms" and sheet.rule == "iso14253" and None not in (lower, upper)
    probability = None
    if close and not words and _two_sided_holds(distance, budget):
        close = False
    if words or close:
        below = phi if degrees is None else partial(t_cdf, degrees=degrees)
        probability = conformance_probability(value, budget.variance, lower, upper, below)
    if close and probability is not None and probability < ISO_PROBABILITY:
        decision, factor_of = "undecided", two_sided_factor
    plain = Judgement(decision, sheet.rule, unit, "", value, n, lower=lower, upper=upper, budget=budget)
    if not words:
        return plain
    guard = math.sqrt(_squared(factor_of, degrees) * budget.variance)
    way_out = advise(abs(distance), budget, factor_of, n) if decision == "undecided" else None
    found = replace(plain, guard=guard, distance=distance, probability=probability, settle=way_out)
    return _with_sentence(found, characteristic, told)


@lru_cache(maxsize=4096)
def _exact(limit: Decimal | None) -> Fraction | None:
    return None if limit is None else Fraction(limit)


def _two_sided_holds(distance: Fraction, budget: Budget) -> bool:
    """True where the distance alone shows 95 % inside both limits, so that no probability is needed."""
    factor = two_sided_factor(budget.degrees)
    return distance * distance >= factor * factor * budget.variance


def _squared(factor_of: _FactorOf, degrees: int | None) -> Fraction:
    factor = factor_of(degrees)
    return factor * factor


def _room(value: Fraction, lower: Fraction | None, upper: Fraction | None) -> Iterator[Fraction]:
    """The distances inside each limit there is."""
    if lower is not None:
        yield value - lower
    if upper is not None:
        yield upper - value


def _compare(distance: Fraction, guard_squared: Fraction) -> Decision:
    """Distance from the nearer limit against the guard band; exact."""
    if distance * distance < guard_squared:
        return "undecided"
    return "conforms" if distance >= 0 else "does_not_conform"


def _by_size(value: Fraction, characteristic: Characteristic, sheet: Sheet, told: str, n: int) -> Judgement:
    """Permitted sizes are exact: one of them, or not."""
    allowed = tuple(Fraction(size) for size in characteristic.allowed)
    fits = value in allowed
    sizes = limits_text(characteristic)
    one = "the size" if len(allowed) == 1 else "one of the sizes"
    ending = f"is {one} permitted" if fits else f"is not {one} permitted"
    sentence = f"{capital(told)} {ending} ({sizes}): it {'conforms' if fits else 'does not conform'}."
    decision: Decision = "conforms" if fits else "does_not_conform"
    budget = Budget(characteristic.unit)
    return Judgement(
        decision, sheet.rule, characteristic.unit, sentence, value, n, allowed=allowed, budget=budget
    )


def _with_sentence(found: Judgement, characteristic: Characteristic, told: str) -> Judgement:
    """The same judgement, told."""
    limits = limits_text(characteristic)
    distance = found.distance or Fraction(0)
    where = f"within the limits ({limits})" if distance >= 0 else f"outside the limits ({limits})"
    away = with_unit(short(abs(distance)), found.unit)
    far = (
        f"{away} from the nearer limit"
        if None not in (found.lower, found.upper)
        else f"{away} from the limit"
    )
    if distance == 0:
        far = "exactly on the limit"
    head = f"{capital(told)} is {where}, {far}"
    guard = with_unit(_guard_text(found.guard, abs(distance), found.decision), found.unit)
    chance = f"the probability that it conforms is {percent(found.probability or 0.0)}"
    if found.budget.variance == 0 or found.rule == "simple":
        verdict = "it conforms" if found.decision == "conforms" else "it does not conform"
        tail = f"; {chance}" if found.budget.variance else ""
        text = f"{head}: {verdict}{tail}."
    elif found.decision == "conforms":
        text = f"{head}, more than the {guard} kept clear for uncertainty: it conforms; {chance}."
    elif found.decision == "does_not_conform":
        text = f"{head}, more than the {guard} allowed for uncertainty: it does not conform; {chance}."
    else:
        way_out = found.settle.sentence if found.settle else ""
        text = f"{head}, less than the {guard} needed to be sure: it is undecided; {chance}. {way_out}"
    return replace(found, sentence=text)


def _guard_text(guard: float, distance: Fraction, decision: Decision) -> str:
    """The guard band to as few digits as do not contradict the distance beside it."""
    texts = [figure(guard, digits) for digits in (2, 3, 4, 6)]
    smaller = (text for text in texts if decision == "undecided" or Fraction(text) < distance)
    return next(smaller, texts[-1])
