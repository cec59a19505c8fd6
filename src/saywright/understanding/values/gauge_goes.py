""" "The gauge goes up to thirty one and stays there", "needle settles at two bar": what it says. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_GAUGES: Final = frozenset({"gauge", "dial", "clock", "pointer", "meter"})
_MOVES: Final = frozenset(
    ["goes", "went", "comes", "came", "climbs", "climbed", "gets", "got", "rises", "rose", "creeps", "crept",
     "settles", "settled", "stays", "stayed", "sits", "sat", "stops", "stopped", "holds", "held", "hangs",
     "swings", "swung", "runs", "stands", "going", "climbing", "sitting", "holding", "staying", "hit", "hits"]
)  # fmt: skip
_WAYS: Final = frozenset({"up", "round", "around", "steady", "there", "all", "the", "way", "right", "out"})
_TO: Final = frozenset({"to", "at", "on"})
_HEDGES: Final = frozenset({"about", "around", "nearly", "just", "under", "over", "roughly"})
_AND_STAYS: Final = frozenset({"stays", "stayed", "holds", "held", "sits", "stops", "stopped", "settles"})
_STILL: Final = frozenset({"there", "steady", "put", "it"})


@called_by(_GAUGES)
def gauge_goes(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with "says" for how a gauge comes to what it says."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _GAUGES), len(texts))
    begin = at + 1 + (text_at(texts, at + 1) in {"is", "has", "just", "now"})
    if text_at(texts, begin) not in _MOVES:
        return tokens
    end = begin + 1
    while text_at(texts, end) in _WAYS:
        end += 1
    if text_at(texts, begin) not in {"hit", "hits"}:
        if text_at(texts, end) not in _TO:
            return tokens
        end += 1
    number = end + (text_at(texts, end) in _HEDGES)
    if text_at(texts, number) not in CLASSES:
        return tokens
    said = (*tokens[: at + 1], replace(tokens[begin], text="says"), *tokens[end:])
    return _without_stay(said)


def _without_stay(tokens: Tokens) -> Tokens:
    """ "… and stays there" at the end: no more is told by it."""
    texts = [token.text for token in tokens]
    stays = len(texts) > 3 and texts[-3] == "and" and texts[-2] in _AND_STAYS and texts[-1] in _STILL
    holds = len(texts) > 2 and texts[-2] == "and" and texts[-1] in _AND_STAYS
    if not (stays or holds):
        return tokens
    at = len(texts) - (3 if stays else 2)
    return (*tokens[:at], replace(tokens[at], text=BREAK), *tokens[at + 1 :])
