""" "Pipe off, two bolts out, that cylinder's off": a short name, by what is named beside it in one breath."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.facts import Told
from saywright.understanding.part_picks import named_most_after, next_on_sheet
from saywright.understanding.parts import so_many
from saywright.understanding.subjects import Subject
from saywright.understanding.working import Working


def told_by_mates(subject: Subject, told: Told, work: Working, movement: str) -> Subject:
    """*subject* with the one of its parts that those named beside it tell; else itself.

    What is named behind it counts for a movement only; the next on the sheet is no more than likely.
    """
    if len(subject.components) < 2 or subject.which or subject.pronoun or subject.unclear:
        return subject
    known = [c for c in map(work.sheet.get, subject.components) if c is not None]
    mates = list(_mates(subject, told, work, movement))
    for mate in mates:
        alike = named_most_after(so_many(known, subject, mate), mate)
        if len(alike) == 1:
            return replace(subject, components=(alike[0].id,))
    hand = work.hand
    here = hand is not None and hand.side_at <= hand.utterance  # else the other side was turned to
    if not mates or not movement or (hand is not None and here and hand.component in subject.components):
        return subject
    if hand is not None and hand.utterance == work.now:
        return subject
    left = so_many(known, subject, mates[0])
    near = next_on_sheet(left, mates[0], work.sheet)
    if len(near) != 1 or len(left) < 2:
        return subject
    return replace(subject, components=(near[0].id,), unclear=" or ".join(c.label for c in left[:3]))


def _mates(subject: Subject, told: Told, work: Working, movement: str) -> Iterator[Component]:
    """The parts named in full before it, the nearest first, then those behind it."""
    before = [s for s in reversed(told.subjects) if s.end <= subject.start]
    behind = [s for s in told.subjects if s.start >= subject.end] if movement else []
    for one in (*before, *behind):
        part = work.sheet.get(one.components[0]) if len(one.components) == 1 else None
        if part is not None and part.id not in subject.components:
            yield part
