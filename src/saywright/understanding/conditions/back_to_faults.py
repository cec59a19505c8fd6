"""Doings that point back by a fault: "polished that nick out", "I'd replace that hose"."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import ConditionNote
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_TWO = 2
_POINTING = frozenset({"that", "those"})


def of_that_fault(fact: Fact, told: Told, work: Working) -> list[Subject]:
    """The subjects of a doing; for "that nick" the part on which it was found, else the part asks."""
    condition = _pointed_at(fact, told, work)
    if condition is None or any(s.components for s in fact.subjects):
        return fact.subjects
    found = [(part, which) for part, which, what, present in work.seen if what == condition and present]
    parts = {part for part, _ in found if part is not None}
    if not parts or (work.hand is not None and work.hand.component in parts):
        return fact.subjects
    here = subject_in_hand(fact.phrase.start, fact.phrase.end)
    if len(parts) > 1:
        return [replace(here, unclear=condition)]
    whiches = {which for _, which in found}
    which = tuple(w for w in whiches if w is not None) if len(whiches) == 1 else ()
    return [replace(here, components=tuple(parts), pronoun=False, which=which)]


def is_fault(work: Working, condition: str) -> bool:
    """True for a condition that is none of a good part."""
    known = work.sheet.get_condition(condition)
    return known is not None and not known.good


def has_fault(work: Working, subjects: Collection[Subject]) -> bool:
    """True where a fault of each of *subjects* is on record."""
    faults = {c.id for c in work.sheet.condition if not c.good}
    bad = {part for part, _, what, present in work.seen if present and what in faults}
    held = {work.hand.component} if work.hand is not None else set()
    return bool(subjects) and all(bad & (set(s.components) or held) for s in subjects)


def _pointed_at(fact: Fact, told: Told, work: Working) -> str | None:
    """The condition whose word stands right behind the doing: "polished that nick"."""
    at = fact.phrase.end
    if not _POINTING.intersection(work.texts[at : at + 1]):
        return None
    finding = next((f for f in told.facts if f.kind == "finding" and f.phrase.end > at), None)
    if finding is None or finding.phrase.head is None or finding.phrase.head.start != at + 1:
        return None
    return finding.phrase.meaning.conditions[-1]


def _is_sound(part: Part, work: Working) -> bool:
    """True where *part* was found good, and nothing to be done about it is on record."""
    good = {c.id for c in work.sheet.condition if c.good}
    found = any((part.component, part.single, what, True) in work.seen for what in good)
    return found and all((c, w) != (part.component, part.single) for c, w, _ in work.planned)


def the_sound_one(part: Part, said: Collection[Subject], work: Working) -> Part:
    """ "Change that, leave the other": of two the one that has no fault and is not to be renewed."""
    component = work.sheet.get(part.component)
    if component is None or part.single is None or len(component.whiches) != _TWO:
        return part
    if not all(s.selector == "other" and not s.which for s in said):
        return part
    orders = {action.id for action in work.sheet.action if action.order}
    renewed = {w for c, w, what in work.planned if c == component.id and what in orders}
    faults = {c.id for c in work.sheet.condition if not c.good}
    bad = {w for c, w, what, there in work.seen if c == component.id and there and what in faults}
    taken = renewed or bad
    rest = [w for w in component.whiches if w not in taken]
    if part.single not in taken or len(rest) != 1 or None in taken:
        return part
    return replace(part, whiches=(rest[0],))


def the_faulty_one(part: Part, said: Collection[Subject], work: Working) -> Part:
    """ "I'd replace that hose": of several the one with a fault, where the one in hand has none; it asks."""
    component = work.sheet.get(part.component)
    told = any(s.which or s.selector or s.count or s.described or s.many for s in said)
    by_name = bool(said) and all(s.components and not s.pronoun for s in said)  # "it" is what is in hand
    by_name = by_name or _is_sound(part, work)  # "upper's worn, lower's fine" / "change that"
    here = (s for s in work.out if isinstance(s, ConditionNote))  # "boot's okay, getting changed"
    told = told or any((s.component, s.which) == (part.component, part.single) for s in here)
    if component is None or part.single is None or told or not by_name:
        return part
    faults = {c.id for c in work.sheet.condition if not c.good}
    bad = {w for c, w, what, present in work.seen if c == component.id and present and what in faults}
    if part.single in bad or len(bad) != 1 or None in bad:
        return part
    doubt = flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: {', '.join(w for w in bad if w)}")
    return replace(part, whiches=tuple(bad), flags=(*part.flags, doubt))
