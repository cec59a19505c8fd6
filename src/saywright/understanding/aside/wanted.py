"""Values that are wanted or written down as the limit, and were not read: "I want it at one fifty". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_ENDS: Final = frozenset({BREAK, "and", "but", "so", "because", "though"})
_WANTS: Final = frozenset({"want", "wants", "wanted", "wanting", "need", "needs", "prefer"})
_IS: Final = frozenset({"is", "are", "am"})
# Between the wish and the number: what is wanted so, and small words.
_IT: Final = frozenset({"it", "them", "her", "him", "that", "this", "those", "these", "they"})
_SMALL: Final = _IT | frozenset(
    ["to", "be", "being", "at", "up", "down", "back", "in", "out", "a", "the", "of", "nearer", "closer",
     "set", "really", "about", "around", "round", "both", "all", "just", "more", "like", "somewhere"]
)  # fmt: skip
_LIMIT: Final = frozenset(
    {"limit", "limits", "maximum", "minimum", "max", "min", "spec", "wear", "service", "the", "scrap", "size"}
)
_NOUNS: Final = frozenset({"limit", "limits", "maximum", "minimum", "max", "min", "spec"})
_WRITTEN: Final = frozenset(
    ["cast", "stamped", "printed", "written", "marked", "engraved", "etched", "on", "in", "inside", "there",
     "moulded", "embossed"]
)  # fmt: skip
_LEADS: Final = frozenset({"it", "that", "is", "at", "so"})
WISH: Final = _WANTS | _NOUNS | {"after", "like", "with"}  # one of these is said where it is only wanted


def is_only_wanted(fact: Fact, texts: Sequence[str]) -> bool:
    """True for a value that is wanted, or stands somewhere as the limit."""
    return _is_wanted(fact, texts) or _is_written_limit(fact, texts)


def _is_wanted(fact: Fact, texts: Sequence[str]) -> bool:
    """ "want it about one fifty", "we're after two bar", "I'd like it nearer nine"."""
    before = _clause(texts, fact.phrase.start)
    at = next((i for i in range(len(before) - 1, -1, -1) if _wishes(before, i)), None)
    return at is not None and _SMALL.issuperset(before[at + 1 :])


def _clause(texts: Sequence[str], start: int) -> Sequence[str]:
    """The words of its clause before the number at *start*."""
    at = start
    while at and texts[at - 1] not in _ENDS:
        at -= 1
    return texts[at:start]


def _wishes(before: Sequence[str], at: int) -> bool:
    """True for a word of wishing at *at*."""
    word, last = before[at], before[at - 1] if at else ""
    if word in _WANTS:  # "wanted two turns to bottom it": so much it took
        return word != "wanted" or before[at + 1 : at + 2] == ("it",) or last in {"i", "we"}
    if word == "after":  # "after two bar it held": behind no verb
        return last in _IS
    return (word == "like" and last == "would") or (word == "with" and last == "do" and "could" in before)


def _is_written_limit(fact: Fact, texts: Sequence[str]) -> bool:
    """ "limit's cast on the drum, two oh five": the clause before says that the limit stands there."""
    start = fact.phrase.start
    gap = start
    while gap and texts[gap - 1] in _LEADS:
        gap -= 1
    if fact.characteristics or not gap or texts[gap - 1] != BREAK:
        return False
    head = _clause(texts, gap - 1)
    noun = 0
    while noun < len(head) and head[noun] in _LIMIT:
        noun += 1
    if not noun or _NOUNS.isdisjoint(head[:noun]) or head[noun : noun + 1] != ("is",):
        return False
    return not _WRITTEN.isdisjoint(head[noun:])
