"""The document as plain text for a terminal: tables of a fixed width, marks as letters in brackets.

Pure strings without colour codes; control characters were taken out when the tree was built.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from saywright.record.types import Decision
from saywright.report.tree import Cell, Document, Drawings, Line, Pictures, Prose, Section, Table, Tally

_MARKS: dict[Decision, str] = {
    "conforms": "[=] ",
    "does_not_conform": "[X] ",
    "undecided": "[/] ",
    "no_limit": "[ ] ",
}
_GAP = 2  # columns between two fields


def to_text(document: Document, *, width: int = 80) -> str:
    """The whole document in lines of at most *width* columns (40 or more)."""
    lines = [*_head_lines(document, width)]
    for section in document.sections:
        lines += ["", *_section_lines(section, width)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def display_width(text: str) -> int:
    """Columns that *text* takes in a terminal: wide characters two, marks on another letter none."""
    return sum(_columns(char) for char in text)


def _columns(char: str) -> int:
    if unicodedata.combining(char) or unicodedata.category(char) == "Cf":
        return 0
    return 2 if unicodedata.east_asian_width(char) in ("W", "F") else 1


def _head_lines(document: Document, width: int) -> list[str]:
    head = document.head
    lines = ["=" * width, *_wrapped(_words(head.title), width), "=" * width]
    label_width = max(len(fact.label) for fact in head.facts) + _GAP
    for fact in head.facts:
        for number, part in enumerate(_wrapped(_words(fact.value), width - label_width)):
            lines.append(f"{'' if number else fact.label:<{label_width}}{part}")
    status = _wrapped(f"{head.status}. {_words(head.status_detail)}", width)
    return [*lines, "", *status]


def _section_lines(section: Section, width: int) -> list[str]:
    lines = [section.title.upper(), "-" * width]
    for number, block in enumerate(section.blocks):
        if number:
            lines.append("")
        match block:
            case Table():
                lines += _table_lines(block, width)
            case Tally():
                lines += _tally_lines(block, width)
            case Pictures():
                for picture in block.pictures:
                    first, *rest = [
                        part for text in picture.caption for part in _wrapped(_words(text), width - 2)
                    ]
                    lines += [first, *(f"  {part}" for part in rest)]
            case Drawings():
                for drawing in block.drawings:
                    lines += _wrapped(drawing.alt[:1].upper() + drawing.alt[1:], width)
            case Prose():
                lines += _prose_lines(block, width)
    return lines


def _prose_lines(block: Prose, width: int) -> list[str]:
    bullet = {"paragraph": "", "list": "* ", "caution": "! "}[block.style]
    lines: list[str] = []
    for part in block.lines:
        wrapped = _wrapped(_words(part), width - len(bullet))
        lines += [f"{' ' * len(bullet) if number else bullet}{text}" for number, text in enumerate(wrapped)]
    return lines


def _tally_lines(block: Tally, width: int) -> list[str]:
    words = "   ".join(
        f"{_MARKS[count.mark] if count.mark else ''}{count.count} {count.label}".replace(" ", "\u00a0")
        for count in block.counts
    )
    return [line.replace("\u00a0", " ") for line in _wrapped(words, width, keep=True)]


def _table_lines(table: Table, width: int) -> list[str]:
    widths = _column_widths(table, width)
    rights = [column.right for column in table.columns]
    lines = [*_row_lines([[column.title] for column in table.columns], widths, rights), "-" * width]
    for number, row in enumerate(table.rows):
        if row.heading:
            lines += ([""] if number else []) + _wrapped(_words(row.cells[0].lines[0]), width)
            continue
        lines += _row_lines([_cell_lines(field) for field in row.cells], widths, rights)
    return lines


def _column_widths(table: Table, width: int) -> list[int]:
    """Columns of the page for each field, by share, no field below its longest title word or reference."""
    room = width - _GAP * (len(table.columns) - 1)
    total = sum(column.share for column in table.columns)
    least = [
        max(5, _longest_tag(table, at), *(len(word) for word in column.title.split()))
        for at, column in enumerate(table.columns)
    ]
    widths = [
        max(low, int(room * column.share / total)) for low, column in zip(least, table.columns, strict=True)
    ]
    while sum(widths) > room:
        widest = max(range(len(widths)), key=lambda index: widths[index] - least[index])
        widths[widest] -= 1
    widths[max(range(len(widths)), key=lambda index: table.columns[index].share)] += room - sum(widths)
    return widths


def _longest_tag(table: Table, column: int) -> int:
    """Columns that the longest reference in a column takes with its brackets; 0 where it has none."""
    tags = (
        span.text.strip()
        for row in table.rows
        if not row.heading
        for part in row.cells[column].lines
        for span in part
        if span.tone == "tag"
    )
    return max((len(tag) + len("[]") for tag in tags), default=0)


def _cell_lines(field: Cell) -> list[str]:
    return [_words(part) for part in field.lines]


def _row_lines(fields: Sequence[Sequence[str]], widths: Sequence[int], rights: Sequence[bool]) -> list[str]:
    wrapped = [
        [part for text in field for part in _wrapped(text, width)]
        for field, width in zip(fields, widths, strict=True)
    ]
    lines = []
    for number in range(max((len(field) for field in wrapped), default=0)):
        parts = [
            _padded(field[number] if number < len(field) else "", width, right=right)
            for field, width, right in zip(wrapped, widths, rights, strict=True)
        ]
        lines.append((" " * _GAP).join(parts))
    return lines


def _padded(text: str, width: int, *, right: bool) -> str:
    gap = " " * max(0, width - display_width(text))
    return gap + text if right else text + gap


def _words(part: Line) -> str:
    """The line with its marks; a provisional value has a question mark behind it."""
    words = ""
    for span in part:
        shown = f" [{span.text.strip()}]" if span.tone == "tag" else span.text
        doubt = "?" if span.provisional and span.tone == "figure" else ""
        words += f"{_MARKS[span.mark] if span.mark else ''}{shown}{doubt}"
    return words.strip()


def _wrapped(text: str, width: int, *, keep: bool = False) -> list[str]:
    """*text* broken at spaces, longer words anywhere. A no-break space holds, unless it cannot."""
    lines: list[str] = []
    current = ""
    for word in text.split("   " if keep else " "):
        candidate = f"{current}{'   ' if keep else ' '}{word}" if current else word
        if display_width(candidate) <= width:
            current = candidate
            continue
        if current:
            lines.append(current)
        *whole, current = _broken(word, width)
        lines += whole
    return [*lines, current] if current or not lines else lines


def _broken(word: str, width: int) -> list[str]:
    """A word in pieces of at most *width* columns."""
    pieces, piece = [], ""
    for char in word:
        if piece and display_width(piece + char) > width:
            pieces.append(piece)
            piece = ""
        piece += char
    return [*pieces, piece]
