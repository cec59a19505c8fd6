"""Words behind a movement that tell which one moved or how old it is: "on the far end", "in, new ones"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.attach_facts import predicate_follows
from saywright.understanding.facts import Fact
from saywright.understanding.subjects import Subject
from saywright.understanding.walk import Walk

_MOVES = frozenset({"off", "on"})
_APART = frozenset({"AND", "BREAK", "BUT", "MARK", "AUX", "OR", "WITH", "WORD"})


def told_of_moved(walk: Walk, index: int, said: Subject) -> bool:
    """True where *said* only tells more of what moved last."""
    last = walk.last
    if last is None or last.kind not in _MOVES or last.segment != walk.segment or said.components:
        return False
    if walk.glue & _APART or predicate_follows(walk, index) or not last.subjects:
        return False
    return _where(walk, last, said) or _how_old(walk, last, said)


def _where(walk: Walk, last: Fact, said: Subject) -> bool:
    """ "new plunger in number two", "the old one back on the far end"."""
    if not said.which or said.age or said.selector or said.count:
        return False
    placed = [s for s in last.subjects[:-1] if s.which]
    placed = (
        placed if len(placed) == len(last.subjects) - 1 else []
    )  # "new one in the top, old one back in …"
    told = last.subjects[len(placed) :]
    if any((s.which and not s.pronoun) or s.selector or s.count for s in told):
        return False
    parts = [walk.sheet.get(c) for s in told for c in s.components]
    if not parts or any(c is None or not set(said.which) <= _ones(c.positions, c.count) for c in parts):
        return False
    last.subjects = [*placed, *(replace(s, which=said.which, many=False) for s in told)]
    _cover(walk, last, said)
    return True


def _how_old(walk: Walk, last: Fact, said: Subject) -> bool:
    """ "oil seals in first, new ones all three"."""
    if said.age is None or any(s.age for s in last.subjects) or last.kind != "on":
        return False
    if not (said.single or said.many):
        return False
    last.subjects = [replace(s, age=said.age) for s in last.subjects]
    _cover(walk, last, said)
    return True


def _ones(positions: tuple[str, ...], count: int) -> set[str]:
    return set(positions) if positions else {str(n) for n in range(1, count + 1)}


def _cover(walk: Walk, last: Fact, said: Subject) -> None:
    last.cover(said.start, said.end)
    walk.glue = set()
