"""The record as JSON: the names that other programs read."""

from __future__ import annotations

from datetime import UTC, datetime

import jsonschema
import pytest

from saywright.record.types import Identifier, Job, Record, json_schema

AT = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
JOB = Job(id="20260301-1", title="Bilge pump", sheet="pump", sheet_revision="A", opened_at=AT)


@pytest.mark.parametrize("kind", ["serial", "part_number", "stamp", "tag"])
def test_the_kind_of_an_identifier_is_that_of_the_number(kind: str) -> None:
    """`kind` tells serial from stamp; the schema says so, and the JSON reads back as the same record."""
    item = Identifier.model_validate(
        {"id": "s1", "stage": "as_found", "heard": "b four seven", "identifier": kind, "value": "B47"}
    )
    record = Record(job=JOB, identifiers=(item,))
    plain = record.as_json()
    assert kind == plain["identifiers"][0]["kind"]
    assert "identifier" not in plain["identifiers"][0]
    jsonschema.validate(plain, json_schema(), cls=jsonschema.Draft202012Validator)
    assert record == Record.model_validate(plain)


def test_the_schema_refuses_another_kind() -> None:
    """What is no kind of identifier is no record of this schema."""
    item = Identifier(id="s1", stage="as_found", heard="b four seven", identifier="stamp", value="B47")
    plain = Record(job=JOB, identifiers=(item,)).as_json()
    plain["identifiers"][0]["kind"] = "identifier"
    with pytest.raises(jsonschema.ValidationError, match="'identifier' is not one of"):
        jsonschema.validate(plain, json_schema(), cls=jsonschema.Draft202012Validator)
