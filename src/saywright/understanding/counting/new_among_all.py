""" "Valves in, the right one's new": of all that went in one is told by itself, and is not counted twice."""

from __future__ import annotations

from saywright.understanding.statements import Movement
from saywright.understanding.working import Working


def count_apart(work: Working) -> None:
    """Take those whose age is told by themselves out of the count of all that were fitted."""
    moves = [s for s in work.out if type(s) is Movement and s.movement == "fitted"]
    if len(moves) < 2:
        return
    for every in moves:
        spec = work.sheet.get(every.component)
        if every.which is not None or spec is None or every.count != spec.count:
            continue
        aged = [s for s in moves if s.component == every.component and s.which and s.part]
        aged = [s for s in aged if s.part != every.part]  # "old ones back in … and the new one in the top"
        told = sum(s.count for s in aged)
        if 0 < told < every.count:
            rest = every.model_copy(update={"count": every.count - told})
            work.out = [rest if s is every else s for s in work.out]
