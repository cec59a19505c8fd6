"""What people do to the record: correct, accept, withdraw, explain, sign. Each is one event in their name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from saywright.errors import NotFoundError, RefusedError, StaleError
from saywright.record.changes import check_which
from saywright.record.events import (
    ChangeUndone,
    Event,
    ItemAccepted,
    ItemAdded,
    ItemCorrected,
    ItemsMerged,
    ItemSplit,
    ItemWithdrawn,
    OpenItemExplained,
    PhotoPlaced,
    Piece,
    Signed,
    TimeCorrected,
    Understood,
)
from saywright.record.types import Record
from saywright.sheets.model import Stage
from saywright.wiring.log import JobLog

_SHOWN = 5  # open items told in one line


def named(actor: str) -> str:
    """The person's name; RefusedError where there is none, since an event without one says nothing."""
    if not actor.strip():
        raise RefusedError("no name was given", to_do="Say who you are")
    return actor.strip()


def correct(
    log: JobLog, item_id: str, changes: Mapping[str, Any], *, why: str, actor: str, seen: int | None
) -> Event:
    """Give other values for fields of an item."""
    _still(log, item_id, seen)
    return log.append(ItemCorrected(item=item_id, changes=dict(changes), why=why), actor=named(actor))


def accept(log: JobLog, item_id: str, *, actor: str, seen: int | None) -> Event:
    """Stand for an item as it is."""
    _still(log, item_id, seen)
    return log.append(ItemAccepted(item=item_id), actor=named(actor))


def withdraw(log: JobLog, item_id: str, *, why: str, actor: str, seen: int | None) -> Event:
    """Take an item out of the record."""
    _still(log, item_id, seen)
    return log.append(ItemWithdrawn(item=item_id, why=why), actor=named(actor))


def add(log: JobLog, fields: Mapping[str, Any], *, why: str, actor: str) -> Event:
    """Enter what was not said: the fields of a statement with its `kind`, without `id` and `heard`."""

    def step() -> Event:
        statement = {"stage": "as_found", **fields, "id": _next_ids(log, 1)[0], "heard": ""}
        try:
            payload = ItemAdded.model_validate({"statement": statement, "why": why})
        except ValidationError as error:
            first = error.errors()[0]
            field = ".".join(str(part) for part in first["loc"][2:]) or "kind"
            raise RefusedError(
                f"the {field} cannot be so: {first['msg']}", to_do="Fill it in again"
            ) from None
        return log.append(payload, actor=named(actor))

    return log.attempt(step)


def split(
    log: JobLog,
    item_id: str,
    pieces: Sequence[Mapping[str, Any]],
    *,
    why: str,
    actor: str,
    seen: int | None,
) -> Event:
    """Make several items of one; each of *pieces* holds the fields in which it differs from it."""
    _still(log, item_id, seen)
    ids = _next_ids(log, len(pieces))
    into = tuple(Piece(id=new, changes=dict(changes)) for new, changes in zip(ids, pieces, strict=True))
    return log.append(ItemSplit(item=item_id, into=into, why=why), actor=named(actor))


def merge(
    log: JobLog, into: str, others: Mapping[str, int | None], *, why: str, actor: str, seen: int | None
) -> Event:
    """Take *others* (id → event as seen) for the same thing as *into*, which stays."""
    _still(log, into, seen)
    for item_id, their_seen in others.items():
        _still(log, item_id, their_seen)
    return log.append(ItemsMerged(items=tuple(others), into=into, why=why), actor=named(actor))


def undo(log: JobLog, event: int | None, *, why: str, actor: str) -> Event:
    """Take back what *event* changed; None: the last change of this person that was no undo."""
    log.refresh()
    if event is None:
        event = _last_of(log, named(actor))
    return log.append(ChangeUndone(event=event, why=why), actor=named(actor))


def _last_of(log: JobLog, actor: str) -> int:
    open_ones = set(log.folder.reversible())
    for event in reversed(log.events):
        mine = event.seq in open_ones and event.actor == actor
        if mine and not isinstance(event.payload, ChangeUndone):
            return event.seq
    raise RefusedError(
        f"there is no change of {actor} to take back", to_do="Choose one in the history of an item"
    )


def _next_ids(log: JobLog, count: int) -> list[str]:
    """Ids that nothing in the log has, in the row of those of what was said."""
    highest = max((highest_number(event) for event in log.events), default=0)
    return [f"s{highest + number}" for number in range(1, count + 1)]


def highest_number(event: Event) -> int:
    """The highest number among the ids of items that *event* makes: 12 for "s12"; 0 for none."""
    digits = (name.removeprefix("s") for name in _ids_in(event))
    return max((int(number) for number in digits if number.isdigit()), default=0)


def _ids_in(event: Event) -> tuple[str, ...]:
    match event.payload:
        case Understood(statements=statements):
            return tuple(statement.id for statement in statements)
        case ItemAdded(statement=statement):
            return (statement.id,)
        case ItemSplit(into=into):
            return tuple(piece.id for piece in into)
    return ()


def place(
    log: JobLog,
    photo_id: str,
    *,
    mark: str | None,
    component: str | None,
    which: str | None,
    stage: Stage | None,
    beside: bool,
    actor: str,
) -> Event:
    """Put a picture at a mark, beside one, or on a part."""
    log.refresh()
    if which is not None:
        part = log.sheet.get(component)
        if part is None:
            to_do = "Name the component that it is one of"
            raise RefusedError("which of several is told, and not of what", where=photo_id, to_do=to_do)
        check_which(part, which, where=photo_id)
    payload = PhotoPlaced(
        photo=photo_id, mark=mark, component=component, which=which, stage=stage, beside=beside
    )
    return log.append(payload, actor=named(actor))


def explain(log: JobLog, record: Record, open_item: str, why: str, *, actor: str) -> Event:
    """State why an open item may stay open."""
    if open_item not in {found.id for found in record.open_items}:
        raise NotFoundError(
            "no such open item", where=open_item, to_do="Take the id from the list of open items"
        )
    return log.append(OpenItemExplained(open_item=open_item, why=why), actor=named(actor))


def correct_time(
    log: JobLog, component: str | None, stage: str, minutes: str, *, why: str, actor: str
) -> Event:
    """Give the right bench time of a part at a stage; RefusedError for a part or number that is none."""
    if component is not None and log.sheet.get(component) is None:
        known = ", ".join(one.id for one in log.sheet.component)
        raise RefusedError(f"the sheet has no component '{component}'", to_do=f"Components: {known}")
    try:
        payload = TimeCorrected.model_validate(
            {"component": component, "stage": stage, "minutes": minutes.strip().replace(",", "."), "why": why}
        )
    except ValidationError:
        raise RefusedError(
            f"'{minutes}' minutes {stage} is no bench time",
            to_do="Give minutes from 0 to a million, as_found or as_left",
        ) from None
    return log.keep(payload, actor=named(actor))


def sign(log: JobLog, record: Record, *, actor: str, statement: str, role: str | None = None) -> Event:
    """Stand for the whole record; RefusedError names what is still open and not explained."""
    still = [item for item in record.open_items if item.explained is None]
    if still:
        told = "; ".join(f"{item.id} ({item.text.rstrip('.')})" for item in still[:_SHOWN])
        more = f"; and {len(still) - _SHOWN} more" if len(still) > _SHOWN else ""
        raise RefusedError(
            f"{len(still)} item{'s are' if len(still) != 1 else ' is'} open: {told}{more}",
            where=f"job {log.job_id}",
            to_do="Settle or explain each, then sign",
        )
    if record.record_hash != log.last.hash:
        raise StaleError(
            "the record changed while it was read", where=f"job {log.job_id}", to_do="Read it again"
        )
    signed = Signed(record_hash=log.last.hash, statement=statement, role=role)
    return log.append(signed, actor=named(actor))


def _still(log: JobLog, item_id: str, seen: int | None) -> None:
    """StaleError where the item changed after event *seen*; None leaves the check out."""
    log.refresh()
    item = log.folder.item(item_id)
    if seen is not None and item.event != seen:
        raise StaleError(
            f"the item was changed by event {item.event} after you read it (you saw event {seen})",
            where=item_id,
            to_do="Read it again, then decide",
        )
