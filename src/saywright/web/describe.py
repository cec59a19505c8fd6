"""An item of the record → the words that tell it. Pure."""

from __future__ import annotations

from saywright.quantity import Quantity
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    Photo,
    Reading,
    Record,
    Remark,
    Unclear,
)
from saywright.sheets.model import Characteristic, Sheet
from saywright.units import get_unit

DECISIONS = {
    "conforms": "conforms",
    "does_not_conform": "does not conform",
    "undecided": "undecided, too near a limit",
    "no_limit": "no limit",
}
STAGES = {"as_found": "as found", "as_left": "as left"}
STATUSES = {"proposed": "to be done", "done": "done", "declined": "decided against"}
DIRECTIONS = {"removed": "removed", "fitted": "fitted"}
IDENTIFIERS = {"serial": "serial number", "part_number": "part number", "stamp": "stamp", "tag": "tag"}
KINDS = {
    "reading": "Reading",
    "condition": "Condition",
    "action": "Action",
    "movement": "Part off or on",
    "identifier": "Number or mark",
    "photo": "Photo",
    "remark": "Remark",
    "unclear": "Not understood",
}


def amount(value: str, unit: str) -> str:
    """Value and unit as printed: "18.42 mm"; a plain number has no unit."""
    return str(Quantity(value, unit))


def reading_text(item: Reading) -> str:
    """The value as said, with "about" where it was approximate."""
    text = amount(item.value, item.unit)
    return f"about {text}" if item.approximate else text


def condition_text(item: Condition, sheet: Sheet) -> str:
    """The condition, its severity, and whether it was found absent."""
    name = sheet.condition_label(item.condition)
    if not item.present:
        return f"not {name}"
    return f"{name}, {item.severity}" if item.severity else name


def action_text(item: Action, sheet: Sheet) -> str:
    """The action, how many, and how far it is."""
    name = sheet.action_label(item.action)
    many = f" × {item.quantity}" if item.quantity is not None else ""
    return f"{name}{many}: {STATUSES[item.status]}"


def movement_text(item: Movement) -> str:
    """How many came off or went on, and whether they are old or new."""
    age = f", {item.part}" if item.part else ""
    return f"{item.count} {DIRECTIONS[item.movement]}{age}"


def identifier_text(item: Identifier) -> str:
    """What kind of number, and the number."""
    part = " (only part of it read)" if item.partial else ""
    return f"{IDENTIFIERS[item.identifier]} {item.value}{part}"


def photo_text(item: Photo, sheet: Sheet) -> str:
    """What the picture shows, as it was said."""
    labels = [sheet.condition_label(condition) for condition in item.conditions]
    shown = ", ".join(labels)
    return f"photo: {shown}" if shown else "photo"


def item_text(item: Item, sheet: Sheet) -> str:
    """The item in a few words, its component left out."""
    match item:
        case Reading():
            characteristic = sheet.find(item.component, item.characteristic)
            name = characteristic.label if characteristic else item.characteristic.replace("_", " ")
            return f"{name} {reading_text(item)}"
        case Condition():
            return condition_text(item, sheet)
        case Action():
            return action_text(item, sheet)
        case Movement():
            return movement_text(item)
        case Identifier():
            return identifier_text(item)
        case Photo():
            return photo_text(item, sheet)
        case Unclear():
            return item.reason or "looks like a measurement"
        case Remark():
            return item.reason or "kept as said"


def value_text(item: Item, sheet: Sheet) -> str:
    """The item where its name stands beside it: the bare value of a reading, the file name of a picture."""
    if isinstance(item, Reading):
        return reading_text(item)
    if isinstance(item, Photo) and item.name:
        return item.name
    return item_text(item, sheet)


def component_of(item: Item) -> str | None:
    """The id of the component it is about; None where none was named."""
    return None if isinstance(item, Remark) else item.component


def which_of(item: Item) -> str | None:
    """Which of several it is about; None where one is fitted or it was not said."""
    return None if isinstance(item, Remark | Unclear | Identifier) else item.which


def about(item: Item, sheet: Sheet) -> str:
    """The component's shown name, or "" for an item without one."""
    component = component_of(item)
    return sheet.label(component, which_of(item)) if component else ""


def stage_of(item: Item) -> str:
    """At which stage that is how things were; "" for what was done, moved or only said."""
    return "" if isinstance(item, Action | Movement | Remark) else STAGES[item.stage]


def limits_text(characteristic: Characteristic | None) -> str:
    """The limits as printed: "18.0 to 18.8 mm", "at most 0.05 mm", "125, 128 or 130"; "" for none."""
    if characteristic is None:
        return ""
    unit = characteristic.unit
    if characteristic.allowed:
        *head, last = [f"{size:f}" for size in characteristic.allowed]
        sizes = f"{', '.join(head)} or {last}" if head else last
        return f"{sizes} {get_unit(unit).symbol}".rstrip()
    lower, upper = characteristic.limits
    if lower is not None and upper is not None:
        return f"{lower:f} to {amount(f'{upper:f}', unit)}"
    if upper is not None:
        return f"at most {amount(f'{upper:f}', unit)}"
    if lower is not None:
        return f"at least {amount(f'{lower:f}', unit)}"
    return "as left equal to as found" if characteristic.restore else ""


def limits_of(item: Item, sheet: Sheet) -> str:
    """The limits of a reading as printed; "" for anything else."""
    if not isinstance(item, Reading):
        return ""
    return limits_text(sheet.find(item.component, item.characteristic))


def items_of(record: Record) -> tuple[Item, ...]:
    """Every item of the record, in the order of its kinds, then as recorded."""
    return (
        *record.readings,
        *record.conditions,
        *record.actions,
        *record.movements,
        *record.identifiers,
        *record.photos,
        *record.unclear,
        *record.remarks,
    )
