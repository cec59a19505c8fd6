"""A shop's own words → names on the sheet. Pure.

A word that names something becomes one more name of it. The sheet's own names come first: a word
that the sheet already uses for another thing of the same kind keeps the sheet's meaning.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

from saywright.sheets.model import Action, Characteristic, Component, Condition, Instrument, Sheet, ShopWord

Named = TypeVar("Named", Instrument, Component, Characteristic, Condition, Action)

_KINDS = ("component", "condition", "action", "instrument")


def with_words(sheet: Sheet, words: Sequence[ShopWord]) -> Sheet:
    """The sheet with the shop's *words*; those that name what this sheet does not have are left out."""
    ids = set(meanings(sheet))
    used = tuple(word for word in (*sheet.word, *words) if word.means is None or word.means in ids)
    once = tuple({word.spoken: word for word in used}.values())
    named: dict[str, list[ShopWord]] = {}
    for word in once:
        if word.means is not None and taken_by(sheet, word) is None:
            named.setdefault(word.means, []).append(word)
    changes: dict[str, Any] = {kind: _all_named(getattr(sheet, kind), named) for kind in _KINDS}
    return sheet.model_copy(update={**changes, "word": once})


def meanings(sheet: Sheet) -> Iterator[str]:
    """Every id that a word can mean."""
    for kind in _KINDS:
        yield from (entry.id for entry in getattr(sheet, kind))
    yield from (f"{component.id}.{one.id}" for component, one in sheet.characteristics())


def taken_by(sheet: Sheet, word: ShopWord) -> str | None:
    """The id of another thing of the same kind that already has this name; None where it is free."""
    for kind in _KINDS:
        entries = getattr(sheet, kind)
        if any(entry.id == word.means for entry in entries):
            return next((e.id for e in entries if e.id != word.means and word.spoken in e.names), None)
    part, _, own = (word.means or "").partition(".")
    component = sheet.get(part)
    others = component.characteristic if component is not None else ()
    return next((f"{part}.{one.id}" for one in others if one.id != own and word.spoken in one.names), None)


def _all_named(
    entries: Sequence[Named], named: dict[str, list[ShopWord]], under: str = ""
) -> tuple[Named, ...]:
    found: list[Named] = []
    entry: Named
    for entry in entries:
        names = (*entry.names, *(word.spoken for word in named.get(under + entry.id, ())))
        changes: dict[str, Any] = {"names": tuple(dict.fromkeys(names))}
        if isinstance(entry, Component):
            changes["characteristic"] = _all_named(entry.characteristic, named, f"{entry.id}.")
        found.append(entry.model_copy(update=changes))
    return tuple(found)
