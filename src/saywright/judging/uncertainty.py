"""How sure a value is: the standard uncertainty and the parts it is made of.

Variances are exact fractions, so that comparing with a limit needs no rounding; roots are
taken for print only. Sources: JCGM 100:2008, 4.2 (type A, s/√n), 4.3.7 (rectangular, a/√3),
F.2.2.1 (resolution, d/√12), 5.1.2 (combination of independent parts), 6.2 (k = 2), G.4 (effective
degrees of freedom after Welch and Satterthwaite; k from Student's t where a spread rests on few readings).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Literal, NamedTuple

from saywright.judging.student import t_quantile
from saywright.judging.wording import figure, with_unit
from saywright.quantity import Quantity
from saywright.sheets.model import Characteristic, Instrument, Sheet
from saywright.units import get_unit

COVERAGE = 2  # k: U = k·u, about 95 % for a normal distribution
COVERAGE_BELOW = 0.9772498680518208  # probability below mean + 2u there; k of few readings leaves the same
MANY_DEGREES = 1000  # from here t is the normal distribution to three digits

PartKind = Literal["resolution", "instrument_error", "repeats", "input"]


@dataclass(frozen=True, slots=True)
class UncertaintyPart:
    """One contribution."""

    kind: PartKind
    variance: Fraction  # u² in the square of the budget's unit, exact
    text: str  # what it is, with its figure
    degrees: int | None = None  # degrees of freedom, ≥ 1; None: held to be known well

    @property
    def u(self) -> float:
        """Standard uncertainty, in the budget's unit."""
        return math.sqrt(self.variance)


@dataclass(frozen=True)  # without slots, so that sums are kept once made
class Budget:
    """All contributions to one value."""

    unit: str  # the characteristic's
    parts: tuple[UncertaintyPart, ...] = ()

    @cached_property
    def variance(self) -> Fraction:
        """u² of the value: the sum of the parts, which are independent."""
        return sum((part.variance for part in self.parts), Fraction(0))

    @cached_property
    def step_squared(self) -> Fraction:
        """d² of the resolution step, in the unit squared; u² of a step d is d²/12."""
        parts = (part.variance for part in self.parts if part.kind == "resolution")
        return 12 * sum(parts, Fraction(0))

    @property
    def fixed_variance(self) -> Fraction:
        """The share of u² that repeating the measurement does not lessen."""
        return sum((part.variance for part in self.parts if part.kind != "repeats"), Fraction(0))

    @property
    def u(self) -> float:
        """Combined standard uncertainty, in `unit`."""
        return math.sqrt(self.variance)

    @cached_property
    def degrees(self) -> int | None:
        """Effective degrees of freedom, ≥ 1, rounded down (JCGM 100, G.4.1); None: without end."""
        if all(part.degrees is None for part in self.parts):
            return None
        return effective_degrees((part.variance, part.degrees) for part in self.parts)

    @property
    def coverage(self) -> float:
        """k of U = k·u: 2, and more where the spread rests on few readings (JCGM 100, G.3.2)."""
        return coverage(self.degrees)

    @property
    def expanded(self) -> float:
        """U = k·u, in `unit`."""
        return self.coverage * self.u


def budget_text(budget: Budget) -> str:
    """The budget in one line: each part with its u and share of u², then u, degrees of freedom, k."""
    if budget.variance == 0:
        return ""
    parts = [
        f"{part.text}: u {with_unit(figure(part.u), budget.unit)}, {_share(part.variance / budget.variance)}"
        for part in budget.parts
        if part.variance
    ]
    total = f"together u {with_unit(figure(budget.u), budget.unit)}"
    if budget.degrees is not None:
        total += f", {budget.degrees} effective degrees of freedom"
    return f"{'; '.join(parts)}; {total}, k = {budget.coverage:.2f}"


def _share(share: Fraction) -> str:
    percent = round(100 * float(share))
    return f"{percent} %" if percent else "less than 1 %"


def effective_degrees(parts: Iterable[tuple[Fraction, int | None]]) -> int | None:
    """Welch–Satterthwaite for (u², degrees of freedom) of independent parts: u⁴ / Σ(u_i⁴/ν_i), rounded down.

    None where no part has a number of degrees of freedom, or the result is as good as without end.
    """
    total = below = Fraction(0)
    for variance, degrees in parts:
        total += variance
        if degrees is not None:
            below += variance * variance / degrees
    if below == 0:
        return None
    found = total * total / below
    return None if found >= MANY_DEGREES else max(1, math.floor(found))


def coverage(degrees: int | None) -> float:
    """k with which U = k·u covers 95.45 %: 2 for the normal distribution, t for few degrees of freedom."""
    return float(COVERAGE) if degrees is None else t_quantile(COVERAGE_BELOW, degrees)


def resolution_variance(step: Fraction) -> Fraction:
    """u² of a value rounded to *step*: (d/√12)², JCGM 100 F.2.2.1."""
    return step * step / 12


def bound_variance(half_width: Fraction) -> Fraction:
    """u² of a value known to lie within ± *half_width*, all equally likely: (a/√3)², JCGM 100 4.3.7."""
    return half_width * half_width / 3


def mean_variance(variance: Fraction, n: int) -> Fraction:
    """u² of the mean of *n* values with experimental variance s²: (s/√n)², JCGM 100 4.2.3."""
    return variance / n


@lru_cache(maxsize=1024)
def interval(size: Fraction, from_unit: str, to_unit: str) -> Fraction:
    """The size of an interval in another unit; zero points (°F, °C) do not matter to it."""
    return size * get_unit(from_unit).factor / get_unit(to_unit).factor


def budget(
    characteristic: Characteristic,
    said: tuple[Quantity, ...],
    sheet: Sheet,
    *,
    spread: Fraction | None = None,
) -> Budget:
    """The budget of the mean of the values *said*; *spread* is s², in the characteristic's unit squared.

    Counted and stamped values are exact. Resolution is the coarser of the instrument's and the
    last digit said: who says "eighteen point four" has read no hundredths. A fraction such as
    1/3 is held to be read to its denominator. A value that came with its own
    uncertainty, as one measured in a picture does, has that in place of the instrument's.
    """
    unit = characteristic.unit
    if characteristic.is_count:
        return Budget(unit)
    read_to = frozenset((read_step(one.text), one.unit, one.u) for one in said)
    instrument = None if any(u for _, _, u in read_to) else _instrument(characteristic, sheet)
    single = _single(unit, read_to, None if instrument is None else _Shown.of(instrument))
    if spread is None or len(said) < 2:
        return single
    text = f"spread of the {len(said)} values said"
    part = UncertaintyPart("repeats", mean_variance(spread, len(said)), text, len(said) - 1)
    return Budget(unit, (*single.parts, part))


class _Shown(NamedTuple):
    """What of an instrument counts."""

    name: str
    unit: str
    resolution: Decimal | None  # in `unit`
    error: Decimal | None  # ± bound, in `unit`

    @classmethod
    def of(cls, instrument: Instrument) -> _Shown:
        return cls(
            f"the {instrument.label}",
            instrument.unit,
            instrument.resolution,
            instrument.max_permissible_error,
        )


_Step = str | int  # the denominator of a ratio as said, or the number of decimals


def read_step(text: str) -> _Step:
    """What a value was read to, as its digits tell: the same for values read alike."""
    return text.partition("/")[2] or len(text.partition(".")[2])


@lru_cache(maxsize=4096)
def _single(unit: str, read_to: frozenset[tuple[_Step, str, str | None]], shown: _Shown | None) -> Budget:
    """The parts that do not come from spread. They depend on the digits, not on the values."""
    parts = _told(read_to, unit)
    spoken = max((_spoken_step(step, of, unit) for step, of, _ in read_to), default=Fraction(0))
    of_instrument = Fraction(0)
    if shown is not None and shown.resolution is not None:
        of_instrument = interval(Fraction(shown.resolution), shown.unit, unit)
    if step := max(spoken, of_instrument):
        source = shown.name if shown is not None and of_instrument >= spoken else "the digits said"
        text = f"resolution of {source}, {_plain(step, unit)} wide"
        parts.append(UncertaintyPart("resolution", resolution_variance(step), text))
    if shown is not None and shown.error:
        bound = interval(Fraction(shown.error), shown.unit, unit)
        text = f"error limit of {shown.name}, ±{_plain(bound, unit)}"
        parts.append(UncertaintyPart("instrument_error", bound_variance(bound), text))
    return Budget(unit, tuple(parts))


def _told(read_to: Iterable[tuple[_Step, str, str | None]], unit: str) -> list[UncertaintyPart]:
    """What the measurements themselves told; of several the largest, since their causes are the same."""
    told = [interval(Fraction(u), of, unit) for _, of, u in read_to if u]
    text = "measured in a picture, as told with it"
    return [UncertaintyPart("input", max(told) ** 2, text)] if told else []


def _instrument(characteristic: Characteristic, sheet: Sheet) -> Instrument | None:
    """The instrument named, where it measures in a unit of the characteristic's kind."""
    found = sheet.get_instrument(characteristic.instrument)
    if found is None or get_unit(found.unit).kind != get_unit(characteristic.unit).kind:
        return None
    return found


def _spoken_step(step: _Step, of: str, unit: str) -> Fraction:
    """The size of the last digit of a value in unit *of*, in *unit*."""
    return interval(Fraction(1, 10**step if isinstance(step, int) else int(step)), of, unit)


def _plain(value: Fraction, unit: str) -> str:
    return with_unit(f"{float(value):.6g}", unit)
