"""Rows as CSV (RFC 4180) that a spreadsheet opens without running anything."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from saywright.errors import InputError
from saywright.quantity import parse_value

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def safe_cell(text: str) -> str:
    """*text* with an apostrophe before it where a spreadsheet would take it for a formula.

    A signed number is a number, not a formula, and stays as it is. Cells that begin with
    = + - @, a tab or a line end: OWASP, "CSV Injection" (from memory). Spaces before count too,
    since some programs strip them.
    """
    if not text.lstrip(" ").startswith(_FORMULA):
        return text
    try:
        parse_value(text)
    except InputError:
        return f"'{text}"
    return text


def to_csv(header: Sequence[str], rows: Iterable[Sequence[str | int | None]]) -> str:
    """Lines ended by CR LF, a header first; None is an empty cell."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(["" if value is None else safe_cell(str(value)) for value in row])
    return out.getvalue()
