"""Which of several that the sheet names goes on: the only one that is off: "new key, pulley on"."""

from __future__ import annotations

from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.understanding.statements import Movement
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working


def fitted_lately(component: str, work: Working) -> frozenset[str | None]:
    """The places of *component* where one went on, as far as is remembered."""
    moves = (s for s in work.live() if type(s) is Movement and s.component == component)
    return frozenset(s.which for s in moves if s.movement == "fitted")


def the_one_off(part: Part, work: Working) -> Part:
    """ "new key, pulley on": of several that the sheet names, the only one that is off."""
    component = work.sheet.get(part.component)
    if component is None or not component.positions or part.bare_plural or (part.count or 1) > 1:
        return part
    off = [which for of, which in work.came_off if of == part.component]
    if len(off) > 1 or off == [None]:
        on = fitted_lately(part.component, work)
        off = [which for which in (component.positions if None in off else off) if which not in on]
    if work.off.get(part.component, 0) != 1 or len(off) != 1 or off[0] is None:
        return part
    known = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {off[0]}")
    others = [f for f in part.flags if f.kind != FlagKind.WHICH_UNCLEAR]
    return replace(part, whiches=(off[0],), flags=(*others, known))
