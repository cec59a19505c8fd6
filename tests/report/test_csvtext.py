"""CSV that no spreadsheet runs, and that keeps numbers as they are."""

from __future__ import annotations

import csv
import io

import pytest

from saywright.report.csvtext import safe_cell, to_csv


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+CMD", "-2+3", "@SUM(A1)", "\tx", "\rx", " =1+1", "-1/0", "+1+1", "=-3"],
)
def test_formula_gets_an_apostrophe(text: str) -> None:
    """A cell that a spreadsheet would compute is made text (OWASP, CSV Injection; from memory)."""
    assert f"'{text}" == safe_cell(text)


@pytest.mark.parametrize("text", ["-3", "-0.25", "+4.10", "-1/3", "18.40", "", "main jet", "a=b", "−2"])
def test_number_and_plain_text_stay(text: str) -> None:
    """A negative number is a number, and a name is a name."""
    assert text == safe_cell(text)


def test_quotes_commas_and_line_ends_come_back_whole() -> None:
    """What a CSV reader reads is what was written."""
    rows = [['say "when"', "a,b", "two\nlines", None, 4]]
    text = to_csv(("a", "b", "c", "d", "e"), rows)
    assert [['say "when"', "a,b", "two\nlines", "", "4"]] == list(csv.reader(io.StringIO(text, newline="")))[
        1:
    ]


def test_lines_end_as_the_format_says() -> None:
    """RFC 4180, 2.1: each record ends with CR LF."""
    assert "a\r\n1\r\n" == to_csv(("a",), [["1"]])
