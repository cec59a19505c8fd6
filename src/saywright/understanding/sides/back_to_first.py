""" "And back round to where I began", "back to the first side": the other of two sides. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import Token, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LEADS: Final = words_of("and so right now then okay well now i go we am are")
_TWO: Final = 2
_ROUND: Final = words_of("round over across again now around along")
_FIRST: Final = (
    ("where", "i", "began"), ("where", "i", "started"), ("where", "we", "began"), ("where", "we", "started"),
    ("where", "i", "came", "in"), ("the", "first", "side"), ("the", "first", "end"), ("the", "first", "one"),
    ("the", "side", "i", "started", "on"), ("the", "side", "i", "began", "with"), ("the", "start",),
)  # fmt: skip


@called_by({"back"}, beside={"began", "started", "first", "came"})
def back_to_first(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* as "other side" where the line goes back to the side that was begun with, and no more."""
    hand = state.hand
    if hand is None or not (hand.turned_to or hand.side):
        return tokens
    side = hand.side or hand.turned_to
    sides = {p for c in lexicon.sheet.component if side in c.stations for p in c.stations}
    if len(sides) > _TWO:
        return tokens  # which of four the first one was is not told by the other side
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), 0)
    if text_at(texts, at) != "back":
        return tokens
    at += 1
    while text_at(texts, at) in _ROUND:
        at += 1
    at += text_at(texts, at) == "to"
    if tuple(texts[at:]) not in _FIRST:
        return tokens
    return (Token("other", tokens[0].word), Token("side", tokens[-1].word))
