"""Readings of one thing that belong together: the value judged is their mean."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from saywright.quantity import Quantity, parse_value
from saywright.record.types import Reading, Record
from saywright.sheets.model import Characteristic, Sheet, Stage
from saywright.units import UNITS, convert, convertible


@dataclass(frozen=True, slots=True)
class Group:
    """One reading, or several of the same thing at the same stage."""

    component: str
    which: str | None
    characteristic: str
    stage: Stage
    readings: tuple[Reading, ...]  # in the order said, at least one
    values: tuple[Fraction, ...]  # exact, in the characteristic's unit; empty where they cannot be told in it
    place: str | None = None  # on the part

    @property
    def mean(self) -> Fraction | None:
        """The mean, exact; None where the values cannot be told in the characteristic's unit."""
        return sum(self.values, Fraction(0)) / len(self.values) if self.values else None

    @property
    def spread(self) -> Fraction | None:
        """s², the experimental variance (n − 1 below), exact; None for a single value."""
        return variance(self.values) if len(self.values) > 1 else None

    @property
    def range(self) -> Fraction | None:
        """The largest less the smallest, exact; None for a single value."""
        return max(self.values) - min(self.values) if len(self.values) > 1 else None

    @property
    def said(self) -> tuple[Quantity, ...]:
        """The values as they were said."""
        return tuple(Quantity(r.value, r.unit, r.u) for r in self.readings)

    @property
    def provisional(self) -> bool:
        """True while one of the readings waits for a person."""
        return any(waits(reading) for reading in self.readings)


def variance(values: tuple[Fraction, ...]) -> Fraction:
    """Σ(x − mean)² / (n − 1), exact (JCGM 100:2008, 4.2.2); needs two values or more."""
    mean = sum(values, Fraction(0)) / len(values)
    return sum(((x - mean) ** 2 for x in values), Fraction(0)) / (len(values) - 1)


def waits(item: Reading) -> bool:
    """True where a reading asks and no person has answered."""
    return item.asks and item.accepted_by is None


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
    found: dict[tuple[str, str | None, str, str | None, Stage, str], list[Reading]] = defaultdict(list)
    for reading in record.readings:
        if reading.superseded_by is not None:
            continue
        characteristic = sheet.find(reading.component, reading.characteristic)
        alone = characteristic is None or characteristic.is_count
        root = reading.id if alone or in_unit(reading, characteristic) is None else _root(reading, by_id)
        place = (reading.component, reading.which, reading.characteristic, reading.place)
        found[(*place, reading.stage, root)].append(reading)
    return tuple(_group(readings, sheet) for readings in found.values())


def _group(readings: list[Reading], sheet: Sheet) -> Group:
    first = readings[0]
    characteristic = sheet.find(first.component, first.characteristic)
    values = [value for r in readings if (value := in_unit(r, characteristic)) is not None]
    return Group(
        first.component,
        first.which,
        first.characteristic,
        first.stage,
        tuple(readings),
        tuple(values),
        first.place,
    )


def _root(reading: Reading, by_id: dict[str, Reading]) -> str:
    """The first reading of the same thing; where that was replaced, what replaced it."""
    seen = {reading.id}
    at = reading
    while True:
        further = at.repeat_of if at.superseded_by is None or at.repeat_of else at.superseded_by
        if further is None or further in seen or further not in by_id:
            return at.id
        seen.add(further)
        at = by_id[further]
