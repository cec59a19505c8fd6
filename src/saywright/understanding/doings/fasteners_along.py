"""What holds a part, counted right behind it, moved as it did: "bowl on all four screws crosswise".

So too "bowl off four screws one chewed". What tells how they are done up may follow, and what they were like.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact, Told
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.statements import Direction, Movement
from saywright.understanding.subjects.named_beside import told_by_mates
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_JOINS: Final = frozenset({"and", "then", "with", "the", "its", "his", "all", "same", BREAK})
_NOT_SO: Final = frozenset(
    ["is", "are", "was", "were", "still", "to", "left", "missing", "need", "needs", "want", "wants", "later",
     "next", "hold", "holds", "holding", "go", "come", "short", "not", "for", "from"]
)  # fmt: skip
_NOT_ON: Final = frozenset({"in", "on", "where", "lost", "gone", "here", "somewhere", "tomorrow"})
_APART: Final = frozenset({"QUESTION", "WHATIF", "OTHER_JOB", "FUTURE", "NOT_MOVED", "BEFORE_WORK", "LIMIT"})
_NEAR: Final = 3  # tokens between the part and what holds it
_FIND: Final = frozenset({"finding"})


def move_fasteners(told: Told, work: Working) -> None:
    """The movements of fasteners that are counted behind the part that moved."""
    moves = [f for f in told.facts if f.kind in {"off", "on"} and any(s.components for s in f.subjects)]
    if not moves or any(m.tags & _APART for m in told.marks):
        return
    for said in told.subjects if any(type(s) is Movement for s in work.out) else ():
        counted = said.count is not None or said.selector in {"both", "all"}
        if not counted or not said.components or work.texts[said.end - 1] not in FASTENERS:
            continue
        before = [f for f in moves if f.told_to <= said.start]
        if before and _goes_along(before[-1], said, told, work):
            _put(before[-1], said, told, work)


def _goes_along(moved: Fact, said: Subject, told: Told, work: Working) -> bool:
    """True where no more than "and the" stands between, and nothing told of them leaves them there."""
    between = work.texts[moved.told_to : said.start]
    if len(between) > _NEAR or not _JOINS.issuperset(between):
        return False
    if not _NOT_SO.isdisjoint(work.texts[said.end : said.end + 2]):
        return False
    if moved.kind == "on" and not _NOT_ON.isdisjoint(work.texts[said.end : said.end + 1]):
        return False  # "bowl on, four screws in the box"
    told_of = {f.kind for f in told.facts if any(s.start == said.start for s in f.subjects)}
    one_of_them = moved.kind == "off" and work.texts[said.end : said.end + 1] == ("one",)
    return told_of <= (_FIND if one_of_them else frozenset())  # not "poppet out four flange bolts good"


def _put(moved: Fact, said: Subject, told: Told, work: Working) -> None:
    direction: Direction = "fitted" if moved.kind == "on" else "removed"
    said = told_by_mates(said, told, work, direction)
    part = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement=direction)
    if part is None or not _may_move(part, direction, work):
        return
    if not any(type(s) is Movement and s.movement == direction for s in work.out):
        return  # what they hold did not move
    put_movements(work, Fact("on", NO_PHRASE, 0, [said], start=said.start, end=said.end), [part], direction)


def _may_move(part: Part, direction: Direction, work: Working) -> bool:
    """True where it is known which they are, and as many are on yet as come off."""
    component = work.sheet.get(part.component)
    if component is None or part.flags:
        return False
    left = component.count - work.off.get(component.id, 0)
    count = part.count or component.count
    return count <= component.count if direction == "fitted" else count <= left
