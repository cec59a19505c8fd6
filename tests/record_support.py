"""What the tests of record have in common."""

from __future__ import annotations

from typing import Any

from saywright.understanding import statements as said


def reading(item_id: str = "s1", **given: Any) -> said.Reading:
    """A float height of 18.40 mm, unless told otherwise."""
    fields = {
        "stage": "as_found",
        "heard": "float height eighteen point four zero",
        "component": "float",
        "characteristic": "height",
        "value": "18.40",
        "unit": "mm",
    }
    return said.Reading.model_validate({"id": item_id, **fields, **given})


def mark(item_id: str, component: str | None = "main_jet") -> said.PhotoMark:
    """A spoken photo mark."""
    return said.PhotoMark(id=item_id, stage="as_found", heard="photo of that", component=component)
