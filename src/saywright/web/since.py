"""What changed since a record was signed, told event by event. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from saywright.record import events as ev
from saywright.record.types import Item, Record
from saywright.sheets.model import Sheet
from saywright.web import describe
from saywright.web.trace import trace


@dataclass(frozen=True)
class Told:
    """One event in words."""

    seq: int
    at: datetime
    actor: str
    about: str  # the item, as it stands now; "" where it is about the whole job
    item: str | None  # its id
    what: str


def told(events: Sequence[ev.Event], record: Record, sheet: Sheet) -> tuple[Told, ...]:
    """Each of *events* that changed something, oldest first. What was heard is told as it was understood."""
    items = {item.id: item for item in describe.items_of(record)}
    pictures: dict[str | None, Item] = {item.sha256: item for item in record.photos if item.sha256}
    found: list[Told] = []
    for event in events:
        if isinstance(event.payload, ev.Heard | ev.AudioAdded | ev.Reported):
            continue
        about = [items[name] for name in _names(event, pictures) if name in items]
        found += [_told(event, item, sheet) for item in about] or [_whole(event)]
    return tuple(found)


def _names(event: ev.Event, pictures: Mapping[str | None, Item]) -> tuple[str, ...]:
    """Ids of the items that the event is about."""
    payload: Any = event.payload
    match payload:
        case ev.Understood(statements=statements):
            return tuple(statement.id for statement in statements)
        case ev.ItemCorrected(item=item) | ev.ItemAccepted(item=item) | ev.ItemWithdrawn(item=item):
            return (item,)
        case ev.ItemSplit(item=item):
            return (item,)
        case ev.ItemAdded(statement=statement):
            return (statement.id,)
        case ev.ItemsMerged(into=into):
            return (into,)
        case ev.PhotoAdded(sha256=sha256) if sha256 in pictures:
            return (pictures[sha256].id,)
        case ev.PhotoPlaced(photo=photo, mark=mark):
            return (mark or photo,)
    return ()


def _told(event: ev.Event, item: Item, sheet: Sheet) -> Told:
    steps = trace((event,), item, sheet)
    what = steps[0].what if steps else event.payload.kind.replace("_", " ")
    why = f" ({steps[0].why})" if steps and steps[0].why else ""
    place = describe.about(item, sheet)
    text = describe.item_text(item, sheet)
    about = f"{place}: {text}" if place else text
    return Told(event.seq, event.at, event.actor, about, item.id, what + why)


def _whole(event: ev.Event) -> Told:
    """An event about no single item."""
    match event.payload:
        case ev.OpenItemExplained(why=why):
            what = f"stated why something may stay open: {why}"
        case ev.ChangeUndone(event=undone):
            what = f"event {undone} undone"
        case ev.PhotoChosen(in_report=chosen):
            what = "a picture was shown in the report" if chosen else "a picture was left out of the report"
        case ev.TimeCorrected(stage=stage, minutes=minutes):
            what = f"bench time {describe.STAGES[stage]} given as {minutes:f} min"
        case ev.JobDescribed():
            what = "what is known of the job was changed"
        case _:
            what = event.payload.kind.replace("_", " ")
    return Told(event.seq, event.at, event.actor, "", None, what)
