""" "It's the right forty five": the size it should be and no side, of a part that has no right one. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_IS: Final = frozenset({"is", "are", "was", "were", "got", "has"})
_SIDE: Final = "right"


@called_by({_SIDE})
def the_right_size(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without "the right" between a part that has no such side and its value."""
    texts = tuple([token.text for token in tokens])
    at = texts.index(_SIDE)
    if text_at(texts, at - 1) not in {"the", "a"} or text_at(texts, at - 2) not in _IS:
        return tokens
    number = at + 1 + (text_at(texts, at + 1) == "one")  # "it's the right one" is no number
    if text_at(texts, number) not in CLASSES:
        return tokens
    part = _named_before(texts, at - 2, lexicon)
    part = part or (state.hand.component if state.hand is not None else None)
    spec = lexicon.sheet.get(part) if part is not None else None
    if spec is None or any(_SIDE in place.split() for place in spec.positions):
        return tokens
    return (*tokens[: at - 1], *tokens[at + 1 :])


def _named_before(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> str | None:
    """The one part that is named last before *end*; None where none is, or several could be meant."""
    last: str | None = None
    for at in range(end):
        parts = lexicon.names(texts, at).parts
        if parts:
            last = parts[0] if len(parts) == 1 else None
    return last
