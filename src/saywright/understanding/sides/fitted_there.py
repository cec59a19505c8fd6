""" "Front left new seal in" while the front right is worked on: what goes back on begins another side."""

from __future__ import annotations

from saywright.understanding.facts import Told
from saywright.understanding.sides.turning import FEW_PARTS, has_side, sides_open
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.working import Working

_FEW = 2  # tokens before a part that opens an utterance: "right then", "and now"


def fits_there(head: Subject, told: Told, work: Working) -> bool:
    """ "front left new seal in", turned to the front right: what goes back on begins another side.

    Not where the same part went on elsewhere a moment ago, and nothing was read there since.
    """
    held, side = work.hand, head.which[0]
    if work.stage != "as_left" or held is None or held.turned_to in {None, side} or head.start > _FEW:
        return False
    here = [f for f in told.facts if any(s is head for s in f.subjects)]
    if not here or any(f.kind != "on" for f in here) or not all_have(work.sheet, head.components, [side]):
        return False
    if sum(has_side(c, side) for c in work.sheet.component) < FEW_PARTS:
        return False
    return sides_open(work.sheet, work.before.recent, head.components, "fitted") <= {side}
