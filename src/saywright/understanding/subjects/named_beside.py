""" "Pipe off, two bolts out, that cylinder's off": a short name, by what is named beside it in one breath."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.facts import Told
from saywright.understanding.naming.sheet_names import component_names, heads_of
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import named_most_after, next_on_sheet, so_many
from saywright.understanding.working import Working


def told_by_mates(subject: Subject, told: Told, work: Working, movement: str) -> Subject:
    """*subject* with the one of its parts that those named beside it tell; else itself.

    What is named behind it counts for a movement only; the next on the sheet is no more than likely.
    """
    if movement and len(subject.components) == 1:
        return _still_to_move(subject, work, movement)
    if len(subject.components) < 2 or subject.pronoun or subject.unclear:
        return subject
    known = [c for c in map(work.sheet.get, subject.components) if c is not None]
    named = _named_just_before(subject, known, told) or _found_so(subject, known, work)
    if named is not None:
        return replace(subject, components=(named.id,))
    if any(c.has_places(subject.which) for c in known if subject.which):
        return subject
    mates = list(_mates(subject, told, work, movement))
    for mate in mates:
        alike = named_most_after(so_many(known, subject, mate), mate)
        if len(alike) == 1:
            return replace(subject, components=(alike[0].id,))
    hand = work.hand
    here = hand is not None and hand.side_at <= hand.utterance  # else the other side was turned to
    held = hand is not None and (
        (here and hand.component in subject.components) or hand.utterance == work.now
    )
    if not mates or not movement or held:
        return subject
    left = so_many(known, subject, mates[0])
    near = next_on_sheet(left, mates[0], work.sheet)
    if len(near) != 1 or len(left) < 2:
        return subject
    return replace(subject, components=(near[0].id,), unclear=" or ".join(c.label for c in left[:3]))


def _named_just_before(subject: Subject, known: list[Component], told: Told) -> Component | None:
    """ "off the slide pins, upper pin is dry": the one of *known* that was named in full just before."""
    named = {s.components[0] for s in told.subjects if s.end <= subject.start and len(s.components) == 1}
    just = [c for c in known if c.id in named and (not subject.which or c.has_places(subject.which))]
    return just[0] if len(just) == 1 else None


def _found_so(subject: Subject, known: list[Component], work: Working) -> Component | None:
    """ "the broken bolt has been drilled out": the one of *known* of which one was found so."""
    said = work.texts[max(0, subject.start - 2) : subject.start]
    if len(said) < 2 or said[0] not in {"the", "that"}:
        return None
    so = {*work.lexicon.names(said, 1).conditions}
    seen = {c for c, _, condition, present in work.seen if present and condition in so} if so else set()
    found = [c for c in known if c.id in seen]
    return found[0] if len(found) == 1 else None


def _still_to_move(subject: Subject, work: Working, movement: str) -> Subject:
    """ "circlip out, piston out", when the pistons are out already: another one called piston; it asks."""
    said = work.sheet.get(subject.components[0])
    word = work.texts[subject.end - 1]
    if said is None or subject.which or not _moved_before(said, work, movement):
        return subject
    if not any(name == (word,) for name, _ in component_names(said)):
        return subject
    others = [
        c
        for c in work.sheet.component
        if word in heads_of(c)
        and c is not said
        and (work.off.get(c.id, 0) < c.count if movement == "removed" else work.off.get(c.id, 0) > 0)
    ]
    hand = work.sheet.get(work.hand.component) if work.hand is not None else None
    near = next_on_sheet(others, hand, work.sheet) if others else []
    if len(near) != 1:
        return subject
    return replace(subject, components=(near[0].id,), unclear=f"{near[0].label} or {said.label}")


def _moved_before(component: Component, work: Working, movement: str) -> bool:
    """True where all of them are off already, or are on again."""
    away = work.off.get(component.id)
    return away is not None and (away >= component.count if movement == "removed" else away == 0)


def _mates(subject: Subject, told: Told, work: Working, movement: str) -> Iterator[Component]:
    """The parts named in full before it, the nearest first, then those behind it."""
    before = [s for s in reversed(told.subjects) if s.end <= subject.start]
    behind = [s for s in told.subjects if s.start >= subject.end] if movement else []
    for one in (*before, *behind):
        named = [c for c in map(work.sheet.get, one.components) if c is not None]
        many = 2 if one.selector == "both" else one.count
        if len(named) > 1 and many is not None:
            named = [c for c in named if c.count == many]  # "cover on, four screws": those of the one cover
        if len(named) == 1 and named[0].id not in subject.components:
            yield named[0]
