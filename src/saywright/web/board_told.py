"""One item → what the board says of it in large letters: part, value, unit, verdict, gauge. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from saywright.flags import FlagKind
from saywright.quantity import decimal_text, parse_value
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    Photo,
    Reading,
    Unclear,
)
from saywright.sheets.model import Characteristic, Sheet
from saywright.units import get_unit
from saywright.web import describe

# How a decision is called on the board, and the shape that goes with it.
VERDICTS = {
    "conforms": "in limits",
    "does_not_conform": "out of limits",
    "undecided": "too near the limit",
    "no_limit": "no limit",
}
DIRECTIONS = {"removed": "off", "fitted": "on"}


@dataclass(frozen=True, slots=True)
class Gauge:
    """Where a value lies, in the unit of the sheet; None for a side without a limit."""

    low: float  # left end of the scale
    high: float  # right end
    lower: float | None
    upper: float | None
    value: float  # between `low` and `high`; at the end where it lies beyond
    beyond: bool  # the value lies off the scale


@dataclass(frozen=True, slots=True)
class Told:
    """One thing understood."""

    id: str
    kind: str
    stage: str
    part: str  # as shown; "" where none was named
    name: str  # of the characteristic, or what kind of thing it is; "" where the value tells that
    value: str  # the digits, or the words that tell it
    unit: str  # as shown; "" for none
    about: bool  # said as approximate
    limits: str  # as shown; "" for none
    decision: str  # id; "" for anything but a reading
    verdict: str  # in words; "" for anything but a reading
    by: str  # "said", "typed", "data key"
    asks: tuple[str, ...]
    heard: str
    gauge: Gauge | None


def told(item: Item, sheet: Sheet) -> Told:
    """The item as the board shows it."""
    asks = tuple(f.text for f in item.flags if f.level == "ask") if not item.accepted_by else ()
    part = describe.about(item, sheet)
    if isinstance(item, Reading):
        return _reading(item, sheet, part, asks)
    name, value = _words(item, sheet)
    return Told(
        id=item.id,
        kind=item.kind,
        stage=item.stage,
        part=part,
        name=name,
        value=value,
        unit="",
        about=False,
        limits="",
        decision="",
        verdict="",
        by=_by(item),
        asks=asks or (("it was not understood",) if isinstance(item, Unclear) else ()),
        heard=item.heard,
        gauge=None,
    )


def _reading(item: Reading, sheet: Sheet, part: str, asks: tuple[str, ...]) -> Told:
    characteristic = sheet.find(item.component, item.characteristic)
    name = characteristic.label if characteristic else item.characteristic.replace("_", " ")
    shown = describe.amount(item.value, item.unit)
    return Told(
        id=item.id,
        kind=item.kind,
        stage=item.stage,
        part=part,
        name=_without(name, part),
        value=item.value,
        unit=shown[len(item.value) :].strip(),
        about=item.approximate,
        limits=describe.limits_text(characteristic),
        decision=item.decision,
        verdict=verdict(item, characteristic),
        by=_by(item),
        asks=asks,
        heard=item.heard,
        gauge=gauge(item, characteristic),
    )


def _without(name: str, part: str) -> str:
    """The name without what the part says already: "bore" of the "inlet seat" for "seat bore"."""
    words = part.split()
    for first in range(len(words)):
        begins = " ".join(words[first:]) + " "
        if name.startswith(begins):
            return name.removeprefix(begins)
    return name


def verdict(item: Reading, characteristic: Characteristic | None) -> str:
    """The decision in words, and by how much where it is out: "out of limits, 0.22 mm over"."""
    words = VERDICTS[item.decision]
    if item.decision != "does_not_conform" or characteristic is None or item.in_sheet_unit is None:
        return words
    value, (lower, upper) = Fraction(item.in_sheet_unit), characteristic.limits
    symbol = get_unit(characteristic.unit).symbol
    if upper is not None and value > Fraction(upper):
        return f"{words}, {decimal_text(value - Fraction(upper), 6)} {symbol}".rstrip() + " over"
    if lower is not None and value < Fraction(lower):
        return f"{words}, {decimal_text(Fraction(lower) - value, 6)} {symbol}".rstrip() + " under"
    return words


def gauge(item: Reading, characteristic: Characteristic | None) -> Gauge | None:
    """The scale to draw; None where there is no limit, or only permitted sizes."""
    if characteristic is None or item.in_sheet_unit is None or characteristic.allowed:
        return None
    lower, upper = (None if limit is None else float(limit) for limit in characteristic.limits)
    value = float(parse_value(item.in_sheet_unit))
    if lower is not None and upper is not None:
        room = (upper - lower) * 0.75 or abs(upper) * 0.1 or 1.0
        low, high = lower - room, upper + room
    elif upper is not None:
        low, high = upper - (abs(upper) or 1.0), upper + (abs(upper) or 1.0) * 0.6
    elif lower is not None:
        low, high = lower - (abs(lower) or 1.0) * 0.6, lower + (abs(lower) or 1.0)
    else:
        return None
    inside = min(max(value, low), high)
    return Gauge(low, high, lower, upper, inside, beyond=inside != value)


def _words(item: Item, sheet: Sheet) -> tuple[str, str]:
    """What kind of thing it is, and what it says, in few words."""
    match item:
        case Condition():
            return describe.STAGES[item.stage], describe.condition_text(item, sheet)
        case Action():
            many = f" × {item.quantity}" if item.quantity is not None else ""
            return describe.STATUSES[item.status], sheet.action_label(item.action) + many
        case Movement():
            count = f"{item.count} " if item.count > 1 else ""
            age = f"{item.part} one{'s' if item.count > 1 else ''} " if item.part else ""
            return "", f"{count}{age}{DIRECTIONS[item.movement]}"
        case Identifier():
            part = ", only part of it" if item.partial else ""
            return describe.IDENTIFIERS[item.identifier] + part, item.value
        case Photo():
            return "picture", describe.photo_text(item, sheet)
        case Unclear():
            return "not understood", item.heard
        case _:
            return "", describe.item_text(item, sheet)


def _by(item: Item) -> str:
    kinds = {flag.kind for flag in item.flags}
    if getattr(FlagKind, "BY_INSTRUMENT", None) in kinds:
        return "data key"
    return "typed" if item.start_s is None else "said"
