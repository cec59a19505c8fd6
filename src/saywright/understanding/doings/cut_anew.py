""" "I'll cut a new bit of fuel line", "have to make a new gasket": a new one is needed. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_CUTS: Final = frozenset({"cut", "make"})
_WILL: Final = frozenset({"will", "must", "shall"})
_HAS_TO: Final = frozenset({"have", "has", "had", "got", "need", "needs", "going", "want"})
_PIECES: Final = frozenset({"bit", "piece", "length", "strip"})


@called_by(_CUTS)
def cut_anew(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what is to be cut or made anew as what is needed, while the job comes apart."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(1, len(texts)) if texts[i] in _CUTS and _is_to_be(texts, i)), 0)
    begin = at + 1 + (text_at(texts, at + 1) == "up")
    if not at or state.stage == "as_left" or texts[begin : begin + 2] != ["a", "new"]:
        return tokens
    piece = text_at(texts, begin + 2) in _PIECES and text_at(texts, begin + 3) == "of"
    end = begin + (4 if piece else 2)
    named = lexicon.match(tuple(texts), end) if text_at(texts, end) not in {"", BREAK} else None
    if named is None or not (named[1].parts or named[1].aliases):
        return tokens
    return put_words(tokens, at - 1, end, "need", "a", "new")


def _is_to_be(texts: list[str], verb: int) -> bool:
    """ "Will cut", "have to make"; not "forgot to make", "told me to cut"."""
    return texts[verb - 1] in _WILL or (texts[verb - 1] == "to" and text_at(texts, verb - 2) in _HAS_TO)
