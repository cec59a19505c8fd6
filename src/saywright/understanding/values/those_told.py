""" "Left pistons out", "they're all thirty point oh two": each of those told of just now, no others."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component
from saywright.understanding.discourse import Hand
from saywright.understanding.facts import Told
from saywright.understanding.statements import Movement
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, which_flags
from saywright.understanding.working import Working

_SEVERAL: Final = 2  # fewer are no side among many


def those_told(
    work: Working, subject: Subject | None, part: Part, component: Component, told: Told | None = None
) -> Part:
    """*part*, which is of all of its kind, cut to those that the last line told of, where it told of some.

    It asks where only so many of them were moved and nobody said which.
    """
    every = component.whiches
    if told is not None and sum(f.kind == "value" for f in told.facts) > 1:
        return part  # "they're one twelve one fifteen": one each
    if subject is None or subject.components or subject.which or subject.count == len(every):
        return part
    if subject.pronoun and subject.many and len(every) >= _SEVERAL and part.whiches != every:
        return _they_all(work, part, component)
    if len(every) <= _SEVERAL or part.whiches != every:
        return part
    said = [s for s in work.last_group() if getattr(s, "component", None) == component.id]
    named = {which for s in said if (which := getattr(s, "which", None)) is not None}
    some = tuple(which for which in every if which in named)
    moved = max((s.count for s in said if type(s) is Movement and s.which is None), default=0)
    if not some and moved and _SEVERAL <= moved < len(every):
        there = _there(every, work.hand)
        if len(there) != moved:
            return replace(part, whiches=(None,), flags=(*part.flags, *which_flags(component)))
        some = there
    if not _SEVERAL <= len(some) < len(every) or (subject.count or len(some)) != len(some):
        return part
    known = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(some)}")
    return replace(part, whiches=some, flags=(*part.flags, known))


def _they_all(work: Working, part: Part, component: Component) -> Part:
    """ "The bowls are on", "they get three newton metres": all that were moved just now, on either side."""
    told = [s for s in work.last_group() if getattr(s, "component", None) == component.id]
    all_moved = any(
        type(s) is Movement and s.which is None and s.count == len(component.whiches) for s in told
    )
    if not all_moved:
        return part
    sure = tuple(f for f in part.flags if f.kind != FlagKind.WHICH_UNCLEAR)
    return replace(part, whiches=component.whiches, flags=sure)


def those_found_so(work: Working, subject: Subject | None, part: Part) -> Part:
    """ "Left pistons out", "they're all pitted": so are those, where it is said of all of them in one."""
    component = work.sheet.get(part.component)
    if component is None or subject is None or not (subject.selector == "all" or subject.many):
        return part
    every = component.whiches
    if part.whiches == every:
        return those_told(work, subject, part, component)
    if part.whiches != (None,) or any(f.kind == FlagKind.WHICH_UNCLEAR for f in part.flags):
        return part
    cut = those_told(work, subject, replace(part, whiches=every), component)
    return cut if cut.whiches not in {every, (None,)} else part


def _there(every: tuple[str, ...], hand: Hand | None) -> tuple[str, ...]:
    """Those of *every* on the side that the talk is at."""
    side = (hand.side or hand.turned_to or "") if hand is not None else ""
    said = set(side.split())
    return tuple(which for which in every if said <= set(which.split())) if said else ()
