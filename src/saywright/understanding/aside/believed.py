"""What somebody believed before he looked: "I thought it was bent", "I'd have sworn it was cracked". Pure.

What the clause goes on with may say that it was so: "I thought it was cracked and it is".
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_BELIEVED: Final = frozenset(
    ["thought", "think", "thinking", "reckoned", "assumed", "expected", "expecting", "imagined", "sworn",
     "convinced", "figured", "guessed", "supposed", "feared", "worried"]
)  # fmt: skip
_NOW: Final = frozenset({"think"})  # "I did think", not "I think"
_WHO: Final = frozenset({"i", "we", "you"})
_WAS: Final = frozenset({"was", "were", "would", "had", "must", "might", "may", "be"})
_STOPS: Final = frozenset({BREAK, "but", "so", "is", "are", "has", "no"})
_BEFORE: Final = 5  # tokens from "I" to the verb: "I would have sworn"
_REACH: Final = 9  # from the verb to the state
_AFTER: Final = 6  # from the state to "and it is"
_SO: Final = (
    ("and", "it", "is"), ("and", "they", "are"), ("and", "it", "was"), ("and", "so", "it"),
    ("and", "so", "they"),
    ("and", "i", "was"), ("as", "i", "thought"), ("sure", "enough"), ("and", "sure", "enough"),
    ("and", "that", "is"), ("and", "yes"), ("and", "yeah"),
)  # fmt: skip


def was_believed(fact: Fact, texts: Sequence[str]) -> bool:
    """True where *fact* is a state that a part was believed to be in earlier."""
    if fact.kind != "finding" or _BELIEVED.isdisjoint(texts):
        return False
    start = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    near = range(start - 1, max(-1, start - 1 - _REACH), -1)
    at = next((i for i in near if texts[i] in _BELIEVED or texts[i] in _STOPS), -1)
    if at < 0 or texts[at] in _STOPS or _WAS.isdisjoint(texts[at + 1 : start + 1]):
        return False
    before = tuple(texts[max(0, at - _BEFORE) : at])
    said = not _WHO.isdisjoint(before) or (texts[at] == "thought" and before[-1:] in ((), (BREAK,)))
    if not said or "not" in before or (texts[at] in _NOW and "did" not in before):
        return False
    return not _was_so(texts, start)


def _was_so(texts: Sequence[str], start: int) -> bool:
    behind = range(start + 1, min(len(texts), start + _AFTER))
    return any(tuple(texts[i : i + len(one)]) == one for i in behind for one in _SO)
