""" "Cush rubbers one two three four all present", "springs are all there": none of them is missing. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TAILS: Final = (
    ("present", "and", "correct"), ("present",), ("accounted", "for"), ("there",), ("still", "there"),
)  # fmt: skip
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "now"})
_BE: Final = frozenset({"is", "are", "was", "were"})
_NOBODY: Final = frozenset({"not", "he", "she", "that", "it"})


@called_by({"present", "accounted", "there"}, beside={"all"})
def all_present(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "none missing" for what is all there, where the sheet has such a state."""
    texts = [token.text for token in tokens]
    if not lexicon.table.get(("missing",), NOTHING).conditions:
        return tokens
    for at in range(1, len(texts)):
        tail = next((t for t in _TAILS if tuple(texts[at + 1 : at + 1 + len(t)]) == t), ())
        if texts[at] != "all" or not tail or text_at(texts, at + 1 + len(tail)) not in _ENDS:
            continue
        begin = at - (texts[at - 1] in _BE)
        if begin and texts[begin - 1] not in _NOBODY:
            word = tokens[at].word
            return (
                *tokens[:begin],
                Token("none", word),
                Token("missing", word),
                *tokens[at + 1 + len(tail) :],
            )
    return tokens
