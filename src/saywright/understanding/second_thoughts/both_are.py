""" "No, they both are", "actually both of them are", of one that was told of: so is the other one. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import last_told, other_place
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import ConditionNote
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token

_BEFORE: Final = PAUSES | {"no", "sorry", "in", "fact"}
_BOTH: Final = (("they", "both"), ("both", "of", "them"), ("the", "both", "of", "them"), ("both",))


@called_by({"both"})
def both_are(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "so is the other one" where they tell of both what was told of one."""
    texts = tuple([one.text for one in tokens])
    at = 0
    while at < len(texts) and texts[at] in _BEFORE:
        at += 1
    told = last_told(state) if texts[-1] in IS and texts[at:-1] in _BOTH else []
    if not told or not isinstance(told[-1], ConditionNote) or other_place(told[-1:], lexicon) is None:
        return tokens
    return tuple([replace(tokens[0], text=word) for word in ("so", "is", "the", "other", "one")])
