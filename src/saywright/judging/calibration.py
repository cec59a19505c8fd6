"""Readings taken with an instrument whose calibration was overdue: noted, and judged all the same."""

from __future__ import annotations

from datetime import date

from saywright.flags import Flag, FlagKind, flag
from saywright.record.types import Reading, Record
from saywright.sheets.model import Instrument, Sheet


def overdue(record: Record, sheet: Sheet) -> dict[str, Instrument]:
    """Reading id → its instrument, where the calibration of that was due before the day it was taken.

    The day is that of the event which brought the reading; without one, the day the job was opened.
    """
    dated = {one.id: one for one in reversed(sheet.instrument) if one.calibration_due is not None}
    by = {
        (component.id, one.id): dated[one.instrument]
        for component, one in sheet.characteristics()
        if one.instrument in dated and not one.is_count
    }
    late = {}
    for reading in record.readings if by else ():
        instrument = by.get((reading.component, reading.characteristic))
        if instrument is not None and _is_late(instrument, _day(reading, record)):
            late[reading.id] = instrument
    return late


def with_note(reading: Reading, late: Instrument | None) -> Reading:
    """The reading with the note where it belongs, and without where it does not."""
    kept = tuple(f for f in reading.flags if f.kind is not FlagKind.CALIBRATION_OVERDUE)
    flags = (*kept, _note(late)) if late is not None else kept
    return reading if flags == reading.flags else reading.model_copy(update={"flags": flags})


def overdue_sentence(instrument: Instrument) -> str:
    """For the report."""
    due = instrument.calibration_due
    return f"The calibration of the {instrument.label} was overdue: it was due on {due}."


def _note(instrument: Instrument) -> Flag:
    return flag(FlagKind.CALIBRATION_OVERDUE, f"{instrument.label}, due {instrument.calibration_due}")


def _is_late(instrument: Instrument, day: date) -> bool:
    return instrument.calibration_due is not None and day > instrument.calibration_due


def _day(reading: Reading, record: Record) -> date:
    return reading.taken_on or record.job.opened_at.date()
