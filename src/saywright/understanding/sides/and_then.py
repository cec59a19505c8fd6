""" "the inner pad comes out, and then the outer": what was said goes for the other one too. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_ONES: Final = frozenset({"one", "ones"})
_ENDS: Final = frozenset({"", BREAK, "and"})


@called_by({"then"})
def and_the_other(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "and" for the "(and) then" of "and then the outer one" where nothing more is said of it.

    So too in "inner then outer". "And then the left side", and "then the outer" at the head, are turned to
    and stay.
    """
    texts = [token.text for token in tokens]
    listed = [at for at in range(1, len(texts) - 1) if texts[at] == "then" and _is_list(texts, at, lexicon)]
    if listed:
        return tuple(replace(one, text="and") if at in listed else one for at, one in enumerate(tokens))
    at = texts.index("then")
    if not at or texts[at + 1 : at + 2] != ["the"] or len(texts) < at + 3:
        return tokens
    behind = [*texts[at + 3 :], "", ""]
    if texts[at + 2] not in lexicon.positions or behind[behind[0] in _ONES] not in _ENDS:
        return tokens
    led = at - (texts[at - 1] == "and")
    return (*tokens[:led], replace(tokens[led], text="and"), *tokens[at + 1 :])


def _is_list(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "inner then outer"; not "that's the left then", nor "right then left one off" at the head."""
    two = {texts[at - 1], texts[at + 1]}
    return at > 1 and len(two) > 1 and lexicon.positions.issuperset(two)
