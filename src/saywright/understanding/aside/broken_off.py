""" "Number three, eighty nine point, uh, wait, the lamp's in my way": a number broken off by talk. Pure.

The talk falls away, so that the part is turned to and the number waits for its end.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import HESITATIONS, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WAITS: Final = frozenset({("hang", "on"), ("hold", "on"), ("hang", "about"), ("hold", "up")})
_NUMBERS: Final = frozenset(CLASSES) - {"and"}
_FEWEST: Final = 2  # tokens of talk


@called_by({"wait", "hang", "hold"}, beside={"point"})
def broken_off(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* up to the "point" behind which talk breaks the number off."""
    texts = tuple([token.text for token in tokens])
    for at in range(2, len(texts)):
        if texts[at] != "wait" and texts[at : at + 2] not in _WAITS:
            continue
        end = at
        while text_at(texts, end - 1) in HESITATIONS:
            end -= 1
        torn = text_at(texts, end - 1) == "point" and text_at(texts, end - 2) in _NUMBERS
        if torn and len(texts) - at > _FEWEST and _NUMBERS.isdisjoint(texts[at:]):
            return tokens[:end]
    return tokens
