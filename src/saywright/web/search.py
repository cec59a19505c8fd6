"""Which jobs a person looks for: by serial number, customer, day and part."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace

from saywright.errors import SaywrightError
from saywright.store.protocol import JobRow
from saywright.web import describe
from saywright.web.state import Desk

MAX_SPOKEN = 40  # jobs of the list that are opened to see what was said of them


@dataclass(frozen=True)
class Wanted:
    """What was typed into the search. An empty field asks for nothing."""

    serial: str = ""
    customer: str = ""
    date: str = ""  # the day or its beginning: "2026-03", "2026-03-14"
    part: str = ""

    @property
    def empty(self) -> bool:
        """True where nothing was asked for."""
        return not any((self.serial, self.customer, self.date, self.part))


def found(desk: Desk, wanted: Wanted) -> tuple[JobRow, ...]:
    """The jobs that fit every field, latest first. Case, spaces and hyphens of a serial do not count.

    A serial number that was read out is shown for the newest, whose logs can be held at once.
    """
    rows = [row for row in reversed(desk.store.jobs()) if _fits(desk, row, wanted)]
    newest = [replace(row, serial=_serial(desk, row)) for row in rows[:MAX_SPOKEN]]
    return (*newest, *rows[MAX_SPOKEN:])


def _fits(desk: Desk, row: JobRow, wanted: Wanted) -> bool:
    if wanted.serial and _plain(wanted.serial) not in _plain(_serial(desk, row) or ""):
        return False
    if wanted.customer and wanted.customer.casefold().strip() not in (row.customer or "").casefold():
        return False
    if wanted.date and not row.opened_at.date().isoformat().startswith(wanted.date.strip()):
        return False
    return not wanted.part or _has_part(desk, row, wanted.part.casefold().strip())


def _serial(desk: Desk, row: JobRow) -> str | None:
    """As given, else as read out at the bench. A log that cannot be read must not hide the other jobs."""
    if row.serial is not None:
        return row.serial
    with suppress(SaywrightError):
        return desk.opened(row.id).bench.record().job.serial
    return None


def _has_part(desk: Desk, row: JobRow, part: str) -> bool:
    """True where something is on record about a part of that name."""
    bench = desk.opened(row.id).bench
    about = {
        describe.component_of(item)
        for item in describe.items_of(bench.record())
        if item.superseded_by is None
    }
    named = [bench.sheet.get(component) for component in about if component]
    return any(part in name.casefold() for component in named if component for name in component.names)


def _plain(serial: str) -> str:
    return "".join(character for character in serial.casefold() if character.isalnum())
