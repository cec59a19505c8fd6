"""Something new named by itself, without a verb: "new ones for these", "always a new one of course". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.walk import Walk

_OPENERS: Final = frozenset(
    ["so", "right", "okay", "well", "and", "that", "is", "a", "always", "definitely", "obviously", "just",
     "yes", "yeah", "oh", "both", "all", "pair", "set", "of", BREAK, *TO_TWELVE]
)  # fmt: skip
_SEVERAL: Final = frozenset({*TO_TWELVE[1:], "both", "all"})
_SURE: Final = frozenset({"then", "please", "obviously", "definitely", "naturally", "too", "also", BREAK})
_SURE_IN_WORDS: Final = (
    ("i", "think"), ("i", "reckon"), ("of", "course"), ("i", "am", "afraid"), ("all", "round"),
    ("as", "well"), ("as", "usual"), ("every", "time"), ("no", "question"), ("either", "way"),
    ("without", "question"), ("that", "is"), ("for", "sure"),
)  # fmt: skip
_THERE: Final = (("there",), ("on", "that", "side"))
_FOR: Final = frozenset({"that", "this", "those", "these", "it", "them", "him", "her", "both"})
_LEADS_TO_NEW: Final = frozenset(
    ["with", "like", "as", "than", "no", "not", "the", "for", "of", "on", "in", "by", "was", "were", "from",
     "is", "are", "needs", "need", "wants", "want"]
)  # fmt: skip


def new_alone(walk: Walk, index: int) -> bool:
    """ "new hose then", "it's split, new one": nothing else, or the end of what is wrong with it.

    Settled where the old one has a fault, or was read beyond a limit.
    """
    phrase, texts = walk.phrases[index], walk.texts
    if "NEW" not in phrase.lead_tags:
        return False
    behind = texts[phrase.end :]
    meant = _behind_sure(behind)
    if meant is None:
        return False
    before = texts[: phrase.start]
    if _OPENERS.issuperset(before):
        one = phrase.head is not None and phrase.head.kind == "ONE"
        many = texts[phrase.start] in _SEVERAL  # "two new drums"
        return one or meant or many  # "new hose" alone may be one that goes in
    if before[-1] == "so":
        return True  # "twenty eight seven's the limit so new cylinder"
    last = walk.last
    found = last is not None and last.kind == "finding" and not (last.negated or walk.waiting or walk.claims)
    return found and before[-1] not in _LEADS_TO_NEW and not walk.glue & {"DECLINE", "OR"}


def _behind_sure(behind: Sequence[str]) -> bool | None:
    """Whether what stands *behind* something new tells that it is wanted; None where it tells anything else.

    "For that", "then", "of course"; nothing at all tells no more than "there" does.
    """
    at = 2 if tuple(behind[:1]) == ("for",) and not _FOR.isdisjoint(behind[1:2]) else 0
    meant = bool(at)
    if meant and tuple(behind[at : at + 1]) in {(BREAK,), ("and",)}:
        return True  # "new one for that and the old one in the bin"
    while at < len(behind):
        said = next((one for one in _SURE_IN_WORDS if tuple(behind[at : at + len(one)]) == one), ())
        if not said and behind[at] not in _SURE:
            there = tuple(behind[at:]) in _THERE
            return meant if there else None
        meant = meant or bool(said) or behind[at] != BREAK
        at += len(said) or 1
    return meant
