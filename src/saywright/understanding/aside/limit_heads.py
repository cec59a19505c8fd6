""" "Under two's scrap", "over one eighty one is finished": a limit and what it means. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_PAST: Final = frozenset({"under", "below", "over", "above", "beyond"})
_OPENS: Final = frozenset({"", BREAK, "and", "but", "so", "well"})
_OUT: Final = frozenset({"scrap", "gone", "finished", "bin", "no", "too", "worn", "dead", "done", "junk"})
_REACH: Final = 6  # tokens of "two point one millimetres"


@called_by(_PAST)
def limit_heads(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with "anything" before a bound at the head of a clause, behind which it says what is out."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _PAST), 0)
    if text_at(texts, at - 1) not in _OPENS or text_at(texts, at + 1) not in CLASSES:
        return tokens
    verb = next((i for i in range(at + 2, min(at + _REACH, len(texts))) if texts[i] == "is"), 0)
    if not verb or text_at(texts, verb + 1) not in _OUT:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="anything"), *tokens[at:])
