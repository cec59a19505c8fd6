"""The report's words for times, values and limits."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from saywright.record.types import Reading
from saywright.report.wording import (
    clock_text,
    limits_text,
    listed,
    moment_text,
    plural,
    sentence,
    value_text,
)
from saywright.sheets.model import Characteristic


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "00:00.0"), (252.6, "04:12.6"), (59.96, "01:00.0"), (3599.99, "1:00:00.0"), (3725.04, "1:02:05.0")],
)
def test_clock_text_rounds_once(seconds: float, text: str) -> None:
    """Tenths carry into seconds, minutes and hours."""
    assert text == clock_text(seconds)


def _reading(**fields: object) -> Reading:
    base = {"id": "s1", "stage": "as_found", "heard": "x", "component": "float", "characteristic": "height"}
    return Reading.model_validate({**base, "value": "18.40", "unit": "mm", **fields})


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        ({}, "18.40\u00a0mm"),
        ({"approximate": True}, "about 18.40\u00a0mm"),
        ({"value": "4", "unit": "thou", "in_sheet_unit": "0.1016"}, "4\u00a0thou (0.1016\u00a0mm)"),
        ({"value": "1/3", "in_sheet_unit": "0.333333333333"}, "1/3\u00a0mm"),
        ({"value": "2", "unit": "g"}, "2\u00a0g"),
    ],
)
def test_value_keeps_its_digits_and_its_unit_as_said(fields: dict[str, object], text: str) -> None:
    """The conversion stands behind the value, never in its place."""
    assert text == value_text(_reading(**fields), Characteristic(id="height", unit="mm"))


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        ({"lower": "18.0", "upper": "18.8"}, "18.0 to 18.8 mm"),
        ({"lower": "3"}, "at least 3 mm"),
        ({"upper": "0"}, "at most 0 mm"),
        ({"allowed": ("125", "128")}, "125 or 128 mm"),
        ({}, ""),
    ],
)
def test_limits_are_told_with_the_digits_of_the_sheet(fields: dict[str, object], text: str) -> None:
    """18.0 stays 18.0, and no limit is no text."""
    characteristic = Characteristic.model_validate({"id": "x", "unit": "mm", **fields})
    assert text == limits_text(characteristic).replace("\u00a0", " ")


def test_limit_of_zero_is_a_limit() -> None:
    """Zero is not the same as none."""
    assert "" != limits_text(Characteristic(id="x", unit="mm", lower=Decimal(0)))


def test_moment_names_its_zone() -> None:
    """A time of day without a zone would be read as local."""
    assert "14 March 2026, 09:30 UTC" == moment_text(datetime(2026, 3, 14, 9, 30, tzinfo=UTC))


def test_small_words() -> None:
    """Counts and lists read as sentences."""
    assert "1 reading" == plural(1, "reading")
    assert "0 readings" == plural(0, "reading")
    assert "a, b and c" == listed("abc")
    assert "a" == listed("a")
    assert "" == listed([])
    assert "It holds." == sentence("it holds")
    assert "Does it?" == sentence("does it?")
