"""All jobs on one item: what each reading was when it came and when it left."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from saywright.quantity import Quantity
from saywright.record.fold import Folder
from saywright.record.types import Reading, Record
from saywright.sheets.model import Sheet
from saywright.store.protocol import Store


@dataclass(frozen=True, slots=True)
class Line:
    """One characteristic of one part at one visit."""

    component: str
    which: str | None
    characteristic: str
    name: str  # as shown
    found: str | None  # value and unit as said; None where not read
    left: str | None
    asks: bool  # True while one of the values waits for a person


@dataclass(frozen=True, slots=True)
class Visit:
    """One job on the item."""

    job_id: str
    opened_at: datetime
    lines: tuple[Line, ...]


def visits(store: Store, serial: str) -> tuple[Visit, ...]:
    """The jobs on the item with this serial number, oldest first. Case and spaces do not count."""
    found: list[Visit] = []
    for row in store.jobs():
        folder = Folder()
        for event in store.events(row.id):
            folder.apply(event)
        record = folder.record()
        if record.job.serial is not None and _plain(record.job.serial) == _plain(serial):
            found.append(Visit(row.id, row.opened_at, _lines(record, folder.sheet)))
    return tuple(found)


def _plain(serial: str) -> str:
    return "".join(serial.split()).casefold()


def _lines(record: Record, sheet: Sheet) -> tuple[Line, ...]:
    last: dict[tuple[str, str | None, str], dict[str, Reading]] = {}
    for reading in record.readings:
        if reading.superseded_by is None:
            key = (reading.component, reading.which, reading.characteristic)
            last.setdefault(key, {})[reading.stage] = reading
    lines = []
    for (component, which, characteristic), by_stage in last.items():
        known = sheet.find(component, characteristic)
        label = known.label if known else characteristic.replace("_", " ")
        lines.append(
            Line(
                component,
                which,
                characteristic,
                f"{sheet.label(component, which)}, {label}",
                _told(by_stage.get("as_found")),
                _told(by_stage.get("as_left")),
                any(r.asks and r.accepted_by is None for r in by_stage.values()),
            )
        )
    return tuple(lines)


def _told(reading: Reading | None) -> str | None:
    if reading is None:
        return None
    return str(Quantity(reading.value, reading.unit)) + (
        "?" if reading.asks and not reading.accepted_by else ""
    )
