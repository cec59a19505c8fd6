"""What was planned is done now: "seat's been lapped", of the one seat that was to be lapped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_SEVERAL = 2
_LASTING = frozenset({"soak", "ultrasonic"})  # begun on one side, and over while another is worked on


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


def the_planned_ones(
    parts: Sequence[Part], said: Sequence[Subject], action: str, work: Working
) -> list[Part]:
    """ "They've had their soak": all that it was planned for, where none is named."""
    several = any(s.many or s.selector in {"all", "both"} for s in said)
    if not several or any(s.components and not s.pronoun for s in said) or any(s.which for s in said):
        return list(parts)
    planned = sorted({(of, which or "") for of, which, what in work.planned if what == action})
    if len(planned) < _SEVERAL or len({(part.component, part.single) for part in parts}) > 1:
        return list(parts)
    if any(s.count not in {None, len(planned)} for s in said):
        return list(parts)
    held = work.sheet.get(parts[0].component) if parts else None
    if held is not None and held.count > 1 and all(of != held.id for of, _ in planned):
        return list(parts)  # "mounting nuts" / "they're cleaned"
    if any(s.selector == "both" for s in said) and len(planned) != _SEVERAL:
        return list(parts)
    model = parts[0] if parts else None
    if model is None:
        return []
    known = flag(FlagKind.PART_FROM_CONTEXT, "what it was planned for")
    return [
        replace(model, component=of, whiches=(which or None,), count=None, flags=(known,))
        for of, which in planned
    ]


def as_planned(part: Part, said: Sequence[Subject], action: str, work: Working) -> Part:
    """ "The valves are soaked": of the side that they were to be soaked of, whichever is worked on now."""
    if (
        action not in _LASTING
        or part.single is None
        or any(s.which or s.selector == "other" or s.pronoun for s in said)
        or not said
    ):
        return part
    planned = {which for of, which, what in work.planned if (of, what) == (part.component, action)}
    if len(planned) != 1 or part.single in planned or None in planned:
        return part
    known = flag(FlagKind.PART_FROM_CONTEXT, "what it was planned for")
    return replace(part, whiches=tuple(planned), flags=(*part.flags, known))


def is_renewed(work: Working, part: Part) -> bool:
    """True where one was ordered for *part*, or it was to be replaced: what goes on is another one."""
    acts = {what for of, which, what in work.planned if of == part.component and which in part.whiches}
    return not acts.isdisjoint({"order", "replace"})
