"""The words the report has for values, times, parts and decisions."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import TypeVar

from saywright.judging import wording as judged
from saywright.quantity import decimal_text, parse_value
from saywright.record.types import Decision, Item, Reading, waits
from saywright.report.tree import Evidence, Line, Span
from saywright.sheets.model import Characteristic, Sheet
from saywright.understanding.statements import Said

DECISION_WORDS: dict[Decision, str] = {
    "conforms": "conforms",
    "does_not_conform": "does not conform",
    "undecided": "undecided",
    "no_limit": "no limit set",
}

_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def plural(count: int, one: str, many: str | None = None) -> str:
    """Like "1 reading", "3 readings"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(words: Iterable[str]) -> str:
    """Like "a, b and c"."""
    parts = list(words)
    return ", ".join(parts[:-1]) + " and " + parts[-1] if len(parts) > 1 else "".join(parts)


def sentence(text: str) -> str:
    """*text* with a capital first letter and a full stop."""
    stripped = text.strip()
    if not stripped:
        return ""
    return stripped[0].upper() + stripped[1:] + ("" if stripped[-1] in ".?!" else ".")


def clock_text(seconds: float) -> str:
    """Seconds from the start of the recording as "04:12.6", from an hour on "1:04:12.6"."""
    tenths = round(seconds * 10)
    minutes, rest = divmod(tenths, 600)
    hours, minutes = divmod(minutes, 60)
    head = f"{hours}:{minutes:02d}" if hours else f"{minutes:02d}"
    return f"{head}:{rest // 10:02d}.{rest % 10}"


def day_text(at: datetime) -> str:
    """Like "25 November 2026"."""
    return f"{at.day} {_MONTHS[at.month - 1]} {at.year}"


def moment_text(at: datetime) -> str:
    """Like "25 November 2026, 13:08 UTC"; the zone is named where it is known."""
    zone = at.tzname()
    return f"{day_text(at)}, {at:%H:%M}{f' {zone}' if zone else ''}"


def place_text(said: Said) -> str:
    """Where in the source it was said: a time, a line, or that a person entered it."""
    if said.start_s is not None:
        return clock_text(said.start_s)
    if said.line is not None:
        return f"line {said.line}"
    return "entered by hand"


def with_unit(text: str, code: str) -> str:
    """A value and its unit, with a no-break space between."""
    return judged.with_unit(text, code).replace(" ", "\u00a0")


def value_text(reading: Reading, characteristic: Characteristic | None) -> str:
    """The value as said, and behind it in the sheet's unit where another was said."""
    said = f"{'about ' if reading.approximate else ''}{with_unit(reading.value, reading.unit)}"
    if characteristic and reading.unit != characteristic.unit and reading.in_sheet_unit is not None:
        return f"{said} ({with_unit(_short(reading.in_sheet_unit), characteristic.unit)})"
    return said


def _short(text: str) -> str:
    """A converted value to 6 places at most: enough for any bench, and a line does not run over."""
    return decimal_text(parse_value(text), max_places=6)


def limits_text(characteristic: Characteristic | None) -> str:
    """Like "18.0 to 18.8 mm", "at most 8.06 mm" or "125, 128 or 130"; "" where there is no limit."""
    if characteristic is None or not (
        characteristic.allowed or any(b is not None for b in characteristic.limits)
    ):
        return ""
    return judged.limits_text(characteristic)


def evidence(item: Item) -> Evidence:
    """Where the item comes from."""
    return Evidence(item.id, item.event)


def ref(item: Item) -> Span:
    """The small reference that leads to the item's row in the trace."""
    return Span(f" {item.id}", tone="tag", evidence=evidence(item))


def part_text(sheet: Sheet, component: str | None, which: str | None = None) -> str:
    """The part's shown name; "the job" where no part was named."""
    return sheet.label(component, which) if component else "no part named"


def asks_line(item: Item) -> Line:
    """What still asks about the item, in the words of its flags; empty where nothing does."""
    if not waits(item):
        return ()
    texts = [flag.text for flag in item.flags if flag.level == "ask"]
    return (Span("asks: " + "; ".join(texts), tone="ask"),)


_ItemT = TypeVar("_ItemT", bound=Item)


def current(items: Iterable[_ItemT]) -> list[_ItemT]:
    """Those that hold: neither replaced nor withdrawn."""
    return [item for item in items if item.superseded_by is None]
