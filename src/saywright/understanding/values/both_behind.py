""" "Pads are eleven point five, both of them": behind a pause, and still said of each. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SAID: Final = {
    tuple(said.split())
    for said in (
        "both", "both of them", "the pair of them", "the two of them", "the pair", "both the same", "each",
        "both sides",
        "that is both", "that is both of them", "both alike", "for both", "on both", "on each", "both ends",
    )
}  # fmt: skip
_HEADS: Final = frozenset({"both", "pair", "two", "each"})
_ALL: Final = frozenset({"all", "both", "each"})
_SHARES: Final = frozenset({"half", "quarter", "quarters", "eighth", "eighths"})
_LONGEST: Final = max(map(len, _SAID))


@called_by(_HEADS)
def with_both_behind(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "both" right behind the value, where nothing else is told behind it."""
    tail = tuple([token.text for token in tokens[-_LONGEST - 1 :]])
    if _HEADS.isdisjoint(tail):
        return tokens
    for length in range(min(_LONGEST, len(tail) - 1), 0, -1):
        if tail[-length:] in _SAID:
            return _joined(tokens, length, state, lexicon)
    return tokens


@called_by(_ALL)
def turned_out(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """ "Mixture screws one and a half out, all four": with "turns", which "out" stands for."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _ALL and i > 1), 0)
    if not at:
        return tokens
    out = at - 2 if texts[at - 1] == BREAK else at - 1
    if out < 1 or texts[out] != "out" or texts[out - 1] not in _SHARES:
        return tokens
    return (*tokens[:out], replace(tokens[out], text="turns"), *tokens[at:])


def _joined(tokens: tuple[Token, ...], length: int, state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """The tokens with their last *length* as one word behind the number before."""
    at = len(tokens) - length
    end = at - 1 if tokens[at - 1].text == BREAK else at
    same = length > 1 and tokens[at].text in {"both", "the"}  # "both the same", "the pair of them": no pause
    if end < 1 or (end == at and not same):
        return tokens
    texts = tuple([token.text for token in tokens[:end]])
    if not (is_number_word(texts, end - 1) or texts[-1] in lexicon.units):
        return tokens
    both = replace(tokens[at], text="both")
    alone = is_number_word(texts, 0)  # of what is in hand
    if alone and (state.hand is None or state.hand.which is not None):
        return tokens  # of the one in hand, and of what else is not told
    return (both, *tokens[:end]) if alone else (*tokens[:end], both)
