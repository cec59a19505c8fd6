"""The report in a terminal of 80 columns."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType

import pytest

from saywright.record.fold import fold
from saywright.record.types import Record
from saywright.report.document import build_document
from saywright.report.text import display_width, to_text
from saywright.report.tree import Column, Document, Row, Section, Span, Table, cell
from saywright.sheets.model import Sheet


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_no_line_is_wider_than_asked(document: Document, width: int) -> None:
    """Tables and paragraphs keep to the page."""
    assert max(display_width(text) for text in to_text(document, width=width).splitlines()) <= width


def test_every_reading_is_there_with_its_reference(document: Document, record: Record) -> None:
    """Value and item id stand in the text."""
    text = to_text(document)
    for reading in record.readings:
        assert reading.value in text
        assert f"[{reading.id}]" in text


def test_wide_letters_count_double() -> None:
    """A terminal gives Hangul two columns and a combining accent none."""
    assert 4 == display_width("한글")
    assert 1 == display_width("e\u0301")


def test_hostile_and_long_names_keep_the_width(record: Record, sheet: Sheet) -> None:
    """A word without spaces is cut into lines, and no escape code gets through."""
    job = record.job.model_copy(update={"customer": "x" * 300, "item": "\x1b]0;gone\x07" + "漢" * 90})
    text = to_text(build_document(record.model_copy(update={"job": job}), sheet))
    assert "\x1b" not in text
    assert max(display_width(part) for part in text.splitlines()) <= 80
    assert 300 == text.count("x" * 10) * 10 or text.replace("\n", "").replace(" ", "").count("x" * 300) == 1


def test_remarks_are_shown_where_asked_for(record: Record, sheet: Sheet) -> None:
    """The talk that is not for the record is in the terminal's table, not in the customer's report."""
    words = record.remarks[0].heard
    assert words in to_text(build_document(record, sheet, with_remarks=True))
    assert words not in to_text(build_document(record, sheet))


def test_empty_record(sample: ModuleType) -> None:
    """Nothing said is told in words."""
    log = sample.Log(sample.sheet())
    assert "No readings were recorded." in to_text(build_document(fold(log.events), log.sheet))


def test_a_reference_is_not_broken(document: Document) -> None:
    """A column is as wide as its longest reference, however small its share."""
    columns = (Column("Item", 0.1), Column("Words", 9))
    row = Row((cell(Span("s1267", tone="tag")), cell("x " * 90)))
    told = to_text(replace(document, sections=(Section("x", "X", (Table(columns, (row,)),)),)))
    assert "[s1267]" in told
    assert max(display_width(part) for part in told.splitlines()) <= 80
