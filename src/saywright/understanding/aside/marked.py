"""Serial numbers, part numbers, stamps and tags that an utterance reads out; talk of the last picture."""

from __future__ import annotations

import re
from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Sheet
from saywright.understanding.aside.identifiers import (
    ALPHABET,
    READS,
    Spelled,
    spelled,
    spelled_after,
    spelled_out,
)
from saywright.understanding.aside.photo_talk import OPENERS, of_the_last_picture
from saywright.understanding.facts import Mark, Told
from saywright.understanding.second_thoughts.corrected_copies import own_fields
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.words import TURNING, read_turn
from saywright.understanding.statements import Identifier, IdentifierKind, Unclear
from saywright.understanding.steps import CUES
from saywright.understanding.tokens import spoken_form
from saywright.understanding.working import Working

_KINDS: tuple[tuple[str, IdentifierKind], ...] = (
    ("SERIAL", "serial"),
    ("PART_NUMBER", "part_number"),
    ("TAG", "tag"),
    ("STAMP", "stamp"),
    ("ENDS", "serial"),
)

_CALLED = frozenset(
    ["number", "numbers", "code", "letters", "mark", "marks", "stamp", "casting", "plate", "sticker", "label",
     "decal", "badge"]
)  # fmt: skip
_OF_PICTURES, _TURNS, _SPELLED = CUES.bit(OPENERS), CUES.bit(TURNING), CUES.bit(ALPHABET.keys() | _CALLED)


def put_identifiers(work: Working, told: Told) -> list[tuple[int, int]]:
    """Put out the identifiers of an utterance; the tokens they are made of.

    All tokens where it only says something of the picture announced last.
    """
    cues = work.cues
    if cues & _OF_PICTURES and of_the_last_picture(work):
        return [(0, len(work.texts))]
    spans = _put_again(work) if cues & _TURNS else []
    loose = spelled_out(work.texts, _CALLED) if cues & _SPELLED else None
    called: IdentifierKind | None = None
    for mark in told.marks:
        kind = next((kind for tag, kind in _KINDS if tag in mark.tags), None)
        found = spelled_after(work.texts, mark.end) if kind is not None else None
        if kind is None or found is None or any(start <= found.start < end for start, end in spans):
            continue
        found = _corrected(work, found)
        if kind in {"stamp", "tag"} and not found.letters:
            continue  # "marked forty five" is a value
        if loose is not None and "no" in work.texts[found.end : loose.start]:
            work.remark(mark.start, found.end, "taken back")
            spans.append((mark.start, found.end))
            called = kind  # "serial's one one four, no, that's the motor, the pump says kilo …"
            continue
        ends = [m for m in told.marks if "ENDS" in m.tags and mark.end <= m.start <= found.start]
        _put(work, told, kind, mark, found, partial="ENDS" in mark.tags or bool(ends))
        spans.append((mark.start, found.end))
    if loose is not None and not any(start < loose.end and loose.start < end for start, end in spans):
        _put_loose(work, told, loose, called)
        spans.append((loose.start, loose.end))
    return spans


def _put_again(work: Working) -> list[tuple[int, int]]:
    """ "serial four four one seven" … "no, four four one nine": the mark read out last, put right."""
    at, turned = read_turn(work.texts, 0, len(work.texts))
    at -= work.texts[at - 1 : at] == ("a",)  # the letter
    old = next(reversed(just_said(work)), None) if turned else None
    found = spelled(work.texts, at) if isinstance(old, Identifier) else None
    if found is None or not isinstance(old, Identifier) or found.end != len(work.texts):
        return []
    if len(found.value) != len(old.value):
        return []  # the end of it, or something else: it asks
    fresh = work.make(Identifier, 0, found.end, flags=old.flags, stage=old.stage, **own_fields(old))
    work.put(fresh.model_copy(update={"value": found.value}))
    work.supersede([old.id], fresh.id, 0, found.end)
    return [(0, found.end)]


def _corrected(work: Working, found: Spelled) -> Spelled:
    """ "four four one seven, no, sorry, four four one nine": the second of the same length."""
    at, turned = read_turn(work.texts, found.end, len(work.texts))
    again = spelled(work.texts, at) if turned else None
    if again is None or again.start != at or len(again.value) != len(found.value):
        return found
    return replace(found, value=again.value, end=again.end, letters=again.letters)


def _put_loose(work: Working, told: Told, found: Spelled, kind: IdentifierKind | None) -> None:
    """ "there's a number on it, delta echo one seven": a mark where it is called one, else it asks."""
    start, end = found.start, found.end
    if (
        kind is None
        and _CALLED.isdisjoint(work.texts[:start])
        and READS.isdisjoint(work.texts[max(0, start - 1) : start])
    ):
        held = work.hand.component if work.hand is not None else None
        reason = "letters and digits were spelled out, of what was not said"
        work.put(work.make(Unclear, start, end, component=held, reason=reason))
        return
    mark = Mark(frozenset(), 0, start, start)
    _put(work, told, kind or "stamp", mark, found, partial=False)


def _whole(sheet: Sheet) -> str | None:
    """What the sheet is of, where it lists that too: the "pump" of a "diaphragm water pump, belt driven"."""
    title = spoken_form(re.split(r",| of | with | for ", sheet.title)[0])
    called = [(c.id, spoken_form(c.names[0])) for c in sheet.component]
    whole = [component for component, name in called if title[-len(name) :] == name]
    return whole[0] if len(whole) == 1 else None


def _put(
    work: Working, told: Told, kind: IdentifierKind, mark: Mark, found: Spelled, *, partial: bool
) -> None:
    named = [s for s in told.subjects if s.components and s.start < found.start]
    component = named[-1].components[0] if named else None
    if component is None and kind in {"stamp", "part_number"} and work.hand is not None:
        component = work.hand.component
    if component is None and kind == "serial" and "on" not in work.texts[mark.start : found.start]:
        component = _whole(work.sheet)
    made = work.make(
        Identifier,
        mark.start,
        found.end,
        flags=[
            *([flag(FlagKind.IDENTIFIER_PARTIAL, found.value)] if partial else []),
            *([flag(FlagKind.HOMOPHONE, found.sounds)] if found.sounds else []),
        ],
        identifier=kind,
        component=component,
        value=found.value,
        partial=partial,
    )
    work.put(made)
