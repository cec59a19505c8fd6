"""Which changes of a log were undone and are so still: an undo can be undone too. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from saywright.record.events import ChangeUndone, Event


def undone(events: Iterable[Event]) -> frozenset[int]:
    """Sequence numbers of the events that no longer hold."""
    gone: set[int] = set()
    undos = [event for event in events if isinstance(event.payload, ChangeUndone)]
    for event in reversed(undos):  # the newest holds; what an undo that holds names does not
        if event.seq not in gone and isinstance(event.payload, ChangeUndone):
            gone.add(event.payload.event)
    return frozenset(gone)
