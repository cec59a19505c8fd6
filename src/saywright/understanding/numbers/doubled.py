"""The same number said more than once: a row for each, or begun again behind talk. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.tokens import BREAK, Token

_LONGEST: Final = 2  # words of such a number
_THREE: Final = 3
_TALK: Final = 7  # tokens at most between a number that broke off and the same begun again
_NO_TALK: Final = frozenset(CLASSES) | OH | {"or", "to", "and"}  # "eight point oh something, or …"
_LARGE: Final = frozenset({"TENS", "TEEN"})


def begun_again(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "two point let me wipe it two point eight": the number that broke off at its point is begun again."""
    texts = [token.text for token in tokens]
    points = [at for at, text in enumerate(texts) if text == "point"] if texts.count("point") > 1 else []
    for at, then in pairwise(points):
        start = at
        while start and texts[start - 1] in CLASSES:
            start -= 1
        said = texts[start:at]
        again = then - len(said)
        talk = texts[at + 1 : again]
        if said and texts[again:then] == said and 1 < len(talk) <= _TALK and _NO_TALK.isdisjoint(talk):
            return (*tokens[:start], *tokens[at + 1 :])
    return tokens


def told_apart(tokens: tuple[Token, ...], fitted: Iterable[int]) -> tuple[Token, ...]:
    """*tokens* with a break between two numbers alike that a third follows behind "and".

    So where of some part three are *fitted*, or three in a row.
    """
    texts = [token.text for token in tokens]
    for at in (at for at, text in enumerate(texts) if text == "and" and at > 1):
        cut = _second(texts, at)
        if cut and any(count and count % _THREE == 0 for count in fitted):
            return (*tokens[:cut], Token(BREAK, tokens[cut].word), *tokens[cut:])
    return tokens


def _second(texts: Sequence[str], at: int) -> int:
    """Where the second of three numbers alike begins, the third behind the "and" at *at*; else 0."""
    for length in range(1, _LONGEST + 1):
        said = texts[at + 1 : at + 1 + length]
        alike = said == texts[max(0, at - length) : at] == texts[max(0, at - 2 * length) : at - length]
        ends = (*texts[at + 1 + length : at + 2 + length], "")[0] not in CLASSES
        if alike and ends and at >= 2 * length and CLASSES.get(said[0], ("",))[0] in _LARGE:
            return at - length
    return 0
