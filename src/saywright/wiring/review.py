"""What people do to the record: correct, accept, withdraw, explain, sign. Each is one event in their name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from saywright.errors import NotFoundError, RefusedError, StaleError
from saywright.record.events import (
    Event,
    ItemAccepted,
    ItemCorrected,
    ItemWithdrawn,
    OpenItemExplained,
    PhotoPlaced,
    Signed,
    TimeCorrected,
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
            f"'{minutes}' minutes {stage} is no bench time", to_do="Give a number from 0, as_found or as_left"
        ) from None
    return log.keep(payload, actor=named(actor))


def sign(log: JobLog, record: Record, *, actor: str, statement: str) -> Event:
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
    return log.append(Signed(record_hash=log.last.hash, statement=statement), actor=named(actor))


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
