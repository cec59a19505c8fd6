"""States that were believed, or ought to be: "I thought it was bent", "it needs to be dead flat". Pure.

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
_MUST: Final = frozenset({"must", "should", "shall"})
_OUGHT_TO: Final = frozenset(
    ["want", "wants", "need", "needs", "needed", "has", "have", "had", "ought", "supposed", "meant", "got"]
)  # fmt: skip
_OUGHT_REACH: Final = 6  # tokens: "needs to be nice and"
_WANT: Final = frozenset({"want", "like", "need", "prefer"})
_CHECK: Final = frozenset({"check", "see", "ensure"})  # "I'd check that it isn't worn"
_TO_CHECK: Final = frozenset({"", "would", "should", "to", "will", "must", "always"})
_IS: Final = frozenset({"is", "are", "was", "were", "has"})
_OUGHT: Final = _WANT | _CHECK | {"be"}
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


def ought_to_be(fact: Fact, texts: Sequence[str]) -> bool:
    """ "The plate needs to be dead flat", "it must be dry": how it ought to be, not how it is."""
    if fact.kind != "finding" or _OUGHT.isdisjoint(texts):
        return False
    head = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    if _is_wished(texts, head):
        return True
    at = next((i for i in range(head, max(-1, head - _OUGHT_REACH), -1) if texts[i] == "be"), 0)
    if at and texts[at - 1] == "to":
        return at > 1 and texts[at - 2] in _OUGHT_TO
    return at > 0 and texts[at - 1] in _MUST


def _is_wished(texts: Sequence[str], head: int) -> bool:
    """ "You want those bushings nice and smooth", "I'd check the bearing isn't rumbling": none was found."""
    for at in range(head - 1, max(-1, head - _REACH), -1):
        if texts[at] in _STOPS - {"is", "are"}:
            return False
        before = texts[at - 1] if at else ""
        if texts[at] in _WANT and (before in _WHO or (before, texts[at]) == ("would", "like")):
            return _IS.isdisjoint(texts[at:head])
        if texts[at] in _CHECK and before in _TO_CHECK:
            return not _IS.isdisjoint(texts[at:head])
    return False


def _was_so(texts: Sequence[str], start: int) -> bool:
    behind = range(start + 1, min(len(texts), start + _AFTER))
    return any(tuple(texts[i : i + len(one)]) == one for i in behind for one in _SO)
