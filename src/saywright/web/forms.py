"""The form that corrects an item: its fields, and what a person changed in them. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from saywright.errors import InputError
from saywright.quantity import decimal_text, parse_value
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    Photo,
    Reading,
)
from saywright.sheets.model import Sheet
from saywright.units import UNITS
from saywright.web import describe

NONE = ""  # the choice "not said"
_SEPARATOR = " / "
Options = tuple[tuple[str, str], ...]  # value, shown


@dataclass(frozen=True)
class Field:
    """One input of the form."""

    name: str
    label: str
    kind: Literal["text", "number", "choice", "several"]
    value: str | tuple[str, ...]  # as it stands now
    options: Options = ()


def _choice(name: str, label: str, value: str | None, options: Options) -> Field:
    """A choice; the present value is offered even where the sheet does not know it."""
    now = value or NONE
    known = any(now == option for option, _ in options)
    return Field(name, label, "choice", now, options if known else ((now, now or "not said"), *options))


def _optional(options: Options) -> Options:
    return ((NONE, "not said"), *options)


def _labels(labels: Mapping[str, str]) -> Options:
    return tuple(labels.items())


def _components(sheet: Sheet) -> Options:
    return tuple((component.id, component.label) for component in sheet.component)


def _whiches(sheet: Sheet) -> Options:
    names = dict.fromkeys(which for component in sheet.component for which in component.whiches)
    return tuple((name, name) for name in names)


def _measurands(sheet: Sheet) -> Options:
    return tuple(
        (f"{component.id}{_SEPARATOR}{characteristic.id}", f"{component.label}: {characteristic.label}")
        for component, characteristic in sheet.characteristics()
    )


def _units(sheet: Sheet) -> Options:
    kinds = {UNITS[c.unit].kind for _, c in sheet.characteristics() if c.unit in UNITS}
    return tuple(
        (unit.code, unit.symbol or "a plain number") for unit in UNITS.values() if unit.kind in kinds
    )


def fields_for(item: Item, sheet: Sheet) -> tuple[Field, ...]:
    """The inputs that correct this item; empty for a remark or what was not understood."""
    match item:
        case Reading():
            own = _reading_fields(item, sheet)
        case Condition():
            own = _condition_fields(item, sheet)
        case Action():
            own = _action_fields(item, sheet)
        case Movement():
            own = _movement_fields(item, sheet)
        case Identifier():
            own = _identifier_fields(item, sheet)
        case Photo():
            own = _photo_fields(item, sheet)
        case _:
            return ()
    return (*own, _choice("stage", "Stage", item.stage, _labels(describe.STAGES)))


def _part_fields(item: Item, sheet: Sheet) -> tuple[Field, Field]:
    """Which part, and which of several."""
    components = _components(sheet)
    if not isinstance(item, Movement):
        components = _optional(components)
    return (
        _choice("component", "Part", describe.component_of(item), components),
        _choice("which", "Which one", describe.which_of(item), _optional(_whiches(sheet))),
    )


def _conditions(sheet: Sheet) -> Options:
    return tuple((condition.id, condition.label) for condition in sheet.condition)


def _reading_fields(item: Reading, sheet: Sheet) -> tuple[Field, ...]:
    measurand = f"{item.component}{_SEPARATOR}{item.characteristic}"
    return (
        Field("value", "Value", "text", item.value),
        _choice("unit", "Unit", item.unit, _units(sheet)),
        _choice("measurand", "Part and characteristic", measurand, _measurands(sheet)),
        _part_fields(item, sheet)[1],
    )


def _condition_fields(item: Condition, sheet: Sheet) -> tuple[Field, ...]:
    severities = _optional(tuple((text, text) for text in ("slight", "moderate", "severe")))
    found = (("yes", "present"), ("no", "not present"))
    return (
        _choice("condition", "Condition", item.condition, _conditions(sheet)),
        _choice("present", "Found", "yes" if item.present else "no", found),
        _choice("severity", "How bad", item.severity, severities),
        *_part_fields(item, sheet),
    )


def _action_fields(item: Action, sheet: Sheet) -> tuple[Field, ...]:
    names = tuple((action.id, action.label) for action in sheet.action)
    return (
        _choice("action", "Action", item.action, names),
        _choice("status", "How far", item.status, _labels(describe.STATUSES)),
        Field("quantity", "How many", "number", "" if item.quantity is None else str(item.quantity)),
        *_part_fields(item, sheet),
    )


def _movement_fields(item: Movement, sheet: Sheet) -> tuple[Field, ...]:
    return (
        _choice("movement", "Off or on", item.movement, _labels(describe.DIRECTIONS)),
        Field("count", "How many", "number", str(item.count)),
        _choice("part", "Old or new", item.part, _optional((("old", "old"), ("new", "new")))),
        *_part_fields(item, sheet),
    )


def _identifier_fields(item: Identifier, sheet: Sheet) -> tuple[Field, ...]:
    return (
        Field("value", "Number or mark", "text", item.value),
        _choice("identifier", "Kind", item.identifier, _labels(describe.IDENTIFIERS)),
        _choice(
            "partial", "Read", "yes" if item.partial else "no", (("no", "whole"), ("yes", "only part of it"))
        ),
        _part_fields(item, sheet)[0],
    )


def _photo_fields(item: Photo, sheet: Sheet) -> tuple[Field, ...]:
    unknown = tuple((name, name) for name in item.conditions if sheet.get_condition(name) is None)
    shows = Field("conditions", "Shows", "several", item.conditions, (*_conditions(sheet), *unknown))
    return (*_part_fields(item, sheet), shows)


def _whole(text: str, label: str) -> int:
    """The whole number that was typed."""
    if not text.isascii() or not text.isdigit():
        raise InputError(f"'{text}' is not a whole number", where=label, to_do="Write it in digits, like 2")
    return int(text)


def _digits(text: str, label: str) -> str:
    """The value that was typed, its digits kept."""
    try:
        exact = parse_value(text)
    except InputError as error:
        raise InputError(error.what, where=label, to_do=error.to_do) from None
    plain = text.replace("−", "-").replace(",", ".")
    return plain if plain.isascii() else decimal_text(exact)


_READ: dict[tuple[str, str], Callable[[str, str], Any]] = {
    ("reading", "value"): _digits,
    ("movement", "count"): _whole,
    ("action", "quantity"): lambda text, label: _whole(text, label) if text else None,
    ("condition", "present"): lambda text, _: text == "yes",
    ("identifier", "partial"): lambda text, _: text == "yes",
}


def changes_from(
    item: Item, sheet: Sheet, sent: Mapping[str, list[str]], *, some: bool = True
) -> dict[str, Any]:
    """The fields a person changed, each with its new value; InputError where an input cannot be read.

    With *some*, InputError also where nothing was changed.
    """
    changes: dict[str, Any] = {}
    for field in fields_for(item, sheet):
        if field.kind != "several" and field.name not in sent:
            continue
        given = [text.strip() for text in sent.get(field.name, [])]
        allowed = {option for option, _ in field.options}
        strange = [text for text in given if field.options and text not in allowed]
        if strange:
            raise InputError(
                f"'{strange[0]}' is not one of the choices", where=field.label, to_do="Choose from the list"
            )
        if field.kind == "several":
            if set(given) != set(field.value):
                changes[field.name] = tuple(given)
        elif given[0] != field.value:
            changes.update(_change(item, field, given[0]))
    if some and not changes:
        raise InputError("nothing was changed", to_do="Change a field, or accept the item as it is")
    return changes


def wanted(item: Item, sheet: Sheet, sent: Mapping[str, list[str]]) -> tuple[str, ...]:
    """What was typed, one line an input, for a person whose form came too late."""
    shown = [
        (field.label, sent.get(field.name, []), dict(field.options)) for field in fields_for(item, sheet)
    ]
    lines = [
        f"{label}: {', '.join(options.get(v, v) for v in values)}"
        for label, values, options in shown
        if values
    ]
    typed = (("Why", "why"), ("Words", "words"))
    return (*lines, *(f"{label}: {sent[name][0]}" for label, name in typed if sent.get(name, [""])[0]))


def _change(item: Item, field: Field, text: str) -> dict[str, Any]:
    """One changed input as fields of the item."""
    if field.name == "measurand":
        component, _, characteristic = text.partition(_SEPARATOR)
        return {"component": component, "characteristic": characteristic}
    read = _READ.get((item.kind, field.name))
    if read:
        return {field.name: read(text, field.label)}
    if text == NONE and (field.kind == "text" or not any(option == NONE for option, _ in field.options)):
        raise InputError("nothing was given", where=field.label, to_do="Fill it in")
    return {field.name: text or None}
