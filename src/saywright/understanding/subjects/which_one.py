"""Which of several a state or a movement is of, where it was not said and none of them is in hand."""

from __future__ import annotations

from saywright.flags import Flag, FlagKind
from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.subjects.parts import Part, which_flags


def doubt_place(fact: Fact, part: Part, which: str | None, sheet: Sheet) -> list[Flag]:
    """ "disc's scored", where there is a left and a right one and neither is in hand: which one asks."""
    component = sheet.get(part.component)
    said = which is not None or part.bare_plural or part.count is not None
    if said or component is None or not component.positions or not fact.subjects:
        return []
    asked = any(one.kind is FlagKind.WHICH_UNCLEAR for one in part.flags)
    return [] if asked or any(s.many for s in fact.subjects) else which_flags(component)
