"""A side named in passing that work goes on at: "right side expander greased", then "new shoes, old springs".

The left ones went on a moment ago, so no more can go on there: those that are fitted now are of the side that
was named last, and it is turned to.
"""

from __future__ import annotations

from saywright.understanding.facts import Told
from saywright.understanding.sides.turning import count_on
from saywright.understanding.statements import Movement
from saywright.understanding.working import Working


def side_left(told: Told, work: Working) -> str | None:
    """The side named last, where what goes on now is on already on the side turned to; else None."""
    hand = work.hand
    if work.stage != "as_left" or hand is None or hand.side is None or hand.turned_to in {None, hand.side}:
        return None
    going_on = [s for fact in told.facts if fact.kind == "on" for s in fact.subjects]
    going_on += [s for s in told.subjects if s.age is not None]
    if any(s.which or s.selector for s in told.subjects):
        return None
    named = {c for s in going_on for c in s.components}
    return hand.side if named and any(_is_filled(work, c, hand.turned_to or "") for c in named) else None


def _is_filled(work: Working, component: str, side: str) -> bool:
    """True where all of *component* that are on *side* went on a moment ago."""
    spec = work.sheet.get(component)
    there = count_on(spec, side) if spec is not None else 0
    went = (
        s
        for group in work.before.recent
        for s in group
        if type(s) is Movement and s.movement == "fitted" and s.component == component
    )
    on = sum(s.count for s in went if s.which is None or side in s.which.split())
    return spec is not None and 0 < there == on < spec.count
