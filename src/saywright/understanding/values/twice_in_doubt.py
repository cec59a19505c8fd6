"""A number that fits nowhere well, in doubt for two reasons at once: it stays an open question.

"wheels on and a hundred and sixty on the nuts" is no torque of the pipe nuts, the only nuts of the sheet: it
is outside the plausible, and of which of them was not said. Either doubt alone is asked about with the value
in its place. Where two meet the number is more often of something else, so its words are kept and no value
stands in the record. Where what is read is named, a verb leads to the number ("the spring measures to point
nine") or a row of one kind is told, it is asked about in its place.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from typing import Final

from saywright.flags import FlagKind
from saywright.understanding.statements import Correction, Reading, Statement, Unclear
from saywright.understanding.working import Working

# What doubts whether the number is of this place at all, or is this number.
_DOUBTS: Final = frozenset(
    {
        FlagKind.CHARACTERISTIC_AMBIGUOUS,
        FlagKind.NUMBER_AMBIGUOUS,
        FlagKind.NUMBER_ODD,
        FlagKind.OUTSIDE_PLAUSIBLE,
        FlagKind.PART_AMBIGUOUS,
        FlagKind.PART_MENDED,
        FlagKind.SECOND_NUMBER,
        FlagKind.WHICH_UNCLEAR,
    }
)
_SAID: Final = ("id", "stage", "heard", "start_s", "end_s", "line", "utterance", "component")


def leave_open(work: Working) -> None:
    """Readings of this utterance that are twice in doubt become open questions, one for each number said."""
    doubtful = [s for s in work.out if type(s) is Reading and len(_doubts(s)) > 1]
    if not doubtful:
        return
    corrected = {s.by for s in work.out if type(s) is Correction} | work.gone
    rows = _rows(work)
    asked: set[int] = set()
    for one in doubtful:
        fact = work.said.get(one.id)
        if fact is None or one.id in corrected or fact.characteristics or fact.introduced:
            continue
        if (one.component, one.characteristic) in rows and FlagKind.OUTSIDE_PLAUSIBLE not in _doubts(one):
            continue
        del work.said[one.id]
        _take_back(work, one, None if id(fact) in asked else _open(one))
        asked.add(id(fact))


def _doubts(reading: Reading) -> AbstractSet[FlagKind]:
    return _DOUBTS & {one.kind for one in reading.flags}


def _rows(work: Working) -> AbstractSet[tuple[str, str]]:
    """What several numbers of this utterance were read of."""
    read: dict[tuple[str, str], set[int]] = {}
    for one in work.out:
        if type(one) is Reading and one.id in work.said:
            read.setdefault((one.component, one.characteristic), set()).add(id(work.said[one.id]))
    return {key for key, facts in read.items() if len(facts) > 1}


def _open(reading: Reading) -> Statement:
    said = {name: getattr(reading, name) for name in _SAID}
    return Unclear(reason="a number, but it has no certain place", **said)


def _take_back(work: Working, old: Reading, instead: Statement | None) -> None:
    """*old* was no reading: *instead* is put out, and what held before holds."""
    kept = [instead if s is old else s for s in work.out]
    work.out = [s for s in kept if s is not None]
    for book, earlier in ((work.first, work.before.first), (work.latest, work.before.latest)):
        for key in [key for key, reading in book.items() if reading is old]:
            del book[key]
            if key in earlier and earlier[key].id not in work.gone:
                book[key] = earlier[key]
