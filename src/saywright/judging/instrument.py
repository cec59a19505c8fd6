"""Do the instrument and the voice agree? Where one sent another value than was said, both ask."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from saywright.flags import FlagKind, flag
from saywright.judging.wording import with_unit
from saywright.quantity import parse_value
from saywright.record.types import Reading, Record

_Thing = tuple[str, str | None, str, str | None, str]
_KINDS = (FlagKind.BY_INSTRUMENT, FlagKind.INSTRUMENT_DISAGREES)
_Amount = tuple[str, str, str | None]  # value and unit as they came, value in the sheet's unit


def compared(record: Record) -> Record:
    """*record* with an ask on each reading that differs from one of the same thing that came the other way.

    They agree where the amounts are equal. A value said rounder than it was measured asks too: which
    of the two is meant must not be guessed, and their mean is neither. Comparing again changes nothing.
    """
    if not any(one.kind in _KINDS for reading in record.readings for one in reading.flags):
        return record  # nothing was sent
    # By thing, and whether it was sent: the first reading of each amount.
    live: dict[tuple[_Thing, bool], dict[_Amount, Reading]] = defaultdict(dict)
    for reading in record.readings:
        if reading.superseded_by is None:
            live[_thing(reading), _sent(reading)].setdefault(_amount(reading), reading)
    readings = tuple(_compared(r, live.get((_thing(r), not _sent(r)), {})) for r in record.readings)
    return record if readings == record.readings else record.model_copy(update={"readings": readings})


def _compared(reading: Reading, others: Mapping[_Amount, Reading]) -> Reading:
    """*reading*, asking where one of *others*, which came the other way, differs."""
    kept = tuple(one for one in reading.flags if one.kind is not FlagKind.INSTRUMENT_DISAGREES)
    other = next((o for o in others.values() if not _equal(o, reading)), None)
    if other is not None and reading.superseded_by is None:
        said, measured = (other, reading) if _sent(reading) else (reading, other)
        told = f"{with_unit(said.value, said.unit)} said, {with_unit(measured.value, measured.unit)} sent"
        kept = (*kept, flag(FlagKind.INSTRUMENT_DISAGREES, told))
    return reading if kept == reading.flags else reading.model_copy(update={"flags": kept})


def _thing(reading: Reading) -> _Thing:
    return (reading.component, reading.which, reading.characteristic, reading.place, reading.stage)


def _amount(reading: Reading) -> _Amount:
    return (reading.value, reading.unit, reading.in_sheet_unit)


def _sent(reading: Reading) -> bool:
    """True for a value that an instrument sent itself."""
    return any(one.kind is FlagKind.BY_INSTRUMENT for one in reading.flags)


def _equal(one: Reading, other: Reading) -> bool:
    if one.in_sheet_unit is not None and other.in_sheet_unit is not None:
        return parse_value(one.in_sheet_unit) == parse_value(other.in_sheet_unit)
    return one.unit == other.unit and parse_value(one.value) == parse_value(other.value)
