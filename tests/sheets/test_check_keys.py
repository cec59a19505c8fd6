"""The check knows every key that the types have."""

from __future__ import annotations

import pytest

from saywright.sheets import model
from saywright.sheets.form import REQUIRED, SHAPES


@pytest.mark.parametrize(
    ("table", "kind"),
    [
        ("instrument", model.Instrument),
        ("component", model.Component),
        ("characteristic", model.Characteristic),
        ("condition", model.Condition),
        ("action", model.Action),
        ("caution", model.Caution),
        ("word", model.ShopWord),
        ("unit", model.UnitNames),
    ],
)
def test_the_check_knows_the_keys_of_the_types(table: str, kind: type[model.Sheet]) -> None:
    """The list of keys here and the types cannot drift apart, nor can what is required."""
    made_by_merging = {"own_names"}  # never written in a sheet
    assert set(kind.model_fields) - made_by_merging == set(SHAPES[table])
    assert {name for name, field in kind.model_fields.items() if field.is_required()} == set(REQUIRED[table])


def test_the_check_knows_the_keys_of_the_head() -> None:
    """The keys of [sheet] are the fields of a sheet that are no tables."""
    tables = {"instrument", "component", "condition", "action", "caution", "unit", "word"}
    assert set(model.Sheet.model_fields) - tables == set(SHAPES["sheet"])
