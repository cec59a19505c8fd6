""" "Pulled the bolts up to sixty newton metres": tightened so far, and nothing came off. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_PULLS: Final = {"pulled": "tightened", "pull": "tighten", "pulling": "tightening"}
_REACH: Final = 6  # tokens from the verb to "up"
_OF_TORQUE: Final = frozenset({"newton", "newtons", "foot", "inch", "pounds", "nm"})
_UNIT_REACH: Final = 6  # tokens from the number to its unit


@called_by(_PULLS.keys())
def pulled_up_to(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with the fasteners that were pulled up to a torque tightened to it."""
    texts = [token.text for token in tokens]
    for at, text in enumerate(texts):
        if text not in _PULLS:
            continue
        up = next((i for i in range(at + 1, min(len(texts), at + _REACH)) if texts[i] == "up"), None)
        if up is None or BREAK in texts[at:up] or texts[up + 1 : up + 2] != ["to"]:
            continue
        value = texts[up + 2 : up + 2 + _UNIT_REACH]
        torque = not _OF_TORQUE.isdisjoint(value) or not FASTENERS.isdisjoint(texts[at:up])
        if value and value[0] in CLASSES and torque:
            return (*put_words(tokens[:up], at, at + 1, _PULLS[text]), *tokens[up + 1 :])
    return tokens
