"""The document as a tree: sections of blocks, blocks of lines, lines of spans.

The tree knows nothing of pages or markup. A span that shows something from the record carries
its `Evidence`, so that each setting of the tree can lead back to the words it came from.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from saywright.record.types import Decision

Tone = Literal["plain", "strong", "small", "ask", "figure", "tag"]
ProseKind = Literal["paragraph", "list", "caution"]

# Marks that turn the direction of the text around them: they could make "18.4" read as "4.81".
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")


def printable(text: str) -> str:
    """*text* on one line, with control characters and direction marks shown as U+FFFD."""
    flat = " ".join(text.split())
    return "".join(
        "\ufffd" if char in _TURNING or unicodedata.category(char) in ("Cc", "Cs") else char for char in flat
    )


@dataclass(frozen=True, slots=True)
class Evidence:
    """Where something shown comes from."""

    item: str  # id of the item, e.g. "s12"
    event: int | None = (
        None  # sequence number of the event that made or last changed it; None where not logged
    )


@dataclass(frozen=True, slots=True)
class Span:
    """A run of text of one kind."""

    text: str
    tone: Tone = "plain"
    evidence: Evidence | None = None  # None for the document's own words
    mark: Decision | None = None  # drawn before the text
    provisional: bool = False  # the value still asks

    def __post_init__(self) -> None:
        before = " " if self.text.startswith(" ") else ""
        after = " " if self.text.endswith(" ") and self.text.strip() else ""
        object.__setattr__(self, "text", f"{before}{printable(self.text)}{after}")


Line = tuple[Span, ...]


def line(*parts: str | Span) -> Line:
    """A line from strings and spans."""
    return tuple(Span(part) if isinstance(part, str) else part for part in parts)


def plain(of: Line) -> str:
    """The words of a line, without marks."""
    return "".join(span.text for span in of)


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one field of a table, line below line."""

    lines: tuple[Line, ...] = ()

    def __post_init__(self) -> None:
        object.__setattr__(self, "lines", tuple(part for part in self.lines if part))


def cell(*lines: str | Span | Line) -> Cell:
    """A cell; each argument is one line."""
    return Cell(tuple(part if isinstance(part, tuple) else line(part) for part in lines if part != ""))


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table."""

    title: str
    share: float  # of the table's width, relative to the other columns; > 0
    right: bool = False  # set flush right


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table."""

    cells: tuple[Cell, ...]  # as many as columns; one where `heading`
    heading: bool = False  # the one cell spans the table
    anchor: str | None = None  # id of the item that links lead to
    asks: bool = False  # waits for a person


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under columns."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    kind: Literal["table"] = "table"


@dataclass(frozen=True, slots=True)
class Prose:
    """Paragraphs, points of a list, or cautions."""

    lines: tuple[Line, ...]
    style: ProseKind = "paragraph"
    kind: Literal["prose"] = "prose"


@dataclass(frozen=True, slots=True)
class Count:
    """One figure of a tally."""

    count: int
    label: str
    mark: Decision | None = None
    asks: bool = False


@dataclass(frozen=True, slots=True)
class Tally:
    """How many of each decision."""

    counts: tuple[Count, ...]
    kind: Literal["tally"] = "tally"


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with its caption; the bytes are handed to the setter, by `sha256`."""

    evidence: Evidence
    sha256: str
    alt: str  # one line for those who do not see it
    caption: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Pictures:
    """Pictures side by side."""

    pictures: tuple[Picture, ...]
    wide: bool = False  # one a row: each is two pictures in one
    kind: Literal["pictures"] = "pictures"


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing made here, with its caption."""

    svg: str  # our own, no text of the record in it
    alt: str  # one line for those who do not see it
    caption: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Drawings:
    """Drawings side by side."""

    drawings: tuple[Drawing, ...]
    kind: Literal["drawings"] = "drawings"


Block = Table | Prose | Tally | Pictures | Drawings


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the document."""

    id: str
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands behind it."""

    label: str
    value: Line


@dataclass(frozen=True, slots=True)
class Head:
    """What stands at the top of the first page."""

    title: Line
    facts: tuple[Fact, ...]
    signed: bool
    status: str  # "Signed" or "Not signed: draft"
    status_detail: Line  # by whom and when, or what is missing


@dataclass(frozen=True, slots=True)
class Document:
    """The whole report."""

    head: Head
    sections: tuple[Section, ...]
    job: str  # id, printed on each page
    short_hash: str  # first 12 hex digits of the record's hash; "" where there is none
    made_at: datetime  # time of the last event known; the report has no clock of its own

    def section(self, section_id: str) -> Section | None:
        """The section with this id."""
        return next((s for s in self.sections if s.id == section_id), None)
