"""Whether the job goes back together, where nobody said so: by what was fitted just before."""

from __future__ import annotations

from collections.abc import Collection
from itertools import islice, takewhile

from saywright.understanding.statements import ActionNote, Correction, Movement, Reading, Statement
from saywright.understanding.working import Working

_MAY_TURN = frozenset({Movement, Correction})
_ROW_OF_FITTED = 3  # movements; one or two parts are also put back to try them


def going_back(work: Working) -> bool:
    """True where one part after the other was fitted: it goes back together."""
    if _MAY_TURN.isdisjoint(map(type, work.out)):
        return False
    moves = islice((s for s in work.newest() if type(s) is Movement), _ROW_OF_FITTED)
    fitted = takewhile(lambda move: move.movement == "fitted", moves)
    return sum(1 for _ in fitted) == _ROW_OF_FITTED


def begins_back(work: Working, components: Collection[str]) -> bool:
    """True where parts were going on when this was said, and of each of *components* some are off.

    "new spring in" / "new seals both sides": the job goes back together, though nobody said so.
    """
    if work.stage == "as_left":
        return True
    off = [work.off.get(component, 0) for component in components]
    return bool(off) and all(off) and were_going_on(work)


def were_going_on(work: Working) -> bool:
    """True where what was told last, but for values and what was done, is that something went on."""
    told = islice((s for s in work.newest() if not _is_beside(s, work)), 1)
    return any(type(s) is Movement and s.movement == "fitted" for s in told)


def _is_beside(statement: Statement, work: Working) -> bool:
    """A value, what was done, an old one that came off for the new one; and all that is told here."""
    if type(statement) is Reading or any(statement is one for one in work.out):
        return True
    if type(statement) is Movement:
        return (statement.movement, statement.part) == ("removed", "old")
    return type(statement) is ActionNote and statement.status == "done"
