"""What would happen, told as a reason or a warning: "because that will damage it", "or it'll crack". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_REASONS: Final = frozenset({"because", "since", "otherwise", "cos", "or"})
_ENDS: Final = frozenset({BREAK, "but", "so"})
_ARTICLES: Final = frozenset({"a", "an"})
_IT: Final = frozenset({"it", "they", "he", "she"})
_REACH: Final = 12  # tokens from the reason to the finding
_BEHIND: Final = 5  # tokens behind the finding in which its verb stands


def would_happen(fact: Fact, texts: Sequence[str], start: int) -> bool:
    """True for a finding in a clause that gives a reason or a warning by what will or would come of it."""
    if fact.kind != "finding":
        return False
    floor = max(0, start - _REACH)
    at = next((i for i in range(start - 1, floor - 1, -1) if texts[i] in _REASONS or texts[i] in _ENDS), None)
    if at is None or texts[at] in _ENDS:
        return False
    clause = _till_end(texts[at + 1 : max(fact.phrase.end, start + _BEHIND)])
    if texts[at] != "or" and start == at + 2 and texts[at + 1] in _ARTICLES:
        return True  # "because a swollen hose holds the brake on": any such hose
    will = next((i for i, text in enumerate(clause) if text in {"will", "would"}), None)
    if not will or tuple(clause[will + 1 : will + 2]) == ("not",):
        return False
    return not (clause[will] == "would" and clause[will - 1] in _IT)  # "because it would stick": it did


def _till_end(clause: Sequence[str]) -> Sequence[str]:
    end = next((i for i, text in enumerate(clause) if text in _ENDS), len(clause))
    return clause[:end]
