"""Words called out, no place and no digit: "there, bolt's out", "three point five oh dear". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token

_BEFORE: Final = HESITATIONS | {"okay", "right", "oh", "and", "so", "yes"}
_CALLED: Final = frozenset(
    ["dear", "well", "look", "boy", "my", "god", "goodness", "hang", "wait", "hello", "bother", "hell",
     "heck", "sorry", "damn", "yes", "yeah", "come", "sod", "blast", "crikey", "please", "hold", "gosh"]
)  # fmt: skip


@called_by({"oh"})
def oh_apart(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a pause for an "oh" that is called out behind a number."""
    texts = [token.text for token in tokens]
    called = {at for at, text in enumerate(texts[:-1]) if text == "oh" and _is_called(texts, at)}
    return tuple([replace(t, text=BREAK) if at in called else t for at, t in enumerate(tokens)])


def _is_called(texts: Sequence[str], at: int) -> bool:
    """ "Oh dear"; "oh no" behind decimals alone, of which it may be the last: the value is the same."""
    if texts[at - 1 : at] == ["point"]:
        return False  # "twenty one point oh"
    if texts[at + 1] != "no":
        return texts[at + 1] in _CALLED
    begin = at
    while begin and (texts[begin - 1] in CLASSES or texts[begin - 1] in OH):
        begin -= 1
    return "point" in texts[begin : at - 1]


@called_by({"there"})
def exclaimed_apart(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a pause for "there" where a part comes right behind it."""
    at = next((i for i, token in enumerate(tokens) if token.text not in _BEFORE), len(tokens))
    if at + 1 >= len(tokens) or tokens[at].text != "there":
        return tokens
    said = lexicon.names(tuple(token.text for token in tokens), at + 1)
    if not (said.parts or said.aliases):
        return tokens
    return (*tokens[:at], replace(tokens[at], text=BREAK), *tokens[at + 1 :])
