"""What moved, or did not, by a change of mind: "bowl's off … no it isn't", "that was the pilot jet"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.statements import Movement, Statement
from saywright.understanding.working import Working


def not_moved(work: Working, old: Sequence[Statement], new: Sequence[Statement] = ()) -> None:
    """Those of *old* that came off are on, and what takes their place, *new*, is off."""
    for one in old:
        if isinstance(one, Movement) and one.movement == "removed":
            left = work.off.get(one.component, 0) - one.count
            work.off = {**work.off, one.component: left} if left > 0 else _without(work, one.component)
            work.came_off = work.came_off - {(one.component, one.which)}
    for one in new:
        if isinstance(one, Movement) and one.movement == "removed":
            work.off = {**work.off, one.component: work.off.get(one.component, 0) + one.count}
            work.came_off = work.came_off | {(one.component, one.which)}


def _without(work: Working, component: str) -> dict[str, int]:
    return {name: count for name, count in work.off.items() if name != component}
