""" "Same on the right only he got thirty one", "same on the other, but make it four": its own value."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_BUT: Final = frozenset({"only", "but", "except"})
_BEFORE: Final = frozenset(
    ["and", "the", "same", "deal", "thing", "again", "story", "on", "for", "with", "at", "over", "side",
     "end", "one", "there", BREAK]
)  # fmt: skip
_BETWEEN: Final = frozenset(
    ["he", "she", "i", "we", "it", "they", "that", "this", "got", "gets", "get", "took", "takes", "make",
     "made", "makes", "read", "reads", "gave", "gives", "went", "is", "was", "has", "had", "with", "to",
     "one", BREAK]
)  # fmt: skip
_TAIL: Final = frozenset({"there", "though", "instead", "this", "time", "on", "that", "one", BREAK})


@called_by(_BUT)
def same_but(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as the side and the value alone, where what is told there is the same but for its value."""
    texts = tuple([token.text for token in tokens])
    at = next(i for i, text in enumerate(texts) if text in _BUT)
    head = texts[:at]
    if "same" not in head:
        return tokens
    sides = [i for i, text in enumerate(head) if text in lexicon.positions or text == "other"]
    others = {i for i, text in enumerate(head) if text not in _BEFORE}
    if not sides or others != {*sides} or sides[-1] - sides[0] != len(sides) - 1:
        return tokens
    behind = at + 1
    while behind < len(texts) and texts[behind] in _BETWEEN and not is_number_word(texts, behind):
        behind += 1
    if behind >= len(texts) or not is_number_word(texts, behind):
        return tokens
    found = find_measures(texts[behind:], lexicon.units)
    if not found or found[0].start or not _TAIL.issuperset(texts[behind + found[0].end :]):
        return tokens  # "same on the right but two bolts missing"
    place = tuple(tokens[i] for i in sides)
    one = Token("one", place[-1].word)
    return (Token("the", place[0].word), *place, one, *tokens[behind:])
