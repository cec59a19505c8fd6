"""What the tests of report have in common."""

from __future__ import annotations

from collections.abc import Iterator

from saywright.report.tree import Document, Pictures, Prose, Row, Section, Span, Table, plain


def spans(section: Section) -> Iterator[Span]:
    for block in section.blocks:
        match block:
            case Table():
                for row in block.rows:
                    for field in row.cells:
                        for part in field.lines:
                            yield from part
            case Prose():
                for part in block.lines:
                    yield from part
            case Pictures():
                for picture in block.pictures:
                    for part in picture.caption:
                        yield from part


def section_of(document: Document, name: str) -> Section:
    found = document.section(name)
    assert found is not None
    return found


def rows_of(document: Document, name: str) -> list[Row]:
    tables = [block for block in section_of(document, name).blocks if isinstance(block, Table)]
    return [row for table in tables for row in table.rows]


def words_of(row: Row) -> list[str]:
    return [" / ".join(plain(part) for part in field.lines).replace("\u00a0", " ") for field in row.cells]


def row_with(document: Document, name: str, words: str) -> list[str]:
    return next(row for row in map(words_of, rows_of(document, name)) if any(words in field for field in row))
