"""Serial numbers, part numbers, stamps and tags that an utterance reads out; talk of the last picture."""

from __future__ import annotations

from saywright.flags import FlagKind, flag
from saywright.understanding.facts import Mark, Told
from saywright.understanding.identifiers import Spelled, spelled_after, spelled_out
from saywright.understanding.photo_talk import of_the_last_picture
from saywright.understanding.statements import Identifier, IdentifierKind, Unclear
from saywright.understanding.working import Working

_KINDS: tuple[tuple[str, IdentifierKind], ...] = (
    ("SERIAL", "serial"),
    ("PART_NUMBER", "part_number"),
    ("TAG", "tag"),
    ("STAMP", "stamp"),
    ("ENDS", "serial"),
)

_CALLED = frozenset({"number", "numbers", "code", "letters", "mark", "marks", "stamp", "casting"})


def put_identifiers(work: Working, told: Told) -> list[tuple[int, int]]:
    """Put out the identifiers of an utterance; the tokens they are made of.

    All tokens where it only says something of the picture announced last.
    """
    if of_the_last_picture(work):
        return [(0, len(work.texts))]
    spans: list[tuple[int, int]] = []
    for mark in told.marks:
        kind = next((kind for tag, kind in _KINDS if tag in mark.tags), None)
        found = spelled_after(work.texts, mark.end) if kind is not None else None
        if kind is None or found is None or any(start <= found.start < end for start, end in spans):
            continue
        if kind in {"stamp", "tag"} and not found.letters:
            continue  # "marked forty five" is a value
        ends = [m for m in told.marks if "ENDS" in m.tags and mark.end <= m.start <= found.start]
        _put(work, told, kind, mark, found, partial="ENDS" in mark.tags or bool(ends))
        spans.append((mark.start, found.end))
    loose = spelled_out(work.texts, _CALLED)
    if loose is not None and not any(start < loose.end and loose.start < end for start, end in spans):
        _put_loose(work, told, loose)
        spans.append((loose.start, loose.end))
    return spans


def _put_loose(work: Working, told: Told, found: Spelled) -> None:
    """ "there's a number on it, delta echo one seven": a mark where it is called one, else it asks."""
    start, end = found.start, found.end
    if _CALLED.isdisjoint(work.texts[:start]):
        held = work.hand.component if work.hand is not None else None
        reason = "letters and digits were spelled out, of what was not said"
        work.put(work.make(Unclear, start, end, component=held, reason=reason))
        return
    mark = Mark(frozenset(), 0, start, start)
    _put(work, told, "stamp", mark, found, partial=False)


def _put(
    work: Working, told: Told, kind: IdentifierKind, mark: Mark, found: Spelled, *, partial: bool
) -> None:
    named = [s for s in told.subjects if s.components and s.start < found.start]
    component = named[-1].components[0] if named else None
    if component is None and kind in {"stamp", "part_number"} and work.hand is not None:
        component = work.hand.component
    made = work.make(
        Identifier,
        mark.start,
        found.end,
        flags=[flag(FlagKind.IDENTIFIER_PARTIAL, found.value)] if partial else [],
        identifier=kind,
        component=component,
        value=found.value,
        partial=partial,
    )
    work.put(made)
