""" "Leathers were hard so new ones are in", "a new one is going on": it went on, and is no rule. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

_IS: Final = frozenset({"is", "are"})
_ONES: Final = frozenset({"one", "ones"})
_WAYS: Final = frozenset({"in", "on", "fitted"})
_BACK: Final = frozenset({"going", "gone", "back", "now"})
_FOR: Final = frozenset({"for", "of"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "now", "then", "with", "already", "there", "too"})


@called_by(_ONES)
def new_ones_go(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "New ones are going in": new ones going in."""
    texts = [token.text for token in tokens]
    if texts[-4:-2] == ["new", "ones"] and texts[-2] in _FOR and texts[-1] == "both":
        return _for_both(tokens) if text_at(texts, len(texts) - 5) == "so" else tokens
    for at in range(1, len(texts) - 2):
        if texts[at - 1] != "new" or texts[at] not in _ONES or texts[at + 1] not in _IS:
            continue
        way = at + 2
        while text_at(texts, way) in _BACK:
            way += 1
        if text_at(texts, way) in _WAYS and text_at(texts, way + 1) in _ENDS:
            return (*tokens[: at + 1], *tokens[at + 2 :])
    return tokens


def _for_both(tokens: Tokens) -> Tokens:
    """ "Left one's worn and the right one sticks so new ones for both": both are renewed."""
    words = ("i", "will", "replace", "both")
    return (
        *tokens[:-4],
        *(replace(token, text=word) for token, word in zip(tokens[-4:], words, strict=True)),
    )
