"""Bench sheet files → `Sheet`. The only module here that reads files.

A sheet is named by its file or, where it ships with Saywright, by its id. It may extend a
shipped sheet (by id) or a file beside it (by file name); so may that one.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from saywright.errors import InputError, NotFoundError, SheetError
from saywright.sheets.check import check_sheet
from saywright.sheets.fault import Fault
from saywright.sheets.form import LISTS, hint
from saywright.sheets.locate import Lines, locate
from saywright.sheets.merge import filled_in, merge
from saywright.sheets.model import Sheet, ShopWord
from saywright.sheets.spread import with_names_spread
from saywright.sheets.word_check import check_words
from saywright.sheets.words import with_words

_DATA = Path(__file__).with_name("data")
_PLACE = re.compile(r"\s*\(at (?:line (?P<line>\d+), column \d+|end of document)\)")


@dataclass(frozen=True, slots=True)
class ShippedSheet:
    """A sheet that comes with Saywright."""

    id: str
    title: str


def list_sheets() -> tuple[ShippedSheet, ...]:
    """The shipped sheets that describe a thing on the bench, by id; mere vocabulary is left out."""
    heads = []
    for path in sorted(_DATA.glob("*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        if data.get("component"):
            heads.append(ShippedSheet(id=data["sheet"]["id"], title=data["sheet"]["title"]))
    return tuple(heads)


def load_sheet(path_or_id: str | Path, *, words: Sequence[ShopWord] = ()) -> Sheet:
    """The bench sheet in a file, or the shipped one with this id, with the shop's own *words*.

    NotFoundError where there is neither, InputError where the file cannot be read, SheetError
    with every fault where it is no proper sheet.
    """
    path = _find(path_or_id)
    data, faults = _read(path, ())
    if faults:
        raise SheetError(str(path_or_id), faults)
    filled: dict[str, Any] = dict(data["sheet"])
    for kind in LISTS:
        entries = data.get(kind, ())
        bare = kind in ("caution", "unit", "word")
        filled[kind] = entries if bare else [filled_in(entry) for entry in entries]
    return with_words(Sheet.model_validate(filled), words)


def load_words(path: Path) -> tuple[ShopWord, ...]:
    """The shop's own words in a TOML file of [[word]] tables; none where there is no such file.

    InputError where it cannot be read or holds anything else.
    """
    if not path.exists():
        return ()
    text = _text(path)
    if isinstance(text, Fault):
        raise _words_error(path, (text,))
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _words_error(path, (_syntax_fault(str(error), text),)) from None
    faults = check_words(data, lines=locate(text))
    if faults:
        raise _words_error(path, faults)
    return tuple(ShopWord.model_validate(entry) for entry in data.get("word", ()))


def _words_error(path: Path, faults: Sequence[Fault]) -> InputError:
    more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
    return InputError(
        f"the file of the shop's words: {faults[0]}{more}",
        where=str(path),
        to_do="Mend it, or remove the file",
    )


def check_file(path: str | Path) -> tuple[Fault, ...]:
    """Everything wrong with the sheet in a file, or the shipped one of this id, in the order of its lines."""
    return _read(_find(path), ())[1]


def _find(path_or_id: str | Path) -> Path:
    shipped = _DATA / f"{path_or_id}.toml"
    if isinstance(path_or_id, str) and re.fullmatch(r"[\w-]+", path_or_id) and shipped.is_file():
        return shipped
    path = Path(path_or_id)
    if path.exists():
        return path
    ids = [sheet.id for sheet in list_sheets()]
    raise NotFoundError(
        f"no bench sheet '{path_or_id}'",
        to_do=f"Give a TOML file or the id of a shipped sheet; {hint(str(path_or_id), ids)}",
    )


def _read(path: Path, above: tuple[Path, ...]) -> tuple[dict[str, Any], tuple[Fault, ...]]:
    """Raw data with what it extends merged in, and the faults; the data is of use only without faults."""
    text = _text(path)
    if isinstance(text, Fault):
        return {}, (text,)
    try:
        data = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        return {}, (_syntax_fault(str(error), text),)
    lines = locate(text)
    badly_marked = with_names_spread(data, lines)
    base, extends_faults = _base(data, path, (*above, path.resolve()), lines)
    faults = [*badly_marked, *extends_faults, *check_sheet(data, base=base, lines=lines)]
    if faults:
        return data, tuple(sorted(faults, key=lambda fault: fault.line or 0))
    return merge(data, base) if base is not None else data, ()


def _base(
    data: dict[str, Any], path: Path, above: tuple[Path, ...], lines: Lines
) -> tuple[dict[str, Any] | None, list[Fault]]:
    """The merged raw data of the sheet that *data* extends; None where there is none to be had."""
    head = data.get("sheet")
    name = head.get("extends") if isinstance(head, dict) else None
    if not isinstance(name, str) or not name.strip():
        return None, []  # not said, or a fault of form
    found = _extended(name, path)
    if found is None:
        known = sorted(shipped.stem for shipped in _DATA.glob("*.toml"))
        text = f"no sheet '{name}' ships or lies beside this file; {hint(name, known)}"
        return None, [_extends_fault(lines, text)]
    if found.resolve() in above:
        circle = " → ".join(one.name for one in (*above[above.index(found.resolve()) :], found))
        text = f"the sheets extend each other in a circle: {circle}; cut it somewhere"
        return None, [_extends_fault(lines, text)]
    base, faults = _read(found, above)
    if faults:
        text = f"the sheet '{name}' has faults of its own, the first at {faults[0]}; mend it first"
        return None, [_extends_fault(lines, text)]
    return base, []


def _extended(name: str, path: Path) -> Path | None:
    for candidate in (_DATA / f"{name}.toml", path.parent / name, path.parent / f"{name}.toml"):
        if candidate.is_file():
            return candidate
    return None


def _extends_fault(lines: Lines, text: str) -> Fault:
    return Fault(line=lines.of("sheet.extends"), key="sheet.extends", text=text)


def _text(path: Path) -> str | Fault:
    """The file's text, or why it is none."""
    try:
        raw = path.read_bytes()
    except OSError as error:
        reason = error.strerror or type(error).__name__
        raise InputError(
            f"the bench sheet cannot be read ({reason.lower()})", where=str(path), to_do="Name a TOML file"
        ) from error
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return Fault(line=line, key="", text="not UTF-8 text; save the sheet as UTF-8")


def _syntax_fault(message: str, text: str) -> Fault:
    place = _PLACE.search(message)
    line = int(place["line"]) if place and place["line"] else text.count("\n") + 1
    return Fault(line=line, key="", text=f"not valid TOML: {_PLACE.sub('', message)}")
