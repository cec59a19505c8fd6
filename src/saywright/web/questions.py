"""What asks, one after another: the question in hand, and those that wait behind it. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saywright.hearing.words import Utterance
from saywright.record.types import Item, OpenItem, Reading, Record
from saywright.sheets.model import Sheet
from saywright.units import UNITS
from saywright.web import describe
from saywright.web.forms import Field, fields_for
from saywright.web.view import QUESTION_KINDS, Line, line_of


@dataclass(frozen=True)
class Waiting:
    """A question in the list of those that wait."""

    id: str  # of the open item
    text: str
    about: str
    explained: bool


@dataclass(frozen=True)
class Question:
    """The question in hand, with the forms that settle it."""

    open_item: OpenItem
    line: Line | None
    fields: tuple[Field, ...]
    quick: Field | None  # the one input that typing goes to; None where there is none
    unit: str  # shown behind it
    same: tuple[Line, ...]  # items it may be merged with


@dataclass(frozen=True)
class Queue:
    """All questions of a job."""

    waiting: tuple[Waiting, ...]
    question: Question | None  # None where nothing asks
    number: int  # of the question in hand, from 1; 0 where there is none
    left: int  # not settled yet
    before: str  # id of the question before it, "" for none
    after: str


def queue(
    record: Record,
    sheet: Sheet,
    utterances: Mapping[int, Utterance],
    pictures: Mapping[str, str],
    *,
    at: str = "",
    after: str = "",
) -> Queue:
    """The questions in the order in which they were said; in hand is *at*, else the first open one
    behind *after*, else the first open one."""
    items = {item.id: item for item in describe.items_of(record)}
    found = sorted(
        (o for o in record.open_items if o.kind in QUESTION_KINDS),
        key=lambda o: (o.explained is not None, _number(o.item or o.id)),
    )
    open_ones = [o for o in found if o.explained is None]
    chosen = next((o for o in found if at and at in (o.id, o.item)), None)
    if chosen is None:
        behind = [o for o in open_ones if after and _number(o.item or o.id) > _number(after)]
        chosen = next(iter(behind or open_ones), None)
    place = found.index(chosen) if chosen else -1
    return Queue(
        waiting=tuple(_waiting(o, items.get(o.item or ""), sheet) for o in found),
        question=_question(chosen, items, sheet, utterances, pictures) if chosen else None,
        number=place + 1,
        left=len(open_ones),
        before=found[place - 1].id if place > 0 else "",
        after=found[place + 1].id if chosen and place + 1 < len(found) else "",
    )


def _waiting(open_item: OpenItem, item: Item | None, sheet: Sheet) -> Waiting:
    explained = open_item.explained is not None
    if item is None or item.kind == "unclear":
        return Waiting(open_item.id, open_item.text, "", explained)
    return Waiting(open_item.id, describe.item_text(item, sheet), describe.about(item, sheet), explained)


def _question(
    open_item: OpenItem,
    items: Mapping[str, Item],
    sheet: Sheet,
    utterances: Mapping[int, Utterance],
    pictures: Mapping[str, str],
) -> Question:
    item = items.get(open_item.item or "")
    fields = fields_for(item, sheet) if item else ()
    quick = next((field for field in fields if field.kind in ("text", "number")), None)
    unit = UNITS[item.unit].symbol if isinstance(item, Reading) and item.unit in UNITS else ""
    return Question(
        open_item=open_item,
        line=line_of(item, sheet, utterances, pictures) if item else None,
        fields=fields,
        quick=quick,
        unit=unit,
        same=tuple(line_of(other, sheet, {}) for other in alike(item, items)) if item else (),
    )


def alike(item: Item, items: Mapping[str, Item]) -> tuple[Item, ...]:
    """Other items in force of the same kind on the same part, nearest in speech first, at most eight."""
    about = (item.kind, describe.component_of(item))
    if item.kind in ("photo", "remark", "unclear"):
        return ()
    others = [
        other
        for other in items.values()
        if other.id != item.id
        and other.superseded_by is None
        and (other.kind, describe.component_of(other)) == about
    ]
    return tuple(sorted(others, key=lambda other: abs(_number(other.id) - _number(item.id)))[:8])


def _number(name: str) -> int:
    digits = "".join(character for character in name.rpartition(":")[2] if character.isdigit())
    return int(digits or 0)
