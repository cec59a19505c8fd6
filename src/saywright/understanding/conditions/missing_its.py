""" "The caliper's missing its bleed nipple": the nipple is missing, and the caliper is there. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import text_at

_IS: Final = frozenset({"is", "are", "was", "were"})
_LEADS: Final = frozenset({"its", "a", "an", "his", "her", "the", "their", "both", "of", "all", *TO_TWELVE})

_CLEARS: Final = frozenset({"by"})


@called_by({"missing"})
def missing_its(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Lower valve's missing its spring": lower valve has its spring missing."""
    at = 2
    while at < len(tokens):
        if tokens[at].text == "missing":
            tokens = _put_behind(tokens, at, lexicon)
        at += 1
    return tokens


def _put_behind(tokens: Tokens, at: int, lexicon: Lexicon) -> Tokens:
    """*tokens* with what is missing named before the word at *at*."""
    texts = tuple([token.text for token in tokens])
    named = at + 1
    while text_at(texts, named) in _LEADS:
        named += 1
    if texts[at - 1] not in _IS or named == at + 1 or named == len(texts):
        return tokens
    found = lexicon.match(texts, named)
    if found is None or not (found[1].parts or found[1].aliases):
        return tokens
    end = named + found[0]
    if not _CLEARS.isdisjoint(texts[end : end + 3]):
        clears = replace(tokens[at], text="clears")  # "the float's missing the bowl by half a mil"
        return (*tokens[: at - 1], clears, *tokens[at + 1 :])
    has = replace(tokens[at - 1], text="has")
    return (*tokens[: at - 1], has, *tokens[at + 1 : end], tokens[at], *tokens[end:])
