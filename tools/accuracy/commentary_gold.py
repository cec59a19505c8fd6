"""A whole commentary with the record that should stand at its end: read, and checked against its sheet."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from saywright.sheets.load import load_sheet
from saywright.sheets.model import Component, Sheet

from .cases import Talk, read_talks
from .paths import sheet_name

KINDS = ("readings", "conditions", "actions", "movements")
_ROWS = {"reading": "readings", "condition": "conditions", "action": "actions", "movement": "movements"}
_UNSCORED = {"trap", "photo", "identifier", "unclear", "corrected", "command"}
Item = dict[str, Any]  # fields of `scoring.KEYS`, and the line that said it


def paths_in(given: Iterable[Path]) -> list[Path]:
    """The commentaries at these paths: files, or the text files of folders."""
    return [one for path in given for one in (sorted(path.glob("*.txt")) if path.is_dir() else [path])]


def read_commentary(path: Path) -> tuple[Talk, Sheet]:
    """The talk of a file and its sheet, which lies beside it or is one of the cases'."""
    talks = read_talks(path)
    if len(talks) != 1:
        raise ValueError(f"{path.name}: {len(talks)} talks, where a commentary is one")
    beside = path.parent / talks[0].sheet
    return talks[0], load_sheet(str(beside) if beside.exists() else sheet_name(talks[0].sheet))


def expected_of(talk: Talk, sheet: Sheet) -> tuple[dict[str, list[Item]], frozenset[int]]:
    """What should stand, by kind, and the lines that are traps. ValueError names a row that is none."""
    items: dict[str, list[Item]] = {kind: [] for kind in KINDS}
    traps = set()
    for line, (_, rows) in enumerate(talk.lines, start=1):
        for row in rows:
            kind, _, rest = row.partition(" ")
            if kind == "trap":
                traps.add(line)
            if kind in _UNSCORED:
                continue
            try:
                items[_ROWS[kind]].append({"line": line, **_READERS[kind](rest, sheet)})
            except (KeyError, ValueError) as error:
                raise ValueError(f"line {line}: {row}: {error}") from error
    return items, frozenset(traps)


def _part_of(text: str, sheet: Sheet) -> tuple[Item, Component]:
    component, _, which = text.partition("/")
    known = sheet.get(component)
    if known is None:
        raise ValueError(f"no component {component!r}")
    if which and which not in known.whiches:
        raise ValueError(f"{component} has no {which!r}, only {', '.join(known.whiches) or 'one'}")
    return {"component": component, "which": which or None}, known


def _reading(rest: str, sheet: Sheet) -> Item:
    stage = "as_left" if "as_left" in rest.split() else "as_found"
    named, value, unit = _without(rest, "as_left", "asks", "asks?").rsplit(" ", 2)
    part, _, characteristic = named.partition(".")
    characteristic = characteristic.partition("@")[0]
    where, known = _part_of(part, sheet)
    if known.get(characteristic) is None:
        raise ValueError(f"no characteristic {characteristic!r}")
    return {**where, "stage": stage, "characteristic": characteristic, "value": value, "unit": unit}


def _condition(rest: str, sheet: Sheet) -> Item:
    words = _without(rest, "as_left", "asks", "asks?", "slight", "moderate", "severe").split()
    present = words[-1] != "not"
    *part, condition = words if present else words[:-1]
    if sheet.get_condition(condition) is None:
        raise ValueError(f"no condition {condition!r}")
    return {**_part_of(" ".join(part), sheet)[0], "condition": condition, "present": present}


def _action(rest: str, sheet: Sheet) -> Item:
    words = _without(rest, "asks", "asks?").split()
    if words[-1][0] == "x" and words[-1][1:].isdigit():
        words.pop()
    *part, action, status = words
    if sheet.get_action(action) is None or status not in ("proposed", "done", "declined"):
        raise ValueError(f"no action {action!r} {status!r}")
    return {**_part_of(" ".join(part), sheet)[0], "action": action, "status": status}


def _movement(rest: str, sheet: Sheet) -> Item:
    words = _without(rest, "asks", "asks?").split()
    age = words.pop() if words[-1] in ("old", "new") else None
    *part, movement, count = words
    if movement not in ("removed", "fitted"):
        raise ValueError(f"no movement {movement!r}")
    where = _part_of(" ".join(part), sheet)[0]
    return {**where, "movement": movement, "count": int(count), "part": age}


_READERS = {"reading": _reading, "condition": _condition, "action": _action, "movement": _movement}


def _without(rest: str, *marks: str) -> str:
    return " ".join(word for word in rest.split() if word not in marks)
