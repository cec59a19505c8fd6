"""A number that fits nowhere well: outside the plausible, and in doubt for another reason too.

"wheels on and a hundred and sixty on the nuts" is no torque of the pipe nuts, the only nuts of the sheet.
Either doubt alone is asked about with the value in its place. Where both meet the number is more often of
something else, so its words stay an open question and no value stands in the record. Where what is read is
named, or a verb leads to the number ("the spring measures to point nine"), it is asked about in its place.
"""

from __future__ import annotations

from typing import Final

from saywright.flags import FlagKind
from saywright.understanding.statements import Correction, Reading, Statement, Unclear
from saywright.understanding.working import Working

_OUTSIDE: Final = FlagKind.OUTSIDE_PLAUSIBLE
# What doubts whether the number is of this place at all, or is this number.
_OTHER: Final = frozenset(
    {
        FlagKind.CHARACTERISTIC_AMBIGUOUS,
        FlagKind.NUMBER_AMBIGUOUS,
        FlagKind.NUMBER_ODD,
        FlagKind.PART_AMBIGUOUS,
        FlagKind.PART_MENDED,
        FlagKind.SECOND_NUMBER,
        FlagKind.WHICH_UNCLEAR,
    }
)
_SAID: Final = ("id", "stage", "heard", "start_s", "end_s", "line", "utterance", "component")


def leave_open(work: Working) -> None:
    """Readings of this utterance that are twice in doubt become open questions, one for each number said."""
    doubtful = [s for s in work.out if type(s) is Reading and _is_twice_in_doubt(s)]
    if not doubtful:
        return
    corrected = {s.by for s in work.out if type(s) is Correction} | work.gone
    asked: set[int] = set()
    for one in doubtful:
        fact = work.said.get(one.id)
        if fact is None or one.id in corrected or fact.characteristics or fact.introduced:
            continue
        del work.said[one.id]
        _take_back(work, one, None if id(fact) in asked else _open(one))
        asked.add(id(fact))


def _is_twice_in_doubt(reading: Reading) -> bool:
    kinds = {one.kind for one in reading.flags}
    return _OUTSIDE in kinds and not kinds.isdisjoint(_OTHER)


def _open(reading: Reading) -> Statement:
    said = {name: getattr(reading, name) for name in _SAID}
    return Unclear(reason="outside what is plausible there, and in doubt besides", **said)


def _take_back(work: Working, old: Reading, instead: Statement | None) -> None:
    """*old* was no reading: *instead* is put out, and what held before holds."""
    kept = [instead if s is old else s for s in work.out]
    work.out = [s for s in kept if s is not None]
    for book, earlier in ((work.first, work.before.first), (work.latest, work.before.latest)):
        for key in [key for key, reading in book.items() if reading is old]:
            del book[key]
            if key in earlier and earlier[key].id not in work.gone:
                book[key] = earlier[key]
