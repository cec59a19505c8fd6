""" "Four seals out of this one": on the side worked on two of one kind and two of another, all so called."""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.sides.turning import count_on, share_of_side
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_TWO = 2
_FEWEST = 3  # "both seals" may be two of a kind


def all_kinds(subject: Subject, work: Working, kind: str) -> list[Subject]:
    """As many of each kind so called as there are, in all or here, where those are as many as were said."""
    said = subject.count or 0
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    if subject.which or said < _TWO:
        return []
    moved = kind in {"off", "on"} and said >= _FEWEST and subject.age != "old"
    named = _told_here(subject, named, work) if moved else named
    if len(named) > 1 and (every := _as_many(named, [c.count for c in named], said)):
        return [_some(subject, c, number) for c, number in every]
    if not moved:
        return []
    here = [(c, _count_here(c, work)) for c in named]
    if len(here) < _TWO or any(not number for _, number in here):
        return []
    kinds, counts = [c for c, _ in here], [number for _, number in here]
    return [_some(subject, c, number) for c, number in _as_many(kinds, counts, said)]


def _as_many(named: list[Component], counts: list[int], said: int) -> list[tuple[Component, int]]:
    """Those of *named* that there are several of, where they are *said* in all, and none of them alone."""
    several = [(c, number) for c, number in zip(named, counts, strict=True) if c.count > 1]
    together = sum(number for _, number in several) == said
    return several if len(several) > 1 and together and all(number < said for number in counts) else []


def _count_here(component: Component, work: Working) -> int:
    """How many of *component* there are on the side worked on; 0 where no side is."""
    hand = work.hand
    side = hand.side if hand is not None and hand.turned else None
    each = max(1, component.count // max(1, len(component.positions)))
    return share_of_side(work.sheet, component, side) or (count_on(component, side) * each if side else 0)


def _told_here(subject: Subject, named: list[Component], work: Working) -> list[Component]:
    """ "Piston seals are swollen dust seals are torn picked all four out": both that were just told of."""
    if not (subject.pronoun and subject.selector == "all") or len(named) > 1:
        return named
    held = named[0].id if named else work.hand.component if work.hand is not None else None
    said = work.out or work.last_group()
    told = [s.component for s in said if isinstance(s, Reading | ConditionNote) and s.id not in work.gone]
    parts = [work.sheet.get(c) for c in dict.fromkeys(told) if c is not None]
    return [part for part in parts if part is not None] if held in told else named


def _some(subject: Subject, component: Component, count: int) -> Subject:
    plain = replace(subject, components=(component.id,), alias=False, selector="", pronoun=False)
    return replace(plain, count=count)
