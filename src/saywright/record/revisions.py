"""Signed, changed, signed again: the revisions of a record, read off its events. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.record import events as ev

QUIET = (ev.Reported,)  # events after which a signature still holds


@dataclass(frozen=True)
class Revisions:
    """Where a record stands between its signatures."""

    number: int  # of the revision as it stands, from 1
    signatures: tuple[ev.Event, ...]  # oldest first
    since: tuple[
        ev.Event, ...
    ]  # what changed since the last signature; empty where it holds or there is none

    @property
    def signed(self) -> bool:
        """True where the revision as it stands is signed."""
        return bool(self.signatures) and not self.since


def revisions(events: Sequence[ev.Event]) -> Revisions:
    """The revisions after *events*. Whatever changes a signed record begins a new one."""
    signatures: list[ev.Event] = []
    since: list[ev.Event] = []
    for event in events:
        if isinstance(event.payload, ev.Signed):
            signatures.append(event)
            since = []
        elif signatures and not isinstance(event.payload, QUIET):
            since.append(event)
    number = len(signatures) + (1 if since or not signatures else 0)
    return Revisions(number, tuple(signatures), tuple(since))
