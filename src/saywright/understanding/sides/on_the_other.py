""" "three on the left, four on the other": the place that is across from the one said before. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.sheets.model import Sheet
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LEADS: Final = frozenset({"on", "for"})
_NOUNS: Final = frozenset({"one", "side", "end"})
_HEAD: Final = 3  # tokens of a value and its "on" before the first place
_UNIT: Final = 3  # tokens of a number with its unit


@called_by({"other"})
def on_the_other(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the last place by its name, where two values have each its place behind.

    "Four on the other" behind "three on the left" is four on the right, where the sheet has no third.
    """
    texts = [token.text for token in tokens]
    at = len(texts) - 1 - texts[::-1].index("other")
    if (
        at <= _HEAD
        or not _is_placed(texts, at)
        or len(texts) > at + 2
        or not _NOUNS.issuperset(texts[at + 1 :])
    ):
        return tokens
    before = next((i for i in range(at - 3, 1, -1) if texts[i] in lexicon.positions), 0)
    if not before or not _is_placed(texts, before):
        return tokens
    across = _across(texts[before], lexicon.sheet)
    return tokens if across is None else (*tokens[:at], Token(across, tokens[at].word))


def _is_placed(texts: Sequence[str], at: int) -> bool:
    """True where the place at *at* stands behind a value and its "on the"."""
    led = at - 1 - (texts[at - 1] == "the")
    return texts[led] in _LEADS and any(t in CLASSES or t.isdigit() for t in texts[max(0, led - _UNIT) : led])


def _across(place: str, sheet: Sheet) -> str | None:
    """The other of two: "trailing" for "leading", in "left leading" too; None where there are more."""
    found: set[str] = set()
    for part in sheet.component:
        positions = [tuple(position.split()) for position in part.positions]
        for said in positions:
            if place in said:
                at = said.index(place)
                rest = (said[:at], said[at + 1 :])
                found.update(
                    w[at] for w in positions if len(w) == len(said) and (w[:at], w[at + 1 :]) == rest
                )
    found.discard(place)
    return found.pop() if len(found) == 1 else None


@called_by({"other"})
def other_one_apart(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a pause in "one point six on the leading | other one four": the other is another one."""
    texts = [token.text for token in tokens]
    at = texts.index("other")
    placed = at > _HEAD and texts[at - 1] in lexicon.positions and _is_placed(texts, at - 1)
    if not placed or texts[at + 1 : at + 2] != ["one"]:
        return tokens
    across = _across(texts[at - 1], lexicon.sheet)
    other = tokens[at] if across is None else Token(across, tokens[at].word)
    return (*tokens[:at], Token(BREAK, tokens[at].word), other, *tokens[at + 1 :])
