"""Believed by other words: "had it down as cross threaded but", "took the float for split but". Pure."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HAD: Final = frozenset({"had", "put", "took", "mistook"})
_SELF: Final = frozenset({"i", "we", "", BREAK, "moment", "have", "minute", "first"})
_LONGEST: Final = 6  # tokens from the verb to the state


@called_by(_HAD)
def had_down_as(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "thought it was" for such words, where a "but" or a "no" behind them takes it back."""
    texts = tuple([token.text for token in tokens])
    for at, text in enumerate(texts):
        if text not in _HAD or text_at(texts, at - 1) not in _SELF:
            continue
        size = 1 if text in {"took", "mistook"} else 2
        as_what = ("for",) if size == 1 else ("down", "as")
        near = range(at + 2, min(at + _LONGEST, len(texts) - size))
        link = next((i for i in near if texts[i : i + size] == as_what), 0)
        state = lexicon.names(texts, link + size).conditions if link else ()
        if state and BREAK not in texts[at:link] and _taken_back(texts[link + size :]):
            thought, was = replace(tokens[at], text="thought"), replace(tokens[link], text="was")
            return (*tokens[:at], thought, *tokens[at + 1 : link], was, *tokens[link + size :])
    return tokens


def _taken_back(behind: tuple[str, ...]) -> bool:
    return "but" in behind or any(one == BREAK and other == "no" for one, other in pairwise(behind))
