""" "These pads are soaked, the pair of them": so they were found, and nobody put them in a bath. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LININGS: Final = frozenset({"pad", "pads", "shoe", "shoes", "lining", "linings"})
_SO: Final = ("contaminated", "oily")
_HOW: Final = frozenset(
    {"is", "are", "was", "were", "both", "all", "absolutely", "completely", "right", "well"}
)
_PUT: Final = frozenset({"been", "soak", "soaking", "in", "into"})
_BATHED: Final = frozenset({"in", "with", "overnight", "over", "for", "clean", "all", "since"})


@called_by({"soaked"})
def soaked_linings(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with linings that are soaked told by the sheet's word for it."""
    texts = [token.text for token in tokens]
    at = texts.index("soaked")
    before = texts[:at]
    if state.stage == "as_left" or _LININGS.isdisjoint(before) or not _PUT.isdisjoint(before):
        return tokens
    if text_at(texts, at - 1) not in _HOW or text_at(texts, at + 1) in _BATHED:
        return tokens
    word = next((one for one in _SO if lexicon.table.get((one,), NOTHING).conditions), None)
    return put_words(tokens, at, at + 1, word) if word else tokens
