"""Raw entries of a sheet: the well-formed keys of a list, one by its id, names without case. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saywright.sheets.form import Data, well_formed
from saywright.units import UNITS


def entries(table: Data, kind: str, path: str) -> list[tuple[str, dict[str, Any]]]:
    """(path, well-formed keys) of each entry of a list of tables."""
    value = table.get(kind)
    if not isinstance(value, list):
        return []
    return [
        (f"{path}[{number}]", well_formed(kind, entry))
        for number, entry in enumerate(value, start=1)
        if isinstance(entry, Mapping)
    ]


def find(entries: Sequence[Data], entry_id: object) -> dict[str, Any] | None:
    """The entry with this id; None where there is none."""
    if entry_id is None:
        return None
    return next((dict(entry) for entry in entries if entry.get("id") == entry_id), None)


def names_of(entry: Data) -> Sequence[str]:
    """How people call it: the names it has, else its id in words; none with predicates only."""
    return entry.get("names") or (() if entry.get("predicates") else id_in_words(entry))


def id_in_words(entry: Data) -> list[str]:
    """The name of an entry that says none: its id, with spaces for underscores."""
    return [str(entry["id"]).replace("_", " ")] if "id" in entry else []


def first_twice(values: Sequence[Any]) -> Any:
    """The first value that is there a second time, letter case and spacing aside; None where none is."""
    fold: Callable[[Any], Any] = lambda value: folded(value) if isinstance(value, str) else value  # noqa: E731
    seen = set()
    for value in values:
        if fold(value) in seen:
            return value
        seen.add(fold(value))
    return None


def folded(name: str) -> str:
    """The name as it is compared: without case, one space between words."""
    return " ".join(name.casefold().split())


def in_words(code: str) -> str:
    """A unit's code with the kind that it measures, for a fault."""
    return "plain numbers" if code == "1" else f"{code} ({UNITS[code].kind})"
