"""Texts of the record become harmless when the tree is built."""

from __future__ import annotations

import pytest

from saywright.report.tree import Span, cell, line, plain, printable


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("main jet", "main jet"),
        ("two\nlines\tand more", "two lines and more"),
        ("\u202e4.81", "\ufffd4.81"),
        ("bell\x07", "bell\ufffd"),
        ("\x1b[31mred", "\ufffd[31mred"),
        ("lone \ud800", "lone \ufffd"),
        ("18.42 ± 0.03 µm × 20°", "18.42 ± 0.03 µm × 20°"),
        ("한글 Øre", "한글 Øre"),
    ],
)
def test_control_and_direction_marks_are_shown_as_such(text: str, shown: str) -> None:
    """Nothing in a text can move the cursor or turn a number around."""
    assert shown == printable(text)


def test_span_keeps_a_space_at_its_edges() -> None:
    """Words of neighbouring spans do not run together."""
    assert "float height 18.4 mm" == plain(line("float height ", Span("18.4"), " mm"))


def test_line_of_one_space_stays_one_space() -> None:
    """A gap between two spans is not doubled."""
    assert " " == Span("  ").text


def test_empty_lines_leave_no_gap_in_a_cell() -> None:
    """A cell holds only lines that say something."""
    assert 1 == len(cell("", (), "size").lines)
