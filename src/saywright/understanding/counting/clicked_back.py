""" "Up till they bind, then back five clicks": where it is set, counted from there; no rear one. Pure.

And in "in till it seats then out two turns" the seat is no part.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TILL: Final = frozenset({"till", "until", "til"})
_FULL: Final = _TILL | {"tight", "locked", "hard", "solid", "full", "home", "rubbing", "binding", "dragging"}
_TWO: Final = 2
_CLICKS: Final = frozenset({"click", "clicks", "notch", "notches"})
_JOINS: Final = frozenset({"then", "and", BREAK, "so"})
_OFF: Final = frozenset({"off", "it", "them", "her", "him", "again", "each", "out"})
_IT: Final = frozenset({"it", "they", "she", "he", "them"})
_NUMBERS: Final = frozenset(CLASSES) - {"point"}
_SETS: Final = frozenset({"turn", "turns", "click", "clicks", "notch", "notches", "out", "back"})


@called_by(_CLICKS, beside={"back"})
def clicked_back(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with "five clicks back" for "back five clicks", behind how far it was wound first."""
    texts = [token.text for token in tokens]
    for at in range(1, len(texts) - 2):
        if texts[at] != "back" or texts[at - 1] not in _JOINS or _FULL.isdisjoint(texts[:at]):
            continue
        begin = at + 1
        while text_at(texts, begin) in _OFF:
            begin += 1
        end = begin
        while text_at(texts, end) in _NUMBERS:
            end += 1
        if end > begin and text_at(texts, end) in _CLICKS:
            back = tokens[at : at + 1] if text_at(texts, end + 1) != "on" else ()  # "back on" would be fitted
            led = () if at <= _TWO and texts[0] in _FULL else tokens[:at]  # "tight and back four clicks"
            return (*led, *tokens[begin : end + 1], *back, *tokens[end + 1 :])
    return tokens


@called_by(_TILL, beside=_SETS)
def till_it_seats(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "till it touches" for "till it seats", where the verb is called like a part."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text in _TILL), len(texts))
    if text_at(texts, at + 1) not in _IT or _SETS.isdisjoint(texts[at + 3 :]):
        return tokens
    told = lexicon.names(texts, at + 2) if at + 2 < len(texts) else None
    if told is None or not (told.parts or told.aliases):
        return tokens
    return (*tokens[: at + 2], Token("touches", tokens[at + 2].word), *tokens[at + 3 :])
