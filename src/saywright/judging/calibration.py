"""Readings taken with an instrument whose calibration was overdue: noted, and judged all the same."""

from __future__ import annotations

from datetime import date

from saywright.flags import Flag, FlagKind, flag
from saywright.record.types import Reading, Record
from saywright.sheets.model import Instrument, Sheet


def overdue(reading: Reading, record: Record, sheet: Sheet) -> Instrument | None:
    """The instrument of this reading, where its calibration was due before the day it was taken.

    The day is that of the event which brought the reading; without one, the day the job was opened.
    """
    characteristic = sheet.find(reading.component, reading.characteristic)
    if characteristic is None or characteristic.is_count:
        return None
    instrument = sheet.get_instrument(characteristic.instrument)
    if instrument is None or instrument.calibration_due is None:
        return None
    return instrument if _day(reading, record) > instrument.calibration_due else None


def with_note(reading: Reading, record: Record, sheet: Sheet) -> Reading:
    """The reading with the note where it belongs, and without where it does not."""
    kept = tuple(f for f in reading.flags if f.kind is not FlagKind.CALIBRATION_OVERDUE)
    late = overdue(reading, record, sheet)
    flags = (*kept, _note(late)) if late is not None else kept
    return reading if flags == reading.flags else reading.model_copy(update={"flags": flags})


def overdue_sentence(instrument: Instrument) -> str:
    """For the report."""
    due = instrument.calibration_due
    return f"The calibration of the {instrument.label} was overdue: it was due on {due}."


def _note(instrument: Instrument) -> Flag:
    return flag(FlagKind.CALIBRATION_OVERDUE, f"{instrument.label}, due {instrument.calibration_due}")


def _day(reading: Reading, record: Record) -> date:
    return reading.taken_on or record.job.opened_at.date()
