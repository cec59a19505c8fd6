"""One told by a clause: "the one that was stuck is thirty point oh one" is the stuck one. Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token

_ONES: Final = frozenset({"one", "ones"})
_THAT: Final = frozenset({"that", "which"})
_WAS: Final = frozenset({"was", "were"})
_CLAUSE: Final = 3  # tokens of "one that was"


@called_by(_ONES, beside=_WAS)
def ones_that_were(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the state before the one that it was told of."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts) - _CLAUSE):
        one, that, was = texts[at : at + _CLAUSE]
        if texts[at - 1] != "the" or one not in _ONES or that not in _THAT or was not in _WAS:
            continue
        state = lexicon.match(texts, at + _CLAUSE)
        if state is not None and state[1].conditions and not (state[1].parts or state[1].aliases):
            end = at + _CLAUSE + state[0]
            return (*tokens[:at], *tokens[at + _CLAUSE : end], tokens[at], *tokens[end:])
    return tokens
