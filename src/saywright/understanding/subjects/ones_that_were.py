"""One told by a clause: "the one that was stuck is thirty point oh one" is the stuck one. Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_ONES: Final = frozenset({"one", "ones"})
_THAT: Final = frozenset({"that", "which"})
_WAS: Final = frozenset({"was", "were"})
_CLAUSE: Final = 3  # tokens of "one that was"


_CAME: Final = frozenset(
    {("came", "out"), ("came", "off"), ("were", "in"), ("were", "on"), ("was", "in"), ("was", "on")}
)
_BEHIND: Final = frozenset({"", BREAK, "and", "but", "so", "there", "before"})


@called_by(_ONES, beside=_WAS | {"came"})
def ones_that_were(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the state before the one that it was told of."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts) - _CLAUSE):
        if texts[at] in _ONES and _came_out(texts, at):  # "the other three are the ones that came out"
            return (*tokens[:at], Token("old", tokens[at].word), tokens[at], *tokens[at + _CLAUSE + 1 :])
        one, that, was = texts[at : at + _CLAUSE]
        if texts[at - 1] != "the" or one not in _ONES or that not in _THAT or was not in _WAS:
            continue
        state = lexicon.match(texts, at + _CLAUSE)
        if state is not None and state[1].conditions and not (state[1].parts or state[1].aliases):
            end = at + _CLAUSE + state[0]
            return (*tokens[:at], *tokens[at + _CLAUSE : end], tokens[at], *tokens[end:])
    return tokens


def _came_out(texts: tuple[str, ...], at: int) -> bool:
    told = texts[at - 2 : at] in {("are", "the"), ("is", "the")} and texts[at + 1] in _THAT
    return told and texts[at + 2 : at + 4] in _CAME and text_at(texts, at + 4) in _BEHIND
