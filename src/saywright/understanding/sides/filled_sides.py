"""A side that is full: what is fitted there now cannot go on there, so it goes on at the other one.

"Right side expander greased", then "new shoes, old springs": the left ones went on a moment ago, so they are
of the side that was named last. So too where the turn itself was not heard at all: "cross the axle", then
"wheel on, eighty five again", while the right wheel is off and the left one is on; what is read there asks.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TypeGuard

from saywright.sheets.model import Component
from saywright.understanding.facts import Told
from saywright.understanding.sides.turning import count_on, other_side
from saywright.understanding.statements import Movement, Statement
from saywright.understanding.working import Working

_GOES_ON = frozenset({"on", "value", "same", "restore"})
_SUMS_UP = ("that", "is")
_JUST_NOW = 3  # utterances in which what went on may be told once more


def side_left(told: Told, work: Working) -> str | None:
    """The other side, where what goes on now is on already on the side turned to; else None."""
    hand = work.hand
    if work.stage != "as_left" or hand is None or hand.side is None:
        return None
    if any(s.which or s.selector for s in told.subjects):
        return None
    going_on = [s for fact in told.facts if fact.kind == "on" for s in fact.subjects]
    named_last = hand.turned_to not in {None, hand.side}
    if named_last or all(fact.kind in _GOES_ON for fact in told.facts):
        going_on += [s for s in told.subjects if s.age is not None]  # "pin's new"
    parts = {c for s in going_on for c in s.components}
    specs = [spec for c in parts if (spec := work.sheet.get(c)) is not None]
    if named_last:
        return hand.side if any(_is_filled(work, spec, hand.turned_to or "") for spec in specs) else None
    if not specs or _SUMS_UP in pairwise(work.texts):
        return None  # "so that's the new spring on": told once more
    across = other_side(work.sheet, hand.side)
    unheard = across is not None and any(_is_across(work, spec, hand.side, across) for spec in specs)
    return across if unheard else None


def _is_across(work: Working, spec: Component, side: str, across: str) -> bool:
    """True where all of *spec* that are on *side* are on for some time, and those *across* are off."""
    if not _is_filled(work, spec, side) or not work.off.get(spec.id, 0):
        return False
    just_now = (s for group in work.before.recent[-_JUST_NOW:] for s in group)
    if _went_on(work, spec, across) or any(_is_of(s, spec) for s in just_now):
        return False
    words = set(across.split())
    return any(c == spec.id and words <= set((which or across).split()) for c, which in work.came_off)


def _is_filled(work: Working, spec: Component, side: str) -> bool:
    """True where all of *spec* that are on *side* went on a moment ago."""
    return 0 < count_on(spec, side) == _went_on(work, spec, side) < spec.count


def _is_of(said: Statement, spec: Component) -> TypeGuard[Movement]:
    return type(said) is Movement and said.component == spec.id


def _went_on(work: Working, spec: Component, side: str) -> int:
    moved = [s for group in work.before.recent for s in group if _is_of(s, spec)]
    on = (s for s in moved if s.movement == "fitted" and (s.which is None or side in s.which.split()))
    return sum(s.count for s in on)
