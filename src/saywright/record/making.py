"""What was understood, as items of the record."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime
from typing import get_args

from saywright.errors import RefusedError
from saywright.flags import FlagKind, flag
from saywright.record.changes import exact_value
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    OpenKind,
    Photo,
    Reading,
    Remark,
    Unclear,
)
from saywright.sheets.model import Sheet
from saywright.understanding import statements as said

_MADE_OF: dict[type[said.Statement], type[Item]] = {
    said.Reading: Reading,
    said.ConditionNote: Condition,
    said.ActionNote: Action,
    said.Movement: Movement,
    said.Identifier: Identifier,
    said.PhotoMark: Photo,
    said.Remark: Remark,
    said.Unclear: Unclear,
}
NOTE = "note"  # reason of the remark that a spoken note becomes


def leaves_item(statement: said.Statement) -> bool:
    """True for what becomes an item by itself: no correction, and of the bench commands only a note."""
    if type(statement) is said.BenchCommand:
        return statement.command == "note"
    return type(statement) is not said.Correction


def kept(statement: said.Statement, seq: int, sheet: Sheet) -> Item:
    """The statement as an item of the record, made by event *seq*."""
    if type(statement) is said.BenchCommand:
        common = statement.model_dump(include=set(said.Said.model_fields))
        return Remark.model_validate(
            {**common, "heard": statement.words or statement.heard, "reason": NOTE, "event": seq}
        )
    item = _MADE_OF[type(statement)].model_validate({**vars(statement), "event": seq})
    if type(item) is Reading and item.in_sheet_unit is None:
        told = exact_value(item.value, item.unit, sheet.find(item.component, item.characteristic))
        return item.model_copy(update={"in_sheet_unit": told})
    return item


def holding_again(correction: said.Correction, known: Mapping[str, Item], seq: int) -> dict[str, Item]:
    """The items that an undo lets hold again. Each asks: its correction may have been meant all the same.

    What a person took out, or something else replaced since, stays as it is.
    """
    again: dict[str, Item] = {}
    for item_id in correction.restores:
        old = known.get(item_id)
        if old is not None and old.superseded_by in correction.supersedes:
            flags = (
                *(f for f in old.flags if f.kind is not FlagKind.HOLDS_AGAIN),
                flag(FlagKind.HOLDS_AGAIN),
            )
            update = {"superseded_by": None, "accepted_by": None, "flags": flags, "event": seq}
            again[item_id] = old.model_copy(update=update)
    return again


def dated(item: Item, at: datetime) -> Item:
    """A reading with the day it came; other items, and readings that have theirs, as they are."""
    if type(item) is not Reading or item.taken_on is not None:
        return item
    return item.model_copy(update={"taken_on": at.date()})


def correction_words(correction: said.Correction, seq: int, lost: Collection[str]) -> Remark:
    """The words of a correction, kept as a remark; *lost* are ids it names that are not in the record."""
    flags = correction.flags
    if lost:
        flags = (*flags, flag(FlagKind.CORRECTION_UNCLEAR, f"no item {', '.join(lost)}"))
    nothing = "a turn of the stage or a count"  # what an undo takes back beside statements
    what = ", ".join(correction.supersedes) or nothing
    return Remark.model_validate(
        {
            **correction.model_dump(exclude={"kind", "supersedes", "by", "restores"}),
            "flags": flags,
            "reason": f"corrects {what}" if correction.by else f"withdraws {what}",
            "event": seq,
        }
    )


def serial_read_out(items: Collection[Item]) -> str | None:
    """The last serial number read out for the whole job; a doubtful or partial one does not count."""
    for item in reversed(list(items)):
        if not isinstance(item, Identifier) or item.identifier != "serial" or item.component is not None:
            continue
        settled = item.accepted_by is not None or not (item.asks or item.partial)
        if item.superseded_by is None and settled:
            return item.value
    return None


def open_item_kind(open_item_id: str) -> OpenKind:
    """The kind at the head of an open item's id; RefusedError where there is none."""
    head, colon, _ = open_item_id.partition(":")
    kinds: tuple[OpenKind, ...] = get_args(OpenKind)
    for kind in kinds:
        if colon and kind == head:
            return kind
    raise RefusedError(f"'{open_item_id}' is no open item", to_do="Take the id from the list of open items")
