"""The other one of two is the same one all through an utterance, whichever is in hand meanwhile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading, Statement
from saywright.understanding.subjects.noun_phrases import Subject

_IT = frozenset({"it", "that", "she", "he"})


def keep_other(
    fact: Fact, later: Sequence[Fact], made: Sequence[Statement], texts: Sequence[str] = ()
) -> None:
    """ "The other one's a forty five, clean": what is said next of it is of the one that *made* are of.

    So is what an "it" behind it is said of: "other one's come away whole but it's brittle".
    """
    if not [subject for subject in fact.subjects if subject.selector == "other"]:
        return
    found = {
        (s.component, s.which) for s in made if isinstance(s, ActionNote | ConditionNote | Movement | Reading)
    }
    if len(found) != 1:
        return
    component, which = found.pop()
    if component is None or which is None:
        return
    said = [s.start for s in fact.subjects if s.selector == "other"]
    for one in later:
        one.subjects = [
            _known(s, component, which) if s.start in said or texts[s.start] in _IT else s
            for s in one.subjects
        ]


def _known(subject: Subject, component: str, which: str) -> Subject:
    if subject.selector != "other":
        return subject
    return replace(subject, components=(component,), which=(which,), selector="", pronoun=False, alias=False)
