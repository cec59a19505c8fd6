""" "Trailing a dead four", "it's bang on eighteen": words before a number that tell nothing is over. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_EXACT: Final = frozenset([("a", "dead"), ("dead", "on"), ("bang", "on"), ("spot", "on"), ("smack", "on")])
_NUMBERS: Final = frozenset(CLASSES) - {"and"}


@called_by({"dead", "bang", "spot", "smack"})
def exact_before(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* without such words right before a number: it is told by itself."""
    texts = [token.text for token in tokens]
    for at in range(len(texts) - 2):
        if (texts[at], texts[at + 1]) in _EXACT and texts[at + 2] in _NUMBERS:
            return (*tokens[:at], *tokens[at + 2 :])
    return tokens
