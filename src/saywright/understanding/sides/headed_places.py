"""A side named at the head of a row: "right pads, inner five point five, outer six" are of the right."""

from __future__ import annotations

from saywright.sheets.model import Component
from saywright.understanding.facts import Told
from saywright.understanding.sides.placed_behind import place_by_tail
from saywright.understanding.sides.turning import has_side
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_NOUNS = frozenset({"one", "ones", "side", "end"})


def place_rows(told: Told, work: Working) -> None:
    """Give the places of a row the side that the part was named with, whatever side is in hand."""
    place_by_tail(told, work)
    for head in told.subjects:
        if len(head.components) > 1 or len(head.which) != 1:
            continue
        held = work.hand.component if work.hand is not None and head.pronoun else None  # "the right ones"
        component = work.sheet.get(head.components[0] if head.components else held)
        if component is not None and head.which[0] in component.place_words:
            _place_row(told, head, component, work)


def _place_row(told: Told, head: Subject, component: Component, work: Working) -> None:
    for fact in told.facts:
        for at, subject in enumerate(fact.subjects):
            if subject.start < head.end or not subject.which:
                continue
            if subject.components != head.components or subject.which[0] in component.positions:
                return  # of another part, or with a side of its own
            side = _side_before(subject, head, component, work)
            placed = _positions(component, {*subject.which[0].split(), side})
            if len(placed) != 1:
                return
            fact.subjects[at] = subject.placed(placed[0])


def _side_before(subject: Subject, head: Subject, component: Component, work: Working) -> str:
    """ "right pads are worn, left ones inner four": the side named last before *subject*, or the head's."""
    texts, side = work.texts, head.which[0]
    for at in range(subject.start - 2, head.end - 1, -1):
        if texts[at] not in component.place_words or _positions(component, {side, texts[at]}):
            continue
        noun = texts[at + 1] in _NOUNS or component.id in work.lexicon.names(texts, at + 1).parts
        if noun or texts[at - 1] == "the":
            return texts[at]
    return side


def _positions(component: Component, words: set[str]) -> list[str]:
    """The positions of *component* told by just these *words*."""
    return [one for one in component.positions if set(one.split()) == words]


def heads_row(told: Told, work: Working) -> bool:
    """ "lower box two new springs": what is in it, or on its side, is told behind, counted or new."""
    head, behind = told.subjects[0], told.subjects[1:2]
    if not (behind and head.components and behind[0].components) or head.age or head.count or head.selector:
        return False
    told_of = behind[0].age == "new" or (behind[0].count or 0) > 1
    joined = {*work.texts[head.end : behind[0].start]} - {BREAK}
    there = (c for c in work.sheet.component if c.id in behind[0].components)
    return told_of and not joined and all(has_side(c, head.which[0]) for c in there)
