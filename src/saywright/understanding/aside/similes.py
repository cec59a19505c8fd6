"""What something is likened to: "it's milky like the tea my mother makes", "hard like an old saddle". Pure.

What is told stands before "like"; of what stands behind it nothing is told.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DETERMINERS: Final = frozenset({"a", "an", "the", "my", "your", "his", "her", "our", "some", "something"})
_ENDS: Final = frozenset({BREAK, "and", "but", "so", "which"})


@called_by({"like"})
def similes_apart(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without a likeness behind a state, where it names nothing that is on the sheet."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("like")
    if at < 1 or text_at(texts, at + 1) not in _DETERMINERS or not _is_told(texts, at, lexicon):
        return tokens
    end = next((i for i in range(at, len(texts)) if texts[i] in _ENDS), len(texts))
    if any(_is_known(texts, here, lexicon) for here in range(at, end)):
        return tokens
    border = (replace(tokens[at], text=BREAK),) if end < len(texts) and texts[end] != BREAK else ()
    return (*tokens[:at], *border, *tokens[end:])


def _is_told(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where a state ends right before *at*."""
    found = [(begin, lexicon.match(texts, begin)) for begin in range(max(0, at - 3), at)]
    return any(one is not None and begin + one[0] == at and bool(one[1].conditions) for begin, one in found)


def _is_known(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True for a part, a place, a state or a number: "like the left one", "worn like a knife edge"."""
    known = lexicon.names(texts, at)
    if texts[at] == "one" and text_at(texts, at - 1) in _DETERMINERS:
        return True
    told = known.parts or known.aliases or known.positions or known.conditions or known.characteristics
    return bool(told) or texts[at] in CLASSES
