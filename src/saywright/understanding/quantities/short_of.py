""" "An eighth short of two turns", "a quarter under three": so much less than a whole number. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import COUNTS
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SHARES: Final = {"eighth": Fraction(1, 8), "quarter": Fraction(1, 4), "half": Fraction(1, 2)}
_LESS: Final = (("short", "of"), ("shy", "of"), ("under",), ("less", "than"))
_OF_A_TURN: Final = (("of", "a", "turn"), ("a", "turn"), ("turn",))
_AND: Final = (("and", "a"), ("and",))
_MORE: Final = frozenset(
    {"was", "or", "thou", "mil", "mils", "inch", "inches", "hundred", "thousand", "point"}
)
_TURNS: Final = frozenset({"turn", "turns"})


@called_by({"short", "shy", "under", "less", "off"})
def short_of(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the number that is meant in place of "an eighth short of two", and its unit behind it."""
    texts = tuple([token.text for token in tokens])
    for at, text in enumerate(texts):
        share = _SHARES.get(text.removesuffix("s"))
        share = share if share is None else share * _how_many(texts, at)
        if not share:
            continue
        number, end, turn = _whole(texts, at + 1)
        if number <= share:
            continue
        begin = at - (text_at(texts, at - 1) in {"a", "an"} or text.endswith("s"))
        word = tokens[end - 1].word  # to where it is told
        unit = [Token("turns", word)] if turn and text_at(texts, end) not in _TURNS else []
        if text_at(texts, begin - 1) != "and":
            return (*tokens[:begin], Token(f"{float(number - share):g}", word), *unit, *tokens[end:])
    return tokens


def _how_many(texts: Sequence[str], at: int) -> int:
    """ "Three quarters", "an eighth", "half": how many of such a share; 0 where it is none."""
    if texts[at].endswith("s"):
        return COUNTS.get(text_at(texts, at - 1), 0)
    return int(texts[at] == "half" or text_at(texts, at - 1) in {"a", "an"})


def _whole(texts: tuple[str, ...], at: int) -> tuple[Fraction, int, bool]:
    """Behind the share at *at*: of what it is short, the token behind, and whether in turns."""
    turn = next((w for w in _OF_A_TURN if texts[at : at + len(w)] == w), ())
    at += len(turn)
    less = next((w for w in _LESS if texts[at : at + len(w)] == w), None)
    whole = COUNTS.get(text_at(texts, at + len(less)), 0) if less is not None else 0
    end = at + len(less or ()) + 1
    number = Fraction(whole)
    turns = bool(whole) and text_at(texts, end) in _TURNS
    end += turns  # "two turns and a half"
    joined = next((w for w in _AND if texts[end : end + len(w)] == w), ())
    if whole and joined and text_at(texts, end + len(joined)) in _SHARES:
        number += _SHARES[texts[end + len(joined)]]
        end += len(joined) + 1
    return (Fraction(0) if text_at(texts, end) in _MORE else number), end, bool(turn) or turns
