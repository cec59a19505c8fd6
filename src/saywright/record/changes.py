"""What a person's correction makes of an item: every field checked against the item's kind and the sheet.

A correction that cannot be right is refused whole, in one line; nothing of it is applied.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from saywright.errors import InputError, RefusedError
from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import decimal_text, parse_value
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    Photo,
    Reading,
    Remark,
    Unclear,
)
from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.units import UNITS, convert, convertible, get_unit

# Fields a person may change, by kind of item.
EDITABLE: dict[type[Item], tuple[str, ...]] = {
    Reading: ("component", "which", "characteristic", "place", "value", "unit", "stage", "approximate"),
    Condition: ("component", "which", "condition", "present", "severity", "stage"),
    Action: ("component", "which", "action", "status", "quantity", "stage"),
    Movement: ("component", "which", "count", "movement", "part", "stage"),
    Identifier: ("component", "identifier", "value", "partial", "stage"),
    Photo: ("component", "which", "conditions", "stage"),
    Remark: ("component", "which", "characteristic", "value", "unit", "stage"),
    Unclear: ("component", "which", "characteristic", "value", "unit", "stage"),
}
LONGEST_VALUE = 30  # characters; judging takes roots and probabilities, which are no exact numbers
_PLACE = {"component", "which", "characteristic", "place", "stage"}


def exact_value(reading_value: str, unit: str, characteristic: Characteristic | None) -> str | None:
    """The value told in the characteristic's unit, as decimal text; None where it cannot be told in it."""
    if characteristic is None or unit not in UNITS or not convertible(unit, characteristic.unit):
        return None
    if unit == characteristic.unit and "/" not in reading_value:
        return reading_value
    return decimal_text(convert(parse_value(reading_value), unit, characteristic.unit))


def correct_item(item: Item, changes: Mapping[str, Any], *, actor: str, why: str, sheet: Sheet) -> Item:
    """*item* with *changes* made by *actor*: accepted, its asks answered, a note of what it was before.

    Words that were not understood become a reading when component, characteristic and value are given.
    RefusedError, one line, for an unknown field or a value that cannot stand in it.
    """
    if item.superseded_by is not None:
        raise RefusedError(
            f"the item was replaced by {item.superseded_by}", where=item.id, to_do="Change that one instead"
        )
    if not changes:
        to_do = "Name a field and its new value"
        raise RefusedError("nothing to change was given", where=item.id, to_do=to_do)
    for field in changes:
        if field not in EDITABLE[type(item)]:
            raise RefusedError(
                f"a {_kind_name(item)} has no field '{field}' to change",
                where=item.id,
                to_do=f"Fields: {', '.join(EDITABLE[type(item)])}",
            )
    clean = {field: _cleaned(item.id, item, field, value) for field, value in changes.items()}
    values = _promoted(item, clean, sheet) if isinstance(item, Remark | Unclear) else _merged(item, clean)
    target = Reading if isinstance(item, Remark | Unclear) else type(item)
    values["accepted_by"] = actor
    values["flags"] = _answered(item, clean, why)
    try:
        changed: Item = target.model_validate(values)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(map(str, first["loc"]))
        what = f"'{first['input']}' cannot be the {field}: {first['msg']}"
        if first["input"] is None:
            what = f"the {field} cannot be left out"
        raise RefusedError(what, where=item.id) from None
    check_names(changed, sheet)
    return _with_sheet_unit(changed, sheet) if isinstance(changed, Reading) else changed


def _kind_name(item: Item) -> str:
    return type(item).__name__.lower()


def _cleaned(item_id: str, item: Item, field: str, value: Any) -> Any:
    """Numbers written as people write them, made plain; texts stripped; '' for None."""
    if isinstance(value, str):
        value = value.strip() or None
    if field == "unit":
        try:
            get_unit(str(value))
        except InputError as error:
            raise RefusedError(error.what, where=item_id, to_do=error.to_do) from None
    if field == "quantity" and value is not None and not _is_count(value):
        to_do = "Give a whole number from 1, or nothing"
        raise RefusedError(f"'{value}' is no number of parts", where=item_id, to_do=to_do)
    if field != "value" or isinstance(item, Identifier):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        value = str(value)
    if not isinstance(value, str):
        what = "no value was given" if value is None else f"'{value}' is not a value written as text"
        raise RefusedError(what, where=item_id, to_do="Write it like '18.40', so that its digits are kept")
    try:
        parse_value(value)
    except InputError as error:
        raise RefusedError(error.what, where=item_id, to_do=error.to_do) from None
    return value.replace("−", "-").replace(",", ".")


def _is_count(value: Any) -> bool:
    if isinstance(value, str):
        return value.isascii() and value.isdigit() and int(value) > 0
    return isinstance(value, int) and not isinstance(value, bool) and value > 0


def _merged(item: Item, clean: Mapping[str, Any]) -> dict[str, Any]:
    values = {**item.model_dump(), **clean}
    if isinstance(item, Reading):
        if clean.keys() & {"value", "unit"}:
            values["u"] = values["picture"] = None  # no longer what was measured
        if "value" in clean:
            values["probability"] = None
            values["approximate"] = clean.get("approximate", False)
        if clean.get("unit", item.unit) != item.unit:
            values["unit_said"] = None
        if any(clean[field] != getattr(item, field) for field in _PLACE & clean.keys()):
            values["repeat_of"] = None
    if "component" in clean and clean["component"] != getattr(item, "component", None) and "which" in values:
        values["which"] = clean.get("which")
    return values


def _promoted(item: Remark | Unclear, clean: Mapping[str, Any], sheet: Sheet) -> dict[str, Any]:
    """The fields of a reading made from words that were not understood."""
    component = clean.get("component") or getattr(item, "component", None)
    lacking = [] if component else ["component"]
    lacking += [field for field in ("characteristic", "value") if field not in clean]
    if lacking:
        raise RefusedError(
            f"to make a reading of these words, {' and '.join(lacking)} must be given too",
            where=item.id,
            to_do="Give component, characteristic and value, or withdraw the item",
        )
    characteristic = sheet.find(component, clean["characteristic"])
    values = {**item.model_dump(exclude={"kind", "reason", "component"}), **clean, "component": component}
    values.setdefault("unit", characteristic.unit if characteristic else "1")
    return values


def _answered(item: Item, clean: Mapping[str, Any], why: str) -> tuple[Flag, ...]:
    """The flags left: asks are answered, and what was there before is noted."""
    old = {field: getattr(item, field, None) for field in clean}
    before = [f"{field} was {value}" for field, value in old.items() if value is not None]
    detail = ", ".join(before) + (f" ({why})" if why and before else why)
    dropped = {FlagKind.UNIT_FROM_SHEET} if "unit" in clean else set()
    kept = tuple(f for f in item.flags if f.level == "note" and f.kind not in dropped)
    return (*kept, flag(FlagKind.BY_PERSON, detail))


def check_names(item: Item, sheet: Sheet) -> None:
    """Refuse names the sheet does not have: a part nobody can find again is a lost value.

    Refuse a reading of more digits than anything is measured to.
    """
    component_id = getattr(item, "component", None)
    component = sheet.get(component_id)
    if component_id is not None and component is None:
        raise RefusedError(
            f"the sheet has no component '{component_id}'",
            where=item.id,
            to_do=f"Components: {', '.join(c.id for c in sheet.component)}",
        )
    if component is not None:
        check_which(component, getattr(item, "which", None), where=item.id)
    if isinstance(item, Reading) and len(item.value) > LONGEST_VALUE:
        what = f"a value of {len(item.value)} characters is none that was measured"
        raise RefusedError(what, where=item.id, to_do=f"Write it with {LONGEST_VALUE} at the most")
    if component is not None and isinstance(item, Reading):
        _check_characteristic(item, component.label, component.get(item.characteristic), sheet)
    conditions: tuple[str, ...] = (item.condition,) if isinstance(item, Condition) else ()
    conditions = item.conditions if isinstance(item, Photo) else conditions
    for condition in conditions:
        if sheet.get_condition(condition) is None:
            raise RefusedError(
                f"the sheet has no condition '{condition}'",
                where=item.id,
                to_do=f"Conditions: {', '.join(c.id for c in sheet.condition)}",
            )
    if isinstance(item, Action) and sheet.get_action(item.action) is None:
        raise RefusedError(
            f"the sheet has no action '{item.action}'",
            where=item.id,
            to_do=f"Actions: {', '.join(a.id for a in sheet.action)}",
        )


def check_which(component: Component, which: str | None, *, where: str) -> None:
    """Refuse a position that the component does not have; None, not said which, is none."""
    if which is not None and which not in component.whiches:
        there = ", ".join(component.whiches) or "none, only one is fitted"
        raise RefusedError(
            f"there is no {component.label} '{which}'", where=where, to_do=f"Positions: {there}"
        )


def _check_characteristic(item: Reading, label: str, found: Characteristic | None, sheet: Sheet) -> None:
    if found is None:
        component = sheet.get(item.component)
        known = ", ".join(c.id for c in component.characteristic) if component else ""
        raise RefusedError(
            f"the {label} has no characteristic '{item.characteristic}'",
            where=item.id,
            to_do=f"Characteristics: {known or 'none'}",
        )
    if item.place is not None and found.places and item.place not in found.places:
        raise RefusedError(
            f"the {found.label} is not read at '{item.place}'",
            where=item.id,
            to_do=f"Places: {', '.join(found.places)}",
        )
    if not convertible(item.unit, found.unit):
        raise RefusedError(
            f"'{item.unit}' does not measure the {found.label}",
            where=item.id,
            to_do=f"Give the unit too, one that converts to '{found.unit}'",
        )


def _with_sheet_unit(reading: Reading, sheet: Sheet) -> Reading:
    characteristic = sheet.find(reading.component, reading.characteristic)
    told = exact_value(reading.value, reading.unit, characteristic)
    return reading.model_copy(update={"in_sheet_unit": told})
