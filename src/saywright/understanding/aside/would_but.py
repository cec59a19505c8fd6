""" "I'd do the pair if we had the budget but just the pump end": what is done in its place. Pure.

So "if it had been mine I would have done both but the owner says leave the left".
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HEADS: Final = frozenset({"so", "well", "and", "no", "right", "now", "see", BREAK})
_SUPPOSED: Final = frozenset({"would", "had", "were"})
_ONLY: Final = frozenset({"just", "only"})
_AROUND: Final = frozenset({"the", "one", "ones", "end", "side", "two", "for", "now", "this", "time"})
_SAYS: Final = frozenset({"says", "said", "wants"})
_REACH: Final = 5  # tokens from "but" to "leave"


@called_by({"but"})
def would_but(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without what would be done otherwise, where it is told behind "but" what is done."""
    texts = [token.text for token in tokens]
    but = max(at for at, text in enumerate(texts) if text == "but")
    if _SUPPOSED.isdisjoint(texts[:but]):
        return tokens
    behind = texts[but + 1 :]
    head = next((at for at, text in enumerate(texts) if text not in _HEADS), 0)
    if texts[head] == "if" and "leave" in behind[:_REACH] and _SUPPOSED.isdisjoint(behind):
        return (
            tokens[but + 1 + behind.index("leave") :] if not _SAYS.isdisjoint(behind) else tokens[but + 1 :]
        )
    would = texts.index("would") if "would" in texts[:but] else but
    if text_at(texts, would - 1) not in {"i", "we"} or not behind or behind[0] not in _ONLY:
        return tokens
    verb = text_at(texts, would + 1)
    placed = any(text in lexicon.positions for text in behind[1:])
    if not placed or not all(text in lexicon.positions | _AROUND for text in behind[1:]):
        return tokens
    known = lexicon.table.get((verb,), NOTHING).acts
    if not known and verb != "do":
        return tokens
    to_do = replace(tokens[would + 1], text=verb if known else "change")
    return (replace(tokens[would], text="will"), to_do, *tokens[but + 2 :])
