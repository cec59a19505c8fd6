"""The hash chain: each event carries the SHA-256 (FIPS 180-4) of its content and of the one before."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from saywright.errors import ChainError
from saywright.record.events import Event, Payload

GENESIS = "0" * 64


def content_hash(seq: int, at: str, actor: str, payload: dict[str, Any], previous: str) -> str:
    """SHA-256, hex, over the event's content as JSON with sorted keys and no spaces.

    *at* and *payload* are the text and the data as stored, so that an event written before a
    payload gained a field still verifies.
    """
    body = {"seq": seq, "at": at, "actor": actor, "payload": payload, "previous": previous}
    text = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def event_hash(seq: int, at: datetime, actor: str, payload: Payload, previous: str) -> str:
    """The `content_hash` of an event built from its parts."""
    return content_hash(seq, at.isoformat(), actor, payload.model_dump(mode="json"), previous)


def link(payload: Payload, *, at: datetime, actor: str, after: Event | None) -> Event:
    """The event that follows *after* (None: the first)."""
    seq = after.seq + 1 if after else 1
    previous = after.hash if after else GENESIS
    return Event(
        seq=seq,
        at=at,
        actor=actor,
        payload=payload,
        previous=previous,
        hash=event_hash(seq, at, actor, payload, previous),
    )


def broken(seq: int, what: str, where: str) -> ChainError:
    """The fault of a chain at event *seq*, the first that does not fit."""
    return ChainError(f"event {seq} {what}", where=where, to_do="Restore the log from a backup")


def verify(events: Iterable[Event], where: str = "the log") -> str:
    """The hash of the last event; ChainError names the first event that does not fit."""
    previous = GENESIS
    for seq, event in enumerate(events, start=1):
        if event.seq != seq:
            raise broken(seq, "is missing", where)
        expected = event_hash(event.seq, event.at, event.actor, event.payload, event.previous)
        if event.previous != previous or event.hash != expected:
            raise broken(seq, "was altered", where)
        previous = event.hash
    return previous
