"""The question an item that asks puts to a person, in plain words."""

from __future__ import annotations

from saywright.flags import FlagKind
from saywright.judging.wording import capital, thing, with_unit
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
from saywright.sheets.model import Sheet

_STATUS = {"proposed": "to be done", "done": "done", "declined": "decided against"}
_IDENTIFIER = {"serial": "serial number", "part_number": "part number", "stamp": "stamp", "tag": "tag"}


def question(item: Item, sheet: Sheet) -> str:
    """What is asked, the words it was heard as, and each reason for asking."""
    asked = _asked(item, sheet)
    heard = f" It was heard as “{item.heard}”." if item.heard and not _quotes(item) else ""
    reasons = [f"{capital(flag.text)}." for flag in item.flags if flag.level == "ask"]
    return " ".join([asked + heard, *reasons])


def _quotes(item: Item) -> bool:
    """True where the question itself quotes the words."""
    return not isinstance(item, Reading | Condition | Action | Movement | Identifier)


def _asked(item: Item, sheet: Sheet) -> str:
    match item:
        case Reading():
            name = thing(sheet, item.component, item.which, item.characteristic, item.place)
            return f"Is the {name} {with_unit(item.value, item.unit)}?"
        case Condition():
            return _of_condition(item, sheet)
        case Action():
            label = sheet.action_label(item.action)
            part = (
                f"for the {sheet.label(item.component, item.which)}"
                if item.component
                else "for a part not named"
            )
            return f"Is “{label}” {_STATUS[item.status]} {part}?"
        case Movement():
            way = "come off" if item.movement == "removed" else "go on"
            age = f"{item.part} " if item.part else ""
            return f"Did {item.count} × {age}{sheet.label(item.component, item.which)} {way}?"
        case Identifier():
            name = _IDENTIFIER[item.identifier]
            part = f" of the {sheet.label(item.component)}" if item.component else ""
            return f"Is the {name}{part} “{item.value}”?"
        case Photo():
            return _of_photo(item, sheet)
        case Unclear():
            part = f" on the {sheet.label(item.component)}" if item.component else ""
            return f"What was measured{part} in “{item.heard}”?"
        case _:
            return f"What was meant by “{item.heard}”?"


def _of_condition(item: Condition, sheet: Sheet) -> str:
    label = sheet.condition_label(item.condition)
    words = label if item.present else f"not {label}"
    if item.component is None:
        return f"Which part is {words}?"
    return f"Is the {sheet.label(item.component, item.which)} {words}?"


def _of_photo(item: Photo, sheet: Sheet) -> str:
    if any(flag.kind is FlagKind.PHOTO_MATCH_UNCLEAR for flag in item.flags):
        at = f"the mark “{item.heard}”" if item.heard else f"the {sheet.label(item.component, item.which)}"
        return f"Does the picture {item.name} belong to {at}?"
    if item.component is None:
        return f"Which part does the photo “{item.heard}” show?"
    return f"Does the photo “{item.heard}” show the {sheet.label(item.component, item.which)}?"
