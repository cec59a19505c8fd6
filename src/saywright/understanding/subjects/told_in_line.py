""" "Piston's pitted, seal's hard and the boot's split so I'll order all three": each that was told of."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.statements import ConditionNote, Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_FEWEST = 3


def every_told(subject: Subject, work: Working, kind: str) -> list[Subject]:
    """The parts told of in this utterance that "all three" means; [] where it means others."""
    plain = subject.pronoun and subject.selector == "all" and not subject.which and subject.age is None
    if not plain or kind == "value" or subject.count is None or subject.count < _FEWEST:
        return []
    told = [
        s.component
        for s in work.out
        if isinstance(s, Reading | ConditionNote | Movement) and s.component and s.id not in work.gone
    ]
    named = list(dict.fromkeys(told))
    parts = [part for part in map(work.sheet.get, named) if part is not None]
    if len(parts) != subject.count or any(part.count == subject.count for part in parts):
        return []
    one = replace(subject, selector="", count=None, many=False, pronoun=False)
    return [replace(one, components=(part.id,), many=part.count > 1) for part in parts]
