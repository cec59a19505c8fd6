"""The files of tests/cases/speech and tools/corpus: words, and what they mean. Pure but for reading them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Identifier,
    Movement,
    PhotoMark,
    Reading,
    Statement,
    Unclear,
)


@dataclass(frozen=True, slots=True)
class Talk:
    """One talk: utterances with what each must give."""

    sheet: str
    why: str
    lines: tuple[tuple[str, tuple[str, ...]], ...]  # words, case lines


def read_talks(path: Path) -> list[Talk]:
    """Every talk of a file. ValueError names a line that is none."""
    talks: list[Talk] = []
    sheet = why = ""
    lines: list[tuple[str, list[str]]] = []

    def close() -> None:
        if lines:
            talks.append(Talk(sheet, why, tuple((words, tuple(rows)) for words, rows in lines)))
        lines.clear()

    for number, raw in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        key, _, rest = raw.partition(":")
        if not raw.strip() or raw.startswith("#"):
            continue
        if key in ("sheet", "why"):
            close()
            sheet, why = (rest.strip(), why) if key == "sheet" else (sheet, rest.strip())
        elif raw.startswith(">"):
            lines.append((raw[1:].strip(), []))
        elif raw.startswith(" ") and lines:
            lines[-1][1].append(" ".join(raw.split()))
        else:
            raise ValueError(f"{path.name}:{number}: not a case line: {raw}")
    close()
    return talks


def told(statement: Statement) -> str | None:
    """The case line of a statement, without stage and ask; None for a remark and a correction."""
    match statement:
        case Reading():
            place = f"@{statement.place}" if statement.place else ""
            named = f"{_part(statement)}.{statement.characteristic}{place}"
            return f"reading {named} {statement.value} {statement.unit}"
        case ConditionNote():
            text = f"condition {_part(statement)} {statement.condition}"
            text += "" if statement.present else " not"
            return text + (f" {statement.severity}" if statement.severity else "")
        case ActionNote():
            text = f"action {_part(statement)} {statement.action} {statement.status}"
            return text + (f" x{statement.quantity}" if statement.quantity else "")
        case Movement():
            text = f"movement {_part(statement)} {statement.movement} {statement.count}"
            return text + (f" {statement.part}" if statement.part else "")
        case Identifier():
            partial = " partial" if statement.partial else ""
            return f"identifier {statement.identifier} {statement.value}{partial}"
        case PhotoMark():
            return f"photo {_part(statement)}"
        case Unclear():
            return "unclear"
        case _:
            return None


def plain(row: str) -> str:
    """A case line without stage and ask."""
    for mark in (" asks?", " asks", " as_left"):
        row = row.replace(mark, "")
    return row


def kind_of(row: str) -> str:
    """The first word of a case line."""
    return row.partition(" ")[0]


def _part(statement: ConditionNote | ActionNote | Movement | PhotoMark | Reading) -> str:
    component = statement.component or "-"
    return f"{component}/{statement.which}" if statement.which else component
