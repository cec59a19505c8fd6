""" "Your inner one has two point one left on it", said to whose machine it is: the inner one. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from saywright.understanding.steps import Tokens, called_by

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon


@called_by({"your"})
def your_parts(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "the" for "your" before what the sheet names."""
    texts = tuple([token.text for token in tokens])
    named = [
        at
        for at in range(len(texts) - 1)
        if texts[at] == "your" and (texts[at + 1] in lexicon.positions or _is_known(texts, at + 1, lexicon))
    ]
    return (
        tuple(replace(t, text="the") if at in named else t for at, t in enumerate(tokens))
        if named
        else tokens
    )


def _is_known(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    known = lexicon.names(texts, at)
    return bool(known.parts or known.aliases or known.characteristics)
