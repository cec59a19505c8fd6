"""Is a difference between two visits real, or within what the measuring explains?

The difference has u² = u₁² + u₂², with effective degrees of freedom (JCGM 100:2008, 5.1.2, G.4). It is real
where it is larger than U = k·u. The same instrument at both visits may share an error, which would make U
too large: then a small real change is told as not shown, never the other way round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from saywright.judging.uncertainty import COVERAGE, coverage, effective_degrees
from saywright.judging.wording import capital, figure, mean_text, short, with_unit
from saywright.quantity import decimal_text
from saywright.sheets.model import Stage

_DIGITS = 8  # of a single value; more come only from converting


@dataclass(frozen=True, slots=True)
class Point:
    """One value at one visit: the last reading of that stage, or the mean of its repeats."""

    job: str
    day: date
    stage: Stage
    value: Fraction  # in the course's unit
    variance: float  # u², in its square
    degrees: int | None  # of freedom; None: without end
    n: int  # readings
    provisional: bool  # while one of them asks
    renewed: bool  # the part was replaced at this visit
    said: str = ""  # digits as said, of a single decimal value in the course's unit; else ""

    @property
    def u(self) -> float:
        """Standard uncertainty."""
        return math.sqrt(self.variance)

    @property
    def text(self) -> str:
        """The value as told, without its unit."""
        if self.n > 1:
            return mean_text(self.value, self.u)
        return self.said or short(self.value, _DIGITS)


@dataclass(frozen=True, slots=True)
class Change:
    """From one value to a later one."""

    name: str  # of what changed, as shown
    unit: str  # of both values
    before: Point
    after: Point

    @property
    def difference(self) -> Fraction:
        """After less before."""
        return self.after.value - self.before.value

    @property
    def expanded(self) -> float:
        """U of the difference; 0 for exact values."""
        return difference_expanded(self.before, self.after)

    @property
    def real(self) -> bool:
        """True where the measuring does not explain it."""
        return differs(self.before, self.after)

    @property
    def provisional(self) -> bool:
        """True while one of the values waits for a person."""
        return self.before.provisional or self.after.provisional

    @property
    def sentence(self) -> str:
        """The change, told."""
        return _sentence(self) + (" Provisional." if self.provisional else "")


def difference_expanded(before: Point, after: Point) -> float:
    """U = k·u of the difference of two values."""
    k: float = COVERAGE
    if before.degrees is not None or after.degrees is not None:
        both = [(Fraction(p.variance), p.degrees) for p in (before, after)]
        k = coverage(effective_degrees(both))
    return k * math.sqrt(before.variance + after.variance)


def differs(before: Point, after: Point) -> bool:
    """True where two values differ by more than the measuring explains."""
    if before.value == after.value:
        return False
    return abs(float(after.value - before.value)) > difference_expanded(before, after)


def _places(text: str) -> int:
    return len(text.partition(".")[2])


def _sentence(of: Change) -> str:
    before, after, unit = of.before, of.after, of.unit
    verb = "left at" if before.stage == "as_left" else "found at"
    was = f"{capital(of.name)} was {verb} {with_unit(before.text, unit)} on {before.day}"
    now = f"found at {with_unit(after.text, unit)} on {after.day}"
    if of.difference == 0:
        return f"{was} and {now}: the same."
    places = max(_places(before.text), _places(after.text))
    size = with_unit(decimal_text(abs(of.difference), places), unit)
    way = f"{size} {'more' if of.difference > 0 else 'less'}"
    if of.expanded == 0:
        return f"{was} and {now}: {way}."
    explained = f"the {with_unit(figure(of.expanded), unit)} that the measuring explains"
    if of.real:
        return f"{was} and {now}: {way}, beyond {explained}. The change is real."
    return f"{was} and {now}: {way}, within {explained}. No change is shown."
