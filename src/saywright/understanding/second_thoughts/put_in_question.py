""" "three point three oh, hang on, I'm on the lip": a value put in question right behind it asks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.flags import FlagKind, flag
from saywright.understanding.second_thoughts.words import NO
from saywright.understanding.statements import Reading, Remark
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

PAUSED: Final = frozenset({("hang", "on"), ("hang", "about"), ("hold", "on"), ("hold", "up"), ("oh", "wait")})
_HELD: Final = frozenset(
    ["on", "at", "in", "under", "over", "off", "across", "against", "not", "holding", "reading", "got", "had",
     "have", "squeezing", "pressing", "measuring", "still", "wrong", "miles", "upside"]
)  # fmt: skip
_WHO: Final = frozenset({"i", "we", "it", "that"})
_IS: Final = frozenset({"am", "is", "was", "were", "are", "have", "had", "got"})
_DOUBT: Final = flag(FlagKind.NUMBER_AMBIGUOUS, "put in question right behind it")
_ELSEWHERE: Final = frozenset({"phone", "line", "way", "break", "it", "that"})
_FEWEST: Final = 4  # tokens
_LONGEST: Final = 10


def put_in_question(work: Working) -> None:
    """Ask about the last value, where a pause and how it was held wrong is all that stands behind it."""
    if _HELD.isdisjoint(work.texts):
        return
    told = [s for s in work.out if type(s) is not Remark]
    if not told or type(told[-1]) is not Reading or told[-1].id not in work.said:
        return
    fact = work.said[told[-1].id]
    if not is_amiss(work.texts[fact.phrase.end :]):
        return
    for one in [s for s in told if type(s) is Reading and work.said.get(s.id) is fact]:
        work.swap(one, one.model_copy(update={"flags": (*one.flags, _DOUBT)}))


def in_question(reading: Reading) -> bool:
    """True where *reading* was so put in question."""
    return _DOUBT in reading.flags


def pauses(texts: Sequence[str]) -> int:
    """How many tokens of a pause open *texts*: "hang on", "no, hold on", "wait"; 0 where none does."""
    at = 1 if texts and texts[0] in NO else 0
    if tuple(texts[at : at + 2]) in PAUSED:
        return at + 2
    return at + 1 if tuple(texts[at : at + 1]) == ("wait",) else 0


def is_amiss(words: Sequence[str]) -> bool:
    """ "hang on, I'm on the lip", "no, it's not square": why a value is none; not "I'm on the phone"."""
    said = [text for text in words if text != BREAK]
    at = pauses(said) or (1 if said and said[0] in NO else 0)
    why = said[at:]
    if not at or not _FEWEST <= len(why) <= _LONGEST or why[-1] in _ELSEWHERE:
        return False
    return why[0] in _WHO and why[1] in _IS and why[2] in _HELD
