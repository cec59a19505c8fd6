""" "Front plate, put that on it too" behind an order: one more. "Before I pull anything": only when. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.statements import ActionNote
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_PUTS: Final = frozenset({"put", "stick", "write", "get"})
_THAT: Final = frozenset({"that", "those", "one", "them", "this"})
_ON_IT: Final = frozenset({("on", "it"), ("on", "there"), ("down",), ("on", "as", "well"), ("on", "too")})
_TOO: Final = frozenset({(), ("too",), ("as", "well"), ("and", "all"), ("while", "you", "are", "there")})
_WHO: Final = frozenset({"i", "we"})
_ALL: Final = frozenset({"anything", "everything"})
_VERB_AND_ALL: Final = 4  # "before I pull anything"


@called_by(_PUTS)
def put_on_it_too(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* as an order, where they put a part on what was told to be a list of orders just before."""
    texts = tuple([token.text for token in tokens])
    verb = next((i for i in range(1, len(texts)) if texts[i] in _PUTS), 0)
    if not verb or text_at(texts, verb + 1) not in _THAT or not _ordered(state, lexicon):
        return tokens
    behind = tuple(text for text in texts[verb + 2 :] if text != BREAK)
    if not any(behind[: len(on)] == on and behind[len(on) :] in _TOO for on in _ON_IT):
        return tokens
    if not any(lexicon.names(texts, i).parts for i in range(verb) if texts[i] != BREAK):
        return tokens
    return (replace(tokens[0], text="order"), *tokens[:verb])


def _ordered(state: Discourse, lexicon: Lexicon) -> bool:
    """True where the last utterance ordered something."""
    told = [s for s in state.recent[-1] if isinstance(s, ActionNote)] if state.recent else []
    found = [lexicon.sheet.get_action(s.action) for s in told]
    return any(action is not None and action.order for action in found)


@called_by({"before"})
def before_anything(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* without "before I pull anything", which moves nothing yet."""
    texts = [token.text for token in tokens]
    for at in range(1, len(texts) - _VERB_AND_ALL + 1):
        said = texts[at : at + _VERB_AND_ALL]
        if said[0] == "before" and said[1] in _WHO and said[3] in _ALL:
            end = at + _VERB_AND_ALL + (text_at(texts, at + _VERB_AND_ALL) in {"out", "off", "apart"})
            border = (replace(tokens[at], text=BREAK),) if end < len(texts) else ()
            return (*tokens[:at], *border, *tokens[end:])
    return tokens
