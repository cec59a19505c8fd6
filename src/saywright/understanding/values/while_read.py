""" "Check the float height" … "needle just sitting, fifteen point six": how things stand then. Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token

_STANDS: Final = frozenset(
    ["sitting", "touching", "resting", "kissing", "closed", "closing", "seated", "shut", "hanging", "seating",
     "sat", "held", "touches", "sits", "rests", "closes", "shuts"]
)  # fmt: skip
_AFTER: Final = 2  # utterances behind the one that names what is read


@called_by({"just"})
def seen_while_read(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the part that only stands so while what was named just before is read."""
    awaited = state.awaited
    if awaited is None or state.utterances - state.awaited_at > _AFTER or len(tokens) < _AFTER:
        return tokens
    texts = tuple(token.text for token in tokens)
    at = texts.index("just")
    if at + 1 >= len(texts) or texts[at + 1] not in _STANDS:
        return tokens
    end = at - (texts[at - 1 : at] in {("is",), ("are",)})
    begin = next((i for i in range(end - 1, max(-1, end - 3), -1) if lexicon.names(texts, i).parts), -1)
    if begin < 0 or awaited[0] in lexicon.names(texts, begin).parts:
        return tokens
    return (*tokens[:begin], *tokens[at + 2 :])
