"""The record in formats for other programs and for the terminal."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence

from saywright.errors import RefusedError
from saywright.judging.history import Course
from saywright.record.events import Event
from saywright.record.types import Reading, Record
from saywright.report.csvtext import to_csv
from saywright.report.document import build_document
from saywright.report.parts import parts_csv
from saywright.report.text import to_text
from saywright.sheets.model import Sheet
from saywright.units import UNITS

_READING_COLUMNS = (
    "id", "component", "which", "characteristic", "stage", "value", "unit", "unit_ucum", "unit_said",
    "in_sheet_unit", "sheet_unit", "approximate", "lower", "upper", "allowed", "limit_source", "decision",
    "provisional", "repeat_of", "heard", "start_s", "end_s", "line", "event", "accepted_by", "superseded_by",
    "flags", "place", "taken_on",
)  # fmt: skip


def export(
    record: Record,
    sheet: Sheet,
    format: str,
    *,
    events: Sequence[Event] = (),
    courses: Sequence[Course] = (),
) -> bytes:
    """The judged record as bytes, UTF-8. RefusedError for a format that is not in `FORMATS`."""
    try:
        made = FORMATS[format]
    except KeyError:
        raise RefusedError(
            f"there is no export format '{format}'", to_do=f"Known formats: {', '.join(FORMATS)}"
        ) from None
    return made(record, sheet, events, courses).encode("utf-8")


def _json(record: Record, _sheet: Sheet, _events: Sequence[Event], _past: Sequence[Course]) -> str:
    return json.dumps(record.as_json(), indent=2, ensure_ascii=False) + "\n"


def _csv(record: Record, sheet: Sheet, _events: Sequence[Event], _past: Sequence[Course]) -> str:
    return to_csv(_READING_COLUMNS, (_reading_row(reading, sheet) for reading in record.readings))


def _reading_row(reading: Reading, sheet: Sheet) -> tuple[str | int | None, ...]:
    """One reading; those that no longer hold are kept and name what replaced them."""
    known = sheet.find(reading.component, reading.characteristic)
    lower, upper = known.limits if known else (None, None)
    unit = UNITS.get(reading.unit)
    return (
        reading.id,
        reading.component,
        reading.which,
        reading.characteristic,
        reading.stage,
        reading.value,
        reading.unit,
        unit.ucum if unit else None,
        reading.unit_said,
        reading.in_sheet_unit,
        known.unit if known else None,
        _yes(reading.approximate),
        None if lower is None else str(lower),
        None if upper is None else str(upper),
        " ".join(str(size) for size in known.allowed) if known else None,
        (known.source or sheet.source)
        if known and (known.allowed or lower is not None or upper is not None)
        else None,
        reading.decision,
        _yes(reading.provisional),
        reading.repeat_of,
        reading.heard,
        None if reading.start_s is None else str(reading.start_s),
        None if reading.end_s is None else str(reading.end_s),
        reading.line,
        reading.event,
        reading.accepted_by,
        reading.superseded_by,
        "; ".join(f"{flag.level}: {flag.text}" for flag in reading.flags),
        reading.place,
        None if reading.taken_on is None else reading.taken_on.isoformat(),
    )


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _parts(record: Record, sheet: Sheet, _events: Sequence[Event], _past: Sequence[Course]) -> str:
    return parts_csv(record, sheet)


def _text(record: Record, sheet: Sheet, events: Sequence[Event], past: Sequence[Course]) -> str:
    return to_text(build_document(record, sheet, events=events, with_remarks=True, courses=past))


FORMATS: dict[str, Callable[[Record, Sheet, Sequence[Event], Sequence[Course]], str]] = {
    "json": _json,
    "csv": _csv,
    "parts.csv": _parts,
    "text": _text,
}
