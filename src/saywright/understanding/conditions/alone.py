"""States told alone, behind talk of their part: "oh dear all gummed up in there", "clear right through".

Before them stand cries and little words, behind them how far, or that one may look. A good state that
people also say of the day or the work ("good", "okay") needs words behind it: "fine as far as I can see".
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import TOO
from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import Remark
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_CRIES: Final = frozenset(
    ["oh", "dear", "my", "god", "lord", "and", "but", "well", "look", "at", "that", "this", "see", "yeah",
     "yep", "yuck", "ugh", "blimey", "crikey", "christ", "lovely", "heck", "all", "so", "still", "just",
     "nice", "absolutely", "completely", "totally", "proper", "right", "both", "ah", "um", "uh", BREAK]
)  # fmt: skip
_ENDS: Final = frozenset({"", BREAK, "look", "see", "now", "though", "right", "inside"})
_BEHIND: Final = (
    ("look", "at"), ("look", "you"), ("see", "that"), ("in", "there"), ("as", "far"), ("right", "through"),
    ("all", "through"), ("all", "over"), ("and", "all"), ("as", "you"), ("to", "look"), ("to", "the"),
    ("the", "pair"), ("the", "lot"), ("as", "a"), ("as", "an"), ("as", "the"),
)  # fmt: skip
_TELLS: Final = (("as", "far"), ("as", "the"), ("as", "you"), ("right", "through"))
_BEHIND_TOO: Final = frozenset(
    ["look", "the", "that", "this", "you", "i", "it", "as", "which", "and", "see", "but", BREAK, ""]
)
_IN: Final = frozenset({"in", "on"})
_THE: Final = frozenset({"the", "its", "their", "both"})
_WAYS: Final = frozenset(
    {"straight", "clear", "good", "fine", "tight", "right", "okay"}
)  # "drops straight in the"
_SAID_OF_ALL: Final = frozenset({"good", "tight", "free", "sealing"})  # also of the job, a grip, one's time


def is_told_alone(work: Working, told: Told, fact: Fact, condition: str, *, good: bool) -> bool:
    """True where nothing but this state is told, of what the last utterance told of."""
    start, end = _first(fact), fact.phrase.end
    if work.hand is None or start > len(_CRIES) or not _CRIES.issuperset(work.texts[:start]):
        return False
    if any(f is not fact for f in told.facts) or any(not s.pronoun or s.components for s in fact.subjects):
        return False
    tail = work.texts[end : end + 2]
    if not _ends(work, tail, end) or (good and condition in _SAID_OF_ALL and tail not in _TELLS):
        return False
    return _was_told_of(work) if good else True


def _ends(work: Working, tail: Sequence[str], end: int) -> bool:
    """True where the words from *end* on, that begin with *tail*, tell no more than how far it is so."""
    if work.texts[end : end + 3] == ("as", "you", "go"):
        return False
    too = next((len(one) for one in (tail[:1], tail) if one in TOO), 0)
    if too:
        return (*work.texts[end + too : end + too + 1], "")[0] in _BEHIND_TOO
    return not tail or tail[0] in _ENDS or tail in _BEHIND


def _first(fact: Fact) -> int:
    return fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start


def _was_told_of(work: Working) -> bool:
    """True where the last utterance told of the part in hand, or named it."""
    hand, last = work.hand, work.before.recent[-1] if work.before.recent else ()
    if hand is None or work.now - hand.utterance > 1:
        return False
    return any(not isinstance(s, Remark) for s in last)


def is_told_in_place(work: Working, fact: Fact) -> bool:
    """ "Rings free in the grooves", "slide smooth in its bore": right behind the part, where it is so."""
    start, end = fact.phrase.start, fact.phrase.end
    if end - start != 1 or fact.phrase.aux or work.texts[start] in _WAYS:
        return False
    place = work.texts[end : end + 2]
    if len(place) < 2 or place[0] not in _IN or place[1] not in _THE:
        return False
    return any(s.components and not s.pronoun and s.end == start for s in fact.subjects)
