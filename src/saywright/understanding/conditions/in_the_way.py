"""A fault that is only why a value was wrong, or what a leak shows by: "no, I had it on the burr". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_FAULTS: Final = frozenset(
    ["burr", "burrs", "lip", "ridge", "step", "muck", "dirt", "rust", "scale", "crud", "swarf", "grit",
     "flash", "paint", "wear", "stain", "stains"]
)  # fmt: skip
_WHO: Final = frozenset({"i", "we"})
_HAD: Final = frozenset({"had", "was", "got", "caught", "have", "must", "been"})
_IT: Final = frozenset({"it", "that", "the", "them", "caliper", "calipers", "mike", "probe", "gauge", "jaws"})
_ON: Final = frozenset({"on", "in", "against", "over"})
_A: Final = frozenset({"the", "that", "a", "some", "this"})
_LEAKS: Final = frozenset(
    ["leaking", "leak", "leaks", "weeping", "weeps", "dripping", "seeping", "weep", "leaked", "wept"]
)  # fmt: skip
_CAN: Final = frozenset({"you", "can", "could", "i", "look", "and"})


@called_by(_FAULTS)
def not_in_the_way(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the fault that was in the way of a measurement, and without the stain of a leak."""
    texts = tuple([token.text for token in tokens])
    at = next(i for i, text in enumerate(texts) if text in _FAULTS) if set(texts) & _FAULTS else 0
    if not at or texts[at - 1] not in _A:
        return tokens
    if texts[at].startswith("stain"):
        if text_at(texts, at - 2) != "see" or _LEAKS.isdisjoint(texts):
            return tokens
        begin = at - 2
        while begin and texts[begin - 1] in _CAN:
            begin -= 1
        return _without(tokens, begin, at + 1)
    begin, end = at - 1, at + 1
    behind = texts[end : end + 3] == ("in", "the", "way")
    if not behind and text_at(texts, begin - 1) not in _ON:
        return tokens
    begin -= not behind
    while begin and texts[begin - 1] in _IT:
        begin -= 1
    had = begin
    while had and texts[had - 1] in _HAD:
        had -= 1
    if had == begin or text_at(texts, had - 1) not in _WHO:
        return tokens
    if behind:
        return _without(tokens, had - 1, end + 3)
    return (*tokens[:at], replace(tokens[at], text="edge"), *tokens[at + 1 :])


def _without(tokens: tuple[Token, ...], begin: int, end: int) -> tuple[Token, ...]:
    return (*tokens[:begin], replace(tokens[begin], text=BREAK), *tokens[end:])
