"""A question that the speaker answers himself: "would I bother with a new one, I would not". Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_ASKS: Final = frozenset({"would", "should", "will", "shall", "do", "am"})
_ANSWERS: Final = _ASKS | {"not"}
_BETWEEN: Final = frozenset({BREAK, "no", "yes", "yeah", "nope", "yep"})
_OPENS: Final = 3  # tokens before the question: "now then so"
_FEWEST: Final = 5  # "would I replace it I would"


@called_by(_ANSWERS)
def as_answered(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the answer in the place of the question: "I would not bother with a new one"."""
    if len(tokens) < _FEWEST or tokens[-1].text not in _ANSWERS:
        return tokens
    texts = [token.text for token in tokens]
    asked = next((at for at in range(_OPENS + 1) if texts[at] in _ASKS and texts[at + 1] == "i"), None)
    if asked is None:
        return tokens
    end = len(texts) - 2 - (texts[-1] == "not")
    if texts[end : end + 2] != ["i", texts[asked]] or end <= asked + 2:
        return tokens
    last = end
    while last > asked + 2 and texts[last - 1] in _BETWEEN:
        last -= 1
    return (*tokens[:asked], *tokens[end:], *tokens[asked + 2 : last])
