"""Exports: what another program reads is what the record holds."""

from __future__ import annotations

import csv
import io
import json
from types import ModuleType

import jsonschema
import pytest

from saywright.errors import RefusedError
from saywright.record.fold import fold
from saywright.record.types import Record, json_schema
from saywright.report.export import FORMATS, export
from saywright.sheets.model import Sheet


def _rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8"), newline="")))


def test_json_is_the_record_and_fits_its_schema(record: Record, sheet: Sheet) -> None:
    """The export is valid by the schema that goes with it, and reads back as the same record."""
    data = json.loads(export(record, sheet, "json"))
    jsonschema.Draft202012Validator(json_schema()).validate(data)
    assert record == Record.model_validate(data)


def test_csv_has_each_reading_with_its_digits_and_event(record: Record, sheet: Sheet) -> None:
    """One row a reading, nothing rounded, also those that no longer hold."""
    rows = {row["id"]: row for row in _rows(export(record, sheet, "csv"))}
    assert {reading.id for reading in record.readings} == set(rows)
    for reading in record.readings:
        row = rows[reading.id]
        assert reading.value == row["value"]
        assert str(reading.event) == row["event"]
        assert reading.decision == row["decision"]
        assert ("yes" if reading.provisional else "no") == row["provisional"]


def test_csv_tells_limits_their_source_and_the_unit_code(record: Record, sheet: Sheet) -> None:
    """Limits keep the sheet's digits; units go out in UCUM too ([mil_i] is the thou)."""
    rows = {row["id"]: row for row in _rows(export(record, sheet, "csv"))}
    height = next(row for row in rows.values() if row["characteristic"] == "height")
    thou = next(row for row in rows.values() if row["unit"] == "thou")
    assert ("18.0", "18.8", "Invented for the demo") == (
        height["lower"],
        height["upper"],
        height["limit_source"],
    )
    assert ("[mil_i]", "0.1016", "mm") == (thou["unit_ucum"], thou["in_sheet_unit"], thou["sheet_unit"])


def test_csv_keeps_formulas_from_running_and_negative_numbers_whole(record: Record, sheet: Sheet) -> None:
    """A value below zero stays a number; spoken words that look like a formula do not run."""
    first = record.readings[0].model_copy(update={"value": "-0.25", "heard": '=HYPERLINK("x")'})
    row = _rows(export(record.model_copy(update={"readings": (first,)}), sheet, "csv"))[0]
    assert "-0.25" == row["value"]
    assert '\'=HYPERLINK("x")' == row["heard"]


def test_parts_list_names_part_reason_and_evidence(record: Record, sheet: Sheet) -> None:
    """The jet that was asked for, one, with the sheet's number and what it rests on."""
    row = _rows(export(record, sheet, "parts.csv"))[0]
    action = record.actions[0]
    assert ("main jet", "1", "MJ-128-N") == (row["component"], row["quantity"], row["part_number"])
    assert "chewed" in row["reason"]
    assert f"{action.id}@{action.event}" in row["evidence"].split()


def test_parts_list_of_nothing_is_a_header(sample: ModuleType) -> None:
    """No orders, no rows."""
    log = sample.Log(sample.sheet())
    assert [] == _rows(export(fold(log.events), log.sheet, "parts.csv"))


@pytest.mark.parametrize("name", list(FORMATS))
def test_every_format_takes_an_empty_record(sample: ModuleType, name: str) -> None:
    """A job that was only opened can be exported."""
    log = sample.Log(sample.sheet())
    assert export(fold(log.events), log.sheet, name)


def test_unknown_format_is_refused_with_the_known_ones(record: Record, sheet: Sheet) -> None:
    """One line: what is wrong, and which formats there are."""
    with pytest.raises(RefusedError) as caught:
        export(record, sheet, "docx")
    known = "json, csv, parts.csv, text"
    assert f"there is no export format 'docx'. Known formats: {known}" == str(caught.value)
