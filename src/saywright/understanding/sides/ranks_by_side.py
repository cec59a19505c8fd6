""" "Second groove left and third right", "clip third notch left second right": each its own. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import ORDINALS
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LEADS: Final = frozenset({"on", "the"})
_BETWEEN: Final = frozenset({"and", "but", "then", "the", BREAK})
_TWO: Final = 2


@called_by(ORDINALS)
def ranks_by_side(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the noun behind each rank of such a row, and "on the" before its side."""
    texts = tuple([token.text for token in tokens])
    if lexicon.positions.isdisjoint(texts):
        return tokens
    begin = next((at for at in range(len(texts)) if _noun(texts, at, lexicon)), len(texts))
    noun = _noun(texts, begin, lexicon)
    out = list(tokens[:begin])
    at, places = begin, []
    while at < len(texts):
        end = at + 1 + (text_at(texts, at + 1) == noun)
        side = end
        while text_at(texts, side) in _LEADS:
            side += 1
        if text_at(texts, at) not in ORDINALS or text_at(texts, side) not in lexicon.positions:
            break
        words = ((texts[at], at), (noun, at), ("on", side), ("the", side), (texts[side], side))
        out += [Token(word, tokens[i].word) for word, i in words]
        places.append(texts[side])
        at = side + 1
        while text_at(texts, at) in _BETWEEN:
            at += 1
    return (*out, *tokens[at:]) if noun and len(set(places)) == len(places) >= _TWO else tokens


def _noun(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> str:
    """The noun behind a rank at *at* that is read so, with a side behind it; "" without one."""
    if text_at(texts, at) not in ORDINALS or text_at(texts, at + 2) not in lexicon.positions | _LEADS:
        return ""
    return texts[at + 1] if lexicon.names(texts, at + 1).characteristics else ""
