"""From an item back to where it comes from: every event that made or changed it. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from saywright.record.events import (
    ChangeUndone,
    Event,
    Heard,
    ItemAccepted,
    ItemAdded,
    ItemCorrected,
    ItemsMerged,
    ItemSplit,
    ItemWithdrawn,
    PhotoAdded,
    PhotoAnnotated,
    PhotoChecked,
    PhotoChosen,
    PhotoMeasured,
    PhotoPlaced,
    Understood,
)
from saywright.record.types import Item, Photo
from saywright.sheets.model import Sheet
from saywright.understanding.statements import Correction


@dataclass(frozen=True)
class Step:
    """One event in the life of an item."""

    seq: int
    at: datetime
    actor: str
    what: str
    why: str = ""
    hearings: tuple[tuple[str, int], ...] = ()  # words, probability in percent


def trace(events: tuple[Event, ...], item: Item, sheet: Sheet) -> tuple[Step, ...]:
    """The steps of *item*, oldest first."""
    photo_id = _photo_id(events, item)
    steps: list[Step] = []
    mine: set[int] = set()  # sequence numbers of the steps so far
    for event in events:
        step = _step(event, item, photo_id, sheet)
        if isinstance(event.payload, ChangeUndone) and event.payload.event in mine:
            step = _at(event, f"event {event.payload.event} undone", why=event.payload.why)
        if step is not None:
            mine.add(event.seq)
            steps.append(step)
    return tuple(steps)


def _photo_id(events: tuple[Event, ...], item: Item) -> str | None:
    """The id of the picture of this item; None for an item without one."""
    if not isinstance(item, Photo) or item.sha256 is None:
        return None
    added = (event.payload for event in events if isinstance(event.payload, PhotoAdded))
    return next((payload.photo for payload in added if payload.sha256 == item.sha256), None)


def _step(event: Event, item: Item, photo_id: str | None, sheet: Sheet) -> Step | None:
    """The event as a step of the item; None where it has nothing to do with it."""
    step: Step | None = _edited(event, item)
    names = {item.id} | ({photo_id} if photo_id else set())
    match event.payload:
        case Heard(utterance=utterance) if event.seq == item.utterance:
            hearings = tuple((h.text, round(100 * h.probability)) for h in utterance.hypotheses)
            step = _at(event, f"heard by {utterance.listener}", hearings=hearings)
        case Understood(statements=statements):
            step = _understood(event, statements, item)
        case ItemCorrected(item=name, changes=changes, why=why) if name in names:
            step = _at(event, f"corrected: {_changes(changes)}", why=why)
        case ItemAccepted(item=name, heard=heard) if name in names:
            step = _at(event, "accepted as it was" + _said_in(heard))
        case ItemWithdrawn(item=name, why=why, heard=heard) if name in names:
            step = _at(event, "withdrawn" + _said_in(heard), why=why)
        case PhotoAdded(photo=photo, name=name) if photo == photo_id:
            step = _at(event, f"picture {name} taken in")
        case PhotoChecked(photo=photo) if photo == photo_id:
            step = _at(event, "picture checked again on the part shown")
        case PhotoAnnotated(photo=photo, annotations=drawn) if photo == photo_id:
            step = _at(
                event, f"drawn on the picture: {len(drawn)} in all" if drawn else "nothing drawn on it"
            )
        case PhotoChosen(photo=photo, in_report=chosen) if photo == photo_id:
            step = _at(event, "shown in the report" if chosen else "left out of the report")
        case PhotoMeasured(photo=photo, measurement=found) if photo == photo_id:
            step = _at(event, f"{found.kind} measured: {found.value} {found.unit}")
        case PhotoPlaced(photo=photo, mark=mark, component=component, which=which) if photo == photo_id:
            place = (
                f"at the mark {mark}"
                if mark
                else f"on {sheet.label(component, which)}"
                if component
                else "at no part"
            )
            step = _at(event, f"picture placed {place}")
        case _:
            pass
    return step


def _said_in(heard: int | None) -> str:
    """Where it was said at the bench: the event that holds the words."""
    return f", said at the bench in event {heard}" if heard is not None else ""


def _edited(event: Event, item: Item) -> Step | None:
    """A person entered the item, made it of another, made others of it, or took two for the same."""
    step: Step | None = None
    match event.payload:
        case ItemAdded(statement=statement, why=why) if statement.id == item.id:
            step = _at(event, "entered in a form", why=why)
        case ItemSplit(item=name, into=into, why=why) if name == item.id:
            step = _at(event, f"split into {', '.join(piece.id for piece in into)}", why=why)
        case ItemSplit(item=name, into=into, why=why) if item.id in {piece.id for piece in into}:
            changes = next(piece.changes for piece in into if piece.id == item.id)
            told = f", {_changes(changes)}" if changes else ""
            step = _at(event, f"split from {name}{told}", why=why)
        case ItemsMerged(items=items, into=into, why=why) if into == item.id:
            step = _at(event, f"taken for the same as {', '.join(items)}", why=why)
        case ItemsMerged(items=items, into=into, why=why) if item.id in items:
            step = _at(event, f"taken for the same as {into}, which stays", why=why)
        case _:
            pass
    return step


def _changes(changes: Mapping[str, Any]) -> str:
    """The new values of fields, in words."""
    return "; ".join(f"{field.replace('_', ' ')} → {_told(value)}" for field, value in changes.items())


def _understood(event: Event, statements: tuple[Any, ...], item: Item) -> Step | None:
    """Understanding made the item, or took it back."""
    for statement in statements:
        if isinstance(statement, Correction) and item.id in statement.supersedes:
            return _at(event, f"taken back by the words “{statement.heard}”")
        if isinstance(statement, Correction) and item.id in statement.restores:
            return _at(event, f"holds again by the words “{statement.heard}”")
        if statement.id == item.id:
            return _at(event, f"understood from “{statement.heard}”" if statement.heard else "entered")
    return None


def _at(event: Event, what: str, *, why: str = "", hearings: tuple[tuple[str, int], ...] = ()) -> Step:
    return Step(event.seq, event.at, event.actor, what, why, hearings)


def _told(value: Any) -> str:
    """A new value in words."""
    if value is None:
        return "not said"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return ", ".join(str(part) for part in value) if isinstance(value, list | tuple) else str(value)
