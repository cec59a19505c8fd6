""" "Inner three point oh" / "outer three point one" / "they get replaced": both that were told of.

What is in hand is the one that was told last; "they" and "them" are those that were told before it, too, one
behind the other, on the side worked on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_THEY = frozenset({"they", "them", "those", "these"})
_TOLD_OF = frozenset({"doing", "need_new", "finding", "off"})
_REACH = 5  # utterances
_TELLS = (Reading, ConditionNote, ActionNote, Movement)


def told_together(fact: Fact, subject: Subject, part: Part, work: Working) -> Part:
    """*part* of "they" and "them": all of its kind that were told of in a row, where the last is in hand."""
    held = part.single
    if held is None or fact.kind not in _TOLD_OF or work.texts[subject.start] not in _THEY:
        return part
    component = work.sheet.get(part.component)
    if subject.components or subject.other_words or component is None or held not in component.positions:
        return part
    side = work.hand.side if work.hand is not None and work.hand.turned else None
    near = {*(side or "").split()} & {*held.split()}
    told = {which for which in _in_a_row(part.component, work) if near <= {*which.split()}}
    if fact.kind == "off":
        told = {which for which in told if (part.component, which) not in work.came_off}
    several = tuple(which for which in component.positions if which in told or which == held)
    if len(several) < 2:
        return part
    note = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(several)}")
    doubts = [f for f in part.flags if f.level == "ask"]
    return replace(part, whiches=several, count=len(several), flags=(*doubts, note))


def _in_a_row(component: str, work: Working) -> Iterator[str]:
    """Which of *component* were told of, from now back to where something else was told."""
    for group in (work.out, *reversed(work.before.recent[-_REACH:])):
        told = [s for s in group if isinstance(s, _TELLS) and s.id not in work.gone]
        of_it = [s for s in told if s.component == component]
        if told and not of_it:
            return
        yield from (s.which for s in of_it if s.which is not None)
