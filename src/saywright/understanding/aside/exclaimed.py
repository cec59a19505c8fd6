"""Words called out at the head of a line, which point nowhere: "there, bolt's out". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token

_BEFORE: Final = HESITATIONS | {"okay", "right", "oh", "and", "so", "yes"}


@called_by({"there"})
def exclaimed_apart(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a pause for "there" where a part comes right behind it."""
    at = next((i for i, token in enumerate(tokens) if token.text not in _BEFORE), len(tokens))
    if at + 1 >= len(tokens) or tokens[at].text != "there":
        return tokens
    said = lexicon.names(tuple(token.text for token in tokens), at + 1)
    if not (said.parts or said.aliases):
        return tokens
    return (*tokens[:at], replace(tokens[at], text=BREAK), *tokens[at + 1 :])
