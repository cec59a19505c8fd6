"""What moved behind a movement without its verb: "pilot back in, then the tube, then the main jet".

Parts that go back are off by then, or the whole job goes back; those that come off are on still. No more may
be said of them than where they go and how: a state, a number or a verb of their own is of something else.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import MANNERS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

ROWS: Final = frozenset({"then", "and"})
_JOINS: Final = frozenset({"and", "then", "next", "after", "that", "the", "its", "his", "also", BREAK})
_ENDS: Final = frozenset({"", BREAK, "and", "then"})
_THERE: Final = (
    frozenset(["on", "over", "behind", "under", "in", "back", "last", "again", "too", "there", "to", "with"])
    | MANNERS
)
_TOLD_OF_IT: Final = frozenset(
    ["is", "are", "was", "were", "not", "no", "will", "would", "need", "needs", "want", "wants", "has",
     "have", "order", "bin", "bench", "if", "when", "can", "could", "should", "do", "dip", "tank"]
)  # fmt: skip
_APART: Final = frozenset({"QUESTION", "WHATIF", "OTHER_JOB", "FUTURE", "NOT_MOVED", "BEFORE_WORK", "LIMIT"})
_NEAR: Final = 4  # tokens between two parts of a row


def rows_behind(told: Told, work: Working) -> None:
    """The facts of movements, with the parts that go on behind them."""
    moves = [f for f in told.facts if f.kind in {"off", "on"} and any(s.components for s in f.subjects)]
    if not moves or any(mark.tags & _APART for mark in told.marks):
        return
    taken = {s.start for fact in told.facts for s in fact.subjects}
    for said in told.subjects:
        before = [fact for fact in moves if fact.told_to <= said.start]
        if said.start in taken or not before or said.pronoun or not said.components:
            continue
        if _goes_on(before[-1], said, work):
            before[-1].subjects = [*before[-1].subjects, said]
            before[-1].cover(said.start, said.end)


def _goes_on(moved: Fact, said: Subject, work: Working) -> bool:
    between = work.texts[moved.told_to : said.start]
    if not between or len(between) > _NEAR or not _JOINS.issuperset(between):
        return False
    last = said.end == len(work.texts)
    if "then" not in between and not (last and "and" in between):
        return False
    surely = "then" in between and work.stage == "as_left"
    return _may_move(moved, said, work, surely=surely) and _is_there(work.texts[said.end :])


def _may_move(moved: Fact, said: Subject, work: Working, *, surely: bool) -> bool:
    parts = [part for part in map(work.sheet.get, said.components) if part is not None]
    away = [work.off.get(part.id, 0) for part in parts]
    if moved.kind == "on":
        return surely or any(away)
    return work.stage == "as_found" and any(off < part.count for off, part in zip(away, parts, strict=True))


def _is_there(behind: Sequence[str]) -> bool:
    """ "… on top to hold it", "… crosswise": where it went and how, up to the next one."""
    first = behind[0] if behind else ""
    if first in _ENDS:
        return True
    ends = next((i for i, text in enumerate(behind) if text in _ENDS), len(behind))
    return first in _THERE and _TOLD_OF_IT.isdisjoint(behind[:ends])
