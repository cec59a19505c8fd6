"""The same that is only expected: "the right will be the same", "probably the same", "the same, I bet". Pure.

"I expect the right's the same, yep it is" was looked at.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_WILL: Final = frozenset({"will", "would", "should", "shall", "might", "may", "could", "must", "to"})
_BETWEEN: Final = frozenset(
    {"be", "all", "just", "exactly", "much", "about", "the", "very", "pretty", "only"}
)
_EXPECTS: Final = frozenset(
    ["probably", "presumably", "expect", "expecting", "bet", "betting", "imagine", "guess", "guessing",
     "suspect", "assume", "assuming", "suppose", "supposing", "likely", "hopefully", "doubtless", "wager"]
)  # fmt: skip
_NO_DOUBT: Final = ("no", "doubt")
_STOPS: Final = frozenset({BREAK, "and", "but"})
_SEEN: Final = frozenset({"yes", "yep", "yeah", "yup", "aye", "enough"})  # "sure enough"
_IT_IS: Final = (("it", "is"), ("they", "are"), ("so", "it"), ("that", "is"))
_DONE_SO: Final = frozenset({("again",), ("story",), ("thing",), ("job",), ("drill",)})
_LINKS: Final = frozenset({"the", "on", "with", "for", "in"})
_ALWAYS: Final = frozenset({("usual",), ("always",), ("ever",), ("yesterday",)})
_BEFORE: Final = frozenset({("last",), ("previous",), ("other",)})
_JOBS: Final = frozenset(
    (noun,)
    for noun in ("job", "time", "week", "month", "year", "visit", "service", "day", "machine", "customer")
)
_FOUND: Final = frozenset(
    ["looks", "looked", "turns", "turned", "out", "proves", "proved", "seems", "appears", "found",
     "measured", "comes", "came"]
)  # fmt: skip
_SURELY: Final = (BREAK, "no", "doubt", "about")
_BEHIND: Final = 5  # tokens: "as the left I should think"


def expected_same(fact: Fact, texts: Sequence[str]) -> str:
    """Why *fact*, that another one is the same, is not for the record: nobody has looked; "" where it is."""
    if "should" in texts[: fact.phrase.start]:
        return "quoted limit"  # "they should both be the same"
    if "same" not in texts:
        return ""
    if _is_of_another_job(texts[texts.index("same") :]):
        return "another job or time"
    return "what if" if _is_expected(fact, texts) else ""


def _is_of_another_job(said: Sequence[str]) -> bool:
    """ "The same as the last job", "as last time", "as on every one of these": how it went before."""
    behind = said[1 + (tuple(said[1:2]) in _DONE_SO) :]
    if tuple(behind[:1]) != ("as",):
        return False
    rest = tuple(word for word in behind[1:4] if word not in _LINKS)
    return rest[:1] in _ALWAYS or (rest[:1] in _BEFORE and rest[1:2] in _JOBS)


def _is_expected(fact: Fact, texts: Sequence[str]) -> bool:
    near = range(fact.phrase.start, len(texts))
    at = next((i for i in near if texts[i] == "same"), -1)
    if at < 0 or _is_so(texts[at + 1 :]):
        return False
    be = at
    while be and texts[be - 1] in _BETWEEN:
        be -= 1
    if "be" in texts[be:at] and texts[be - 1] in _WILL:
        return texts[be - 1] != "to" or _FOUND.isdisjoint(texts[max(0, be - 3) : be - 1])
    begin = next((i + 1 for i in range(at, -1, -1) if texts[i] in _STOPS), 0)
    clause = texts[begin : at + 1 + _BEHIND]
    doubted = _NO_DOUBT in pairwise(clause) and tuple(texts[at + 1 : at + 5]) != _SURELY
    return not _EXPECTS.isdisjoint(clause) or doubted


def _is_so(behind: Sequence[str]) -> bool:
    """ "Yep", "and it is", "so it is", said behind it."""
    pairs = pairwise(behind)
    return not _SEEN.isdisjoint(behind) or any(pair in _IT_IS for pair in pairs)
