"""Readings of one thing that belong together: the value judged is their mean."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from saywright.quantity import Quantity, parse_value
from saywright.record.types import Reading, Record, waits
from saywright.sheets.model import Characteristic, Sheet, Stage
from saywright.units import UNITS, convert, convertible

Thing = tuple[str, str | None, str, str | None]  # what is read: component, which, characteristic, place


@dataclass(frozen=True)  # without slots, so that what was said is kept once made
class Group:
    """One reading, or several of the same thing at the same stage."""

    component: str
    which: str | None
    characteristic: str
    stage: Stage
    readings: tuple[Reading, ...]  # in the order said, at least one
    values: tuple[Fraction, ...]  # exact, in the characteristic's unit; empty where they cannot be told in it
    place: str | None  # on the part
    limits: Characteristic | None  # what the sheet says of it; None where it does not know it
    mean: Fraction | None  # of the values, exact; None where there are none
    spread: Fraction | None  # s², the experimental variance (n − 1 below), exact; None for a single value

    @property
    def thing(self) -> Thing:
        """What was read."""
        return self.component, self.which, self.characteristic, self.place

    @property
    def range(self) -> Fraction | None:
        """The largest less the smallest, exact; None for a single value."""
        return max(self.values) - min(self.values) if len(self.values) > 1 else None

    @cached_property
    def said(self) -> tuple[Quantity, ...]:
        """The values as they were said."""
        return tuple(Quantity(r.value, r.unit, r.u) for r in self.readings)

    @property
    def provisional(self) -> bool:
        """True while one of the readings waits for a person."""
        return any(waits(reading) for reading in self.readings)


def mean(values: tuple[Fraction, ...]) -> Fraction:
    """The mean, exact; needs a value."""
    if len(values) == 1:
        return values[0]
    whole, part = _whole(values)
    return Fraction(sum(whole), len(whole) * part)


def variance(values: tuple[Fraction, ...]) -> Fraction:
    """Σ(x − mean)² / (n − 1), exact (JCGM 100:2008, 4.2.2); needs two values or more.

    As (n·Σx² − (Σx)²) / (n·(n − 1)) over whole numbers, which loses nothing and takes no fraction a value.
    """
    whole, part = _whole(values)
    n = len(whole)
    return Fraction(n * sum(x * x for x in whole) - sum(whole) ** 2, n * (n - 1) * part * part)


def _whole(values: tuple[Fraction, ...]) -> tuple[list[int], int]:
    """The values as whole numbers of one part, and how many of these make 1."""
    part = math.lcm(*(value.denominator for value in values))
    return [value.numerator * (part // value.denominator) for value in values], part


def in_unit(reading: Reading, characteristic: Characteristic | None) -> Fraction | None:
    """The exact value in the characteristic's unit; None where it cannot be told in it."""
    if characteristic is None or reading.unit not in UNITS:
        return None
    return _told_in(reading.value, reading.unit, characteristic.unit)


@lru_cache(maxsize=8192)
def _told_in(value: str, unit: str, to_unit: str) -> Fraction | None:
    return convert(parse_value(value), unit, to_unit) if convertible(unit, to_unit) else None


def groups(record: Record, sheet: Sheet) -> tuple[Group, ...]:
    """All live readings, joined by `repeat_of` where they are of the same thing at the same stage.

    Counted and stamped values are never averaged: each stands alone.
    """
    by_id = {reading.id: reading for reading in record.readings}
    limits = {(part.id, one.id): one for part, one in reversed(list(sheet.characteristics()))}
    roots: dict[str, str] = {}
    found: dict[tuple[str, str | None, str, str | None, Stage, str], list[Reading]] = defaultdict(list)
    for reading in record.readings:
        if reading.superseded_by is not None:
            continue
        characteristic = limits.get((reading.component, reading.characteristic))
        alone = characteristic is None or characteristic.is_count
        alone = alone or in_unit(reading, characteristic) is None
        root = reading.id if alone else _root(reading, by_id, roots)
        place = (reading.component, reading.which, reading.characteristic, reading.place)
        found[(*place, reading.stage, root)].append(reading)
    return tuple(_group(rs, limits.get((rs[0].component, rs[0].characteristic))) for rs in found.values())


def _group(readings: list[Reading], characteristic: Characteristic | None) -> Group:
    first = readings[0]
    values = tuple(value for r in readings if (value := in_unit(r, characteristic)) is not None)
    return Group(
        first.component,
        first.which,
        first.characteristic,
        first.stage,
        tuple(readings),
        values,
        first.place,
        characteristic,
        mean(values) if values else None,
        variance(values) if len(values) > 1 else None,
    )


def _root(reading: Reading, by_id: dict[str, Reading], roots: dict[str, str]) -> str:
    """The first reading of the same thing; where that was replaced, what replaced it.

    *roots* keeps what was found, so that a long chain is gone through once.
    """
    passed: dict[str, None] = {}
    at = reading
    while at.id not in roots:
        passed[at.id] = None
        further = at.repeat_of if at.superseded_by is None or at.repeat_of else at.superseded_by
        if further is None or further in passed or further not in by_id:
            roots[at.id] = at.id
        else:
            at = by_id[further]
    roots.update(dict.fromkeys(passed, roots[at.id]))
    return roots[at.id]
