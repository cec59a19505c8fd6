"""How sure a value is: the standard uncertainty and the parts it is made of.

Variances are exact fractions, so that comparing with a limit needs no rounding; roots are
taken for print only. Sources: JCGM 100:2008, 4.2 (type A, s/√n), 4.3.7 (rectangular, a/√3),
F.2.2.1 (resolution, d/√12), 5.1.2 (combination of independent parts), 6.2 (k = 2).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from saywright.quantity import Quantity
from saywright.sheets.model import Characteristic, Instrument, Sheet
from saywright.units import get_unit

COVERAGE = 2  # k: U = k·u, about 95 % for a normal distribution

PartKind = Literal["resolution", "instrument_error", "repeats"]


@dataclass(frozen=True, slots=True)
class UncertaintyPart:
    """One contribution."""

    kind: PartKind
    variance: Fraction  # u² in the square of the budget's unit, exact
    text: str  # what it is, with its figure

    @property
    def u(self) -> float:
        """Standard uncertainty, in the budget's unit."""
        return math.sqrt(self.variance)


@dataclass(frozen=True, slots=True)
class Budget:
    """All contributions to one value."""

    unit: str  # the characteristic's
    parts: tuple[UncertaintyPart, ...] = ()

    @property
    def variance(self) -> Fraction:
        """u² of the value: the sum of the parts, which are independent."""
        return sum((part.variance for part in self.parts), Fraction(0))

    @property
    def fixed_variance(self) -> Fraction:
        """The share of u² that repeating the measurement does not lessen."""
        return sum((part.variance for part in self.parts if part.kind != "repeats"), Fraction(0))

    @property
    def u(self) -> float:
        """Combined standard uncertainty, in `unit`."""
        return math.sqrt(self.variance)

    @property
    def expanded(self) -> float:
        """U = 2·u, in `unit`."""
        return COVERAGE * self.u


def resolution_variance(step: Fraction) -> Fraction:
    """u² of a value rounded to *step*: (d/√12)², JCGM 100 F.2.2.1."""
    return step * step / 12


def bound_variance(half_width: Fraction) -> Fraction:
    """u² of a value known to lie within ± *half_width*, all equally likely: (a/√3)², JCGM 100 4.3.7."""
    return half_width * half_width / 3


def mean_variance(variance: Fraction, n: int) -> Fraction:
    """u² of the mean of *n* values with experimental variance s²: (s/√n)², JCGM 100 4.2.3."""
    return variance / n


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
    1/3 is held to be read to its denominator.
    """
    if characteristic.is_count:
        return Budget(characteristic.unit)
    parts: list[UncertaintyPart] = []
    instrument = _instrument(characteristic, sheet)
    spoken = max((_spoken_step(quantity, characteristic.unit) for quantity in said), default=Fraction(0))
    shown = _shown_step(instrument, characteristic.unit)
    step = max(spoken, shown)
    if step:
        source = _name(instrument) if instrument and shown >= spoken else "the digits said"
        text = f"resolution of {source}, {_plain(step)} {characteristic.unit} wide"
        parts.append(UncertaintyPart("resolution", resolution_variance(step), text))
    if instrument and instrument.max_permissible_error:
        bound = interval(Fraction(instrument.max_permissible_error), instrument.unit, characteristic.unit)
        text = f"error limit of {_name(instrument)}, ±{_plain(bound)} {characteristic.unit}"
        parts.append(UncertaintyPart("instrument_error", bound_variance(bound), text))
    if spread is not None and len(said) > 1:
        text = f"spread of the {len(said)} values said"
        parts.append(UncertaintyPart("repeats", mean_variance(spread, len(said)), text))
    return Budget(characteristic.unit, tuple(parts))


def _instrument(characteristic: Characteristic, sheet: Sheet) -> Instrument | None:
    """The instrument named, where it measures in a unit of the characteristic's kind."""
    found = sheet.get_instrument(characteristic.instrument)
    if found is None or get_unit(found.unit).kind != get_unit(characteristic.unit).kind:
        return None
    return found


def _name(instrument: Instrument) -> str:
    return f"the {instrument.names[0] if instrument.names else instrument.id.replace('_', ' ')}"


def _shown_step(instrument: Instrument | None, unit: str) -> Fraction:
    if instrument is None or instrument.resolution is None:
        return Fraction(0)
    return interval(Fraction(instrument.resolution), instrument.unit, unit)


def _spoken_step(quantity: Quantity, unit: str) -> Fraction:
    step = quantity.step
    if step is None:
        step = Fraction(1, int(quantity.text.partition("/")[2]))
    return interval(step, quantity.unit, unit)


def _plain(value: Fraction) -> str:
    return f"{float(value):.6g}"
