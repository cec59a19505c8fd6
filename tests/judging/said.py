"""Short ways to put items into a record, for the tests of judging."""

from __future__ import annotations

from typing import Any

from saywright.flags import FlagKind, flag
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Movement,
    Photo,
    Reading,
    Record,
    Remark,
    Unclear,
)

ASK = (flag(FlagKind.HEARINGS_DISAGREE, "125 or 128"),)


def reading(item_id: str, value: str = "18.42", **given: Any) -> Reading:
    """A float height in mm, as found."""
    fields = {
        "stage": "as_found",
        "heard": f"heard {value}",
        "component": "float",
        "characteristic": "height",
        "value": value,
        "unit": "mm",
    }
    return Reading.model_validate({"id": item_id, **fields, **given})


def condition(item_id: str, component: str | None, name: str, **given: Any) -> Condition:
    """A condition, as found."""
    fields = {"stage": "as_found", "heard": "heard", "component": component, "condition": name}
    return Condition.model_validate({"id": item_id, **fields, **given})


def action(item_id: str, component: str | None, name: str, status: str, **given: Any) -> Action:
    """An action, as found."""
    fields = {"stage": "as_found", "heard": "heard", "component": component, "action": name, "status": status}
    return Action.model_validate({"id": item_id, **fields, **given})


def movement(item_id: str, component: str, way: str, count: int = 1, **given: Any) -> Movement:
    """Parts off or on; what goes on is as left."""
    fields = {
        "stage": "as_found" if way == "removed" else "as_left",
        "heard": "heard",
        "component": component,
        "movement": way,
        "count": count,
    }
    return Movement.model_validate({"id": item_id, **fields, **given})


def other(kind: type[Any], item_id: str, **given: Any) -> Any:
    """An item of another kind."""
    return kind.model_validate({"id": item_id, "stage": "as_found", "heard": "heard", **given})


def record_of(empty: Record, *items: Any) -> Record:
    """The empty record with these items in their lists."""
    lists: dict[type[Any], str] = {
        Reading: "readings",
        Condition: "conditions",
        Action: "actions",
        Movement: "movements",
        Identifier: "identifiers",
        Photo: "photos",
        Remark: "remarks",
        Unclear: "unclear",
    }
    update: dict[str, tuple[Any, ...]] = {}
    for item in items:
        name = lists[type(item)]
        update[name] = (*update.get(name, ()), item)
    return empty.model_copy(update=update)
