"""What is told of the whole: "no leaks anywhere" is of the pump, where the sheet has the pump itself."""

from __future__ import annotations

import re
from typing import Final

from saywright.sheets.model import Component, Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.working import Working

_ANYWHERE: Final = frozenset({"anywhere"})
_PARTS_OF_TITLE: Final = re.compile(r",| with | and | of | for | from ")


def is_of_the_whole(fact: Fact, work: Working) -> bool:
    """ "bled it through, no leaks anywhere": of all there is, and of no part by itself."""
    behind = work.texts[fact.phrase.end : fact.phrase.end + 1]
    return fact.negated and not any(s.components for s in fact.subjects) and not _ANYWHERE.isdisjoint(behind)


def put_on_the_whole(fact: Fact, work: Working) -> bool:
    """Make the machine itself what *fact* is told of; False where the sheet has no such part."""
    whole = _the_whole(work.sheet)
    if whole is None:
        return False
    fact.subjects = [subject_of_components((whole.id,), fact.phrase.start, fact.phrase.end)]
    return True


def _the_whole(sheet: Sheet) -> Component | None:
    """The single part that a noun of the title names: the pump of "Two-chamber pump, overhaul"."""
    single = {
        name[0]: c
        for c in sheet.component
        if c.count == 1 and not c.positions
        for name, _ in component_names(c)
        if len(name) == 1
    }
    heads = [words[-1] for part in _PARTS_OF_TITLE.split(sheet.title.lower()) if (words := part.split())]
    return next((single[head] for head in heads if head in single), None)
