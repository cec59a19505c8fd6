"""A side named at the head of a row: "right pads, inner five point five, outer six" are of the right."""

from __future__ import annotations

from saywright.sheets.model import Component
from saywright.understanding.facts import Told
from saywright.understanding.subjects import Subject
from saywright.understanding.working import Working


def place_by_head(told: Told, work: Working) -> None:
    """Give the places of a row the side that the part was named with, whatever side is in hand."""
    for head in told.subjects:
        if len(head.components) != 1 or len(head.which) != 1:
            continue
        component = work.sheet.get(head.components[0])
        if component is not None and head.which[0] in component.place_words:
            _place_row(told, head, component)


def _place_row(told: Told, head: Subject, component: Component) -> None:
    for fact in told.facts:
        for at, subject in enumerate(fact.subjects):
            if subject.start < head.end or not subject.which:
                continue
            if subject.components != head.components or subject.which[0] in component.positions:
                return  # of another part, or with a side of its own
            words = {*subject.which[0].split(), *head.which}
            placed = [one for one in component.positions if set(one.split()) == words]
            if len(placed) != 1:
                return
            fact.subjects[at] = subject.placed(placed[0])
