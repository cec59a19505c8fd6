""" "Hang on, swap those": the two values that were read last are the other way round. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DOUBTS: Final = frozenset(["hang", "hold", "on", "no", "sorry", "wait", "actually", "oh", "oops", BREAK])
_THEM: Final = frozenset({"those", "them", "these", "that"})
_TAIL: Final = frozenset({"two", "round", "around", "over", "about", "both"})
_TURNED: Final = ("the", "other", "way", "round")


@called_by({"swap"})
def swap_those(tokens: Tokens, state: Discourse, _: Lexicon) -> Tokens:
    """*tokens* with "the other way round" for "swap those" behind a doubt and two values."""
    texts = [token.text for token in tokens]
    at = texts.index("swap")
    if not at or not _DOUBTS.issuperset(texts[:at]) or text_at(texts, at + 1) not in _THEM:
        return tokens
    if not _values_before(state):
        return tokens
    end = at + 2
    while text_at(texts, end) in _TAIL:
        end += 1
    if end < len(tokens) and any(text in CLASSES for text in texts[end:]):
        return (
            replace(tokens[at], text="no"),
            *tokens[end:],
        )  # "swap those, leading's two seven": each is told anew
    return (*tokens[:at], *(replace(tokens[at], text=word) for word in _TURNED), *tokens[end:])


def _values_before(state: Discourse) -> bool:
    """True where two values were read in the last line that told anything."""
    last = next((one for one in reversed(state.recent) if one), ())
    return sum(said.kind == "reading" for said in last) > 1
