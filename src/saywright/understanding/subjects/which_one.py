"""Which of several a state or a movement is of, where it was not said and none of them is in hand."""

from __future__ import annotations

from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.sides.turning import words_on
from saywright.understanding.statements import Movement
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, which_flags
from saywright.understanding.working import Working

_POINTING = frozenset({"that", "this"})
_TOLD_OF = frozenset({"finding", "doing", "need_new"})
_JUST_NOW = 2  # utterances
_TWO = 2


def doubt_place(fact: Fact, part: Part, which: str | None, sheet: Sheet) -> list[Flag]:
    """ "disc's scored", where there is a left and a right one and neither is in hand: which one asks."""
    component = sheet.get(part.component)
    said = which is not None or part.bare_plural or part.count is not None
    if said or component is None or not component.positions or not fact.subjects:
        return []
    asked = any(one.kind is FlagKind.WHICH_UNCLEAR for one in part.flags)
    return [] if asked or any(s.many for s in fact.subjects) else which_flags(component)


def that_one(fact: Fact, subject: Subject, part: Part, work: Working) -> Part:
    """ "that seat wants lapping": the one of them that was told of last, on the side worked on."""
    component = work.sheet.get(part.component)
    pointed = subject.components and work.texts[subject.start] in _POINTING and fact.kind in _TOLD_OF
    if not pointed or component is None or not component.positions or part.whiches != (None,):
        return part
    if subject.many or subject.count is not None or subject.selector or subject.age is not None:
        return part
    last = next((s for s in work.newest() if getattr(s, "component", None) == component.id), None)
    which = getattr(last, "which", None)
    side = work.hand.side if work.hand is not None and work.hand.turned else None
    if which is None or not words_on(component, side) <= set(which.split()):
        return part
    others = [f for f in part.flags if f.kind != FlagKind.WHICH_UNCLEAR]
    note = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {which}")
    return replace(part, whiches=(which,), flags=(*others, note))


def other_of_two(subject: Subject, part: Part, work: Working) -> Part:
    """ "the other cable's frayed", with neither in hand: the one that nothing was found on yet."""
    component = work.sheet.get(part.component)
    if part.whiches != (None,) or component is None:
        return part
    if subject.many or subject.count is not None or len(component.positions) != _TWO:
        return part
    told = {which for c, which, _, _ in work.seen if c == component.id}
    left = [which for which in component.positions if which not in told]
    if len(left) != 1 or None in told:
        return part
    others = [f for f in part.flags if f.kind != FlagKind.WHICH_UNCLEAR]
    note = flag(FlagKind.PART_FROM_CONTEXT, f"{left[0]}, the other one")
    return replace(part, whiches=(left[0],), flags=(*others, note))


def the_one_left(fact: Fact, part: Part, work: Working) -> Part:
    """ "cover off", where all others came off before: the one that is still on, and it is in hand.

    So too where the side worked on would tell another, which came off long before.
    """
    component, hand = work.sheet.get(part.component), work.hand
    if component is None or len(component.positions) < 2 or part.bare_plural or part.count is not None:
        return part
    if any(s.which or s.selector or s.many for s in fact.subjects) or not fact.subjects:
        return part
    gone = {which for c, which in work.came_off if c == component.id}
    left = [position for position in component.positions if position not in gone]
    told = part.single if part.single is not None else hand.side if hand is not None else None
    if len(left) != 1 or None in gone or told == left[0] or _came_off_now(component.id, work):
        return part
    if part.single is None and told in component.stations:
        return part
    work.named(component.id, left[0])
    note = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {left[0]}")
    return replace(part, whiches=(left[0],), flags=(*part.flags, note))


def _came_off_now(component: str, work: Working) -> bool:
    """True where one of *component* came off just before: it may be told once more."""
    recent = (s for group in (*work.before.recent[-_JUST_NOW:], work.out) for s in group)
    return any(isinstance(s, Movement) and s.component == component for s in recent)
