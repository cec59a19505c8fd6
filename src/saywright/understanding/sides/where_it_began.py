""" "And back round to where I began", "the same way round": where that is; and no doing again. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WHO: Final = words_of("i we you")
_BEGAN: Final = words_of("began begun started")
_WAYS: Final = words_of("to back round around over across again")
_TO_OTHER: Final = ("over", "to", "the", "other", "side")
_TWO: Final = 2
_HOW: Final = words_of("way hours hour miles years age distance mileage")
_MARKS: Final = words_of("mark marked marking scribe scribed paint painted dot tag tagged label labelled")
_NO_MARK: Final = words_of("no a any the not one")
_COMES: Final = words_of("off out on in one side other")
_ROUND: Final = words_of("round up around")


@called_by(_BEGAN, beside={"where"})
def where_it_began(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the other side of two in place of "back to where I began"."""
    texts = [token.text for token in tokens]
    at = texts.index("where")
    side = state.hand.side if state.hand is not None else None
    told = text_at(texts, at + 1) in _WHO and text_at(texts, at + 2) in _BEGAN
    begin = at
    while begin and texts[begin - 1] in _WAYS:
        begin -= 1
    if side is None or not told or "to" not in texts[begin:at] or begin + 1 == at:
        return tokens
    sides = {p for c in lexicon.sheet.component if side in c.stations for p in c.stations}
    if len(sides) != _TWO:
        return tokens
    word = tokens[at].word
    return (*tokens[:begin], *[Token(text, word) for text in _TO_OTHER], *tokens[at + 3 :])


@called_by({"so"}, beside=_MARKS)
def so_it_goes_back(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* without what something is marked for: "so they go back on the same way"."""
    texts = [token.text for token in tokens]
    at = texts.index("so")
    they = at + 1 + (text_at(texts, at + 1) == "that")
    if not any(t in _MARKS and text_at(texts, i - 1) not in _NO_MARK for i, t in enumerate(texts[:at])):
        return tokens  # "not a mark on it so it goes back in"
    goes = text_at(texts, they) in {"it", "they"} and text_at(texts, they + 1) in {"go", "goes"}
    if not goes or text_at(texts, they + 2) not in {"back", "in", "on"}:
        return tokens
    end = next((i for i in range(they, len(texts)) if texts[i] in {BREAK, "and", "then"}), len(texts))
    return (*tokens[:at], *tokens[end:])


@called_by({"same"}, beside=_HOW)
def same_way(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without "the same way round", "the same hours": how, or how long; nothing was done again."""
    texts = [token.text for token in tokens]
    at = texts.index("same")
    if text_at(texts, at + 1) not in _HOW or text_at(texts, at - 1) != "the":
        return tokens
    before = text_at(texts, at - 2)
    if before in _COMES or before in lexicon.positions:
        return tokens  # "the right one comes off the same way", "right the same way"
    end = at + 2 + (text_at(texts, at + 2) in _ROUND)
    if text_at(texts, end) not in {"", BREAK, "and", "but", "so"}:
        return tokens
    return (*tokens[: at - 1], *tokens[end:])
