""" "Cush rubbers one two three four all present", "springs are all there": none of them is missing. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES, ORDINALS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LONGEST: Final = 3  # words of a name
_TAILS: Final = (
    ("present", "and", "correct"), ("present",), ("accounted", "for"), ("there",), ("still", "there"),
)  # fmt: skip
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "now"})
_BE: Final = frozenset({"is", "are", "was", "were"})
_IT: Final = frozenset({"they", "these", "those", "still", *CLASSES, *ORDINALS})


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
        if begin and _is_of_it(texts, begin, lexicon):
            word = tokens[at].word
            return (
                *tokens[:begin],
                Token("none", word),
                Token("missing", word),
                *tokens[at + 1 + len(tail) :],
            )
    return tokens


def _is_of_it(texts: list[str], end: int, lexicon: Lexicon) -> bool:
    """True for what may be missing right before *end*; not "the marks are all there", "we are all there"."""
    if texts[end - 1] == "they" and text_at(texts, end - 2) in _BE:
        return False  # "are they all there"
    if texts[end - 1] in _IT or texts[end - 1] in lexicon.positions:
        return True
    named = [lexicon.table.get(tuple(texts[at:end]), NOTHING) for at in range(max(0, end - _LONGEST), end)]
    return any(one.parts or one.aliases for one in named)
