"""Forms that enter what was not said, and that make two items of one. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from saywright.errors import InputError, NotFoundError
from saywright.record.types import Action, Condition, Item, Movement, Reading
from saywright.sheets.model import Sheet
from saywright.web.forms import NONE, Field, changes_from, fields_for

KINDS = {
    "reading": "Reading",
    "condition": "Condition",
    "action": "Action",
    "movement": "Part off or on",
}
PIECES = ("a", "b")  # the two that an item is split into; their inputs are named "a-value", "b-value"


def blank(kind: str, sheet: Sheet) -> Item:
    """An item to fill in; NotFoundError for a kind that cannot be entered on this sheet."""
    common = {"id": "new", "stage": "as_found", "heard": ""}
    measurands = tuple(sheet.characteristics())
    if kind == "reading" and measurands:
        component, characteristic = measurands[0]
        about = {"component": component.id, "characteristic": characteristic.id}
        return Reading.model_validate({**common, **about, "value": NONE, "unit": characteristic.unit})
    if kind == "condition" and sheet.condition:
        return Condition.model_validate({**common, "component": None, "condition": sheet.condition[0].id})
    if kind == "action" and sheet.action:
        return Action.model_validate(
            {**common, "component": None, "action": sheet.action[0].id, "status": "done"}
        )
    if kind == "movement" and sheet.component:
        about = {"component": sheet.component[0].id, "movement": "removed"}
        return Movement.model_validate({**common, **about, "count": 1})
    raise NotFoundError("there is no such form for this sheet", where=kind[:40], to_do="Choose another kind")


def entry_fields(kind: str, sheet: Sheet) -> tuple[Field, ...]:
    """The inputs of the form; the unit may be left to the sheet."""
    return tuple(
        replace(field, value=NONE, options=((NONE, "the sheet's"), *field.options))
        if (kind, field.name) == ("reading", "unit")
        else field
        for field in fields_for(blank(kind, sheet), sheet)
    )


def entered(kind: str, sheet: Sheet, sent: Mapping[str, list[str]]) -> dict[str, Any]:
    """The fields of the statement that the form makes; InputError where an input cannot be read."""
    item = blank(kind, sheet)
    given = {name: values for name, values in sent.items() if (name, values) != ("unit", [NONE])}
    changes = changes_from(item, sheet, given, some=False)
    if kind == "reading" and not changes.get("value"):
        raise InputError("nothing was given", where="Value", to_do="Fill it in")
    fields = item.model_dump(exclude_none=True, exclude={"id", "heard", "flags", "decision", "provisional"})
    fields |= changes
    if kind == "reading" and "unit" not in given:
        known = sheet.find(fields["component"], fields["characteristic"])
        fields["unit"] = known.unit if known else "1"
    return fields


def pieces(item: Item, sheet: Sheet, sent: Mapping[str, list[str]]) -> list[dict[str, Any]]:
    """In what each of the two differs from *item*; InputError where neither does."""
    found: list[dict[str, Any]] = []
    for piece in PIECES:
        own = {name.removeprefix(f"{piece}-"): v for name, v in sent.items() if name.startswith(f"{piece}-")}
        found.append(changes_from(item, sheet, own, some=False))
    if not any(found):
        to_do = "Change a field of one of the two, or leave the item as it is"
        raise InputError("both would say the same", to_do=to_do)
    return found
