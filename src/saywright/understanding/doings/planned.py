"""What was planned is done now: "seat's been lapped", of the one seat that was to be lapped."""

from __future__ import annotations

from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working


def the_planned_one(part: Part, action: str, work: Working) -> Part:
    """*part* of a doing that is done; where it was not said which, the only one that it was planned for."""
    component = work.sheet.get(part.component)
    if component is None or not component.positions or part.whiches != (None,):
        return part
    if part.bare_plural or part.count is not None:
        return part
    planned = [which for of, which, what in work.planned if (of, what) == (part.component, action)]
    if len(planned) != 1 or planned[0] is None:
        return part
    work.named(part.component, planned[0])
    known = flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {planned[0]}")
    others = [f for f in part.flags if f.kind != FlagKind.WHICH_UNCLEAR]
    return replace(part, whiches=(planned[0],), flags=(*others, known))


def is_renewed(work: Working, part: Part) -> bool:
    """True where one was ordered for *part*, or it was to be replaced: what goes on is another one."""
    acts = {what for of, which, what in work.planned if of == part.component and which in part.whiches}
    return not acts.isdisjoint({"order", "replace"})
