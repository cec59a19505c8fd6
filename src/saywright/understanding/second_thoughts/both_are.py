""" "No, they both are", "the other one too", of what was told of one of two: so is the other. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import last_told, may_be_of, one_named, other_place
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_BEFORE: Final = PAUSES | {"no", "sorry", "in", "fact"}
_BOTH: Final = (("they", "both"), ("both", "of", "them"), ("the", "both", "of", "them"), ("both",))
_TOO: Final = frozenset({("too",), ("as", "well"), ("also",)})
_IS_TOO: Final = frozenset({("is", *too) for too in _TOO})
_OTHERS: Final = frozenset(
    {("the", "other"), ("the", "other", "one"), ("other", "one"), ("other",), ("its", "mate")}
)
_AND: Final = frozenset({"and", "then", "now", BREAK})


@called_by({"both", "other", "too", "well", "also"})
def both_are(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "so is the other one" where they tell of both, or of the other, what was told of one."""
    texts = tuple([one.text for one in tokens])
    at = 0
    while at < len(texts) and texts[at] in _BEFORE:
        at += 1
    if texts[-1] in IS and texts[at:-1] in _BOTH:
        return _so_is(tokens, state, lexicon)
    while at < len(texts) and texts[at] in _AND:
        at += 1
    named = one_named(texts, at, lexicon)
    if named is not None and named.only_places and not named.other and texts[named.end :] in _IS_TOO:
        told = last_told(state)[-1:]
        found = told[0] if told else None
        if isinstance(found, ConditionNote) and found.present and may_be_of(told, named, lexicon):
            so = [replace(tokens[0], text=word) for word in ("so", "is", "the")]
            return (*so, *tokens[named.begin : named.end])  # "the rear one is too"
    joined = "and" in texts[:at]
    for end in range(len(texts), at, -1):
        if texts[at:end] in _OTHERS:
            too = texts[end:] in _TOO or texts[end:] in _IS_TOO or texts[end:] == ("is",)
            return _so_is(tokens, state, lexicon) if too or (joined and end == len(texts)) else tokens
    return tokens


def _so_is(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """What was told last is so of the other one of two."""
    told = last_told(state)
    place = other_place(told[-1:], lexicon)
    if place is None or isinstance(told[-1], Reading):
        return tokens
    found = isinstance(told[-1], ConditionNote)
    said = ("so", "is", "the", "other", "one") if found else ("and", "the", *place.split(), "one")
    return tuple([replace(tokens[0], text=word) for word in said])
