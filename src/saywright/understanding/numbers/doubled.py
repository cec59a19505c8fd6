"""The same number said more than once: a row for each, or begun again behind talk. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.tokens import BREAK, HESITATIONS, Token

_LONGEST: Final = 2  # words of such a number
_THREE: Final = 3
_TALK: Final = 7  # tokens at most between a number that broke off and the same begun again
_NO_TALK: Final = frozenset(CLASSES) | OH | {"or", "to", "and"}  # "eight point oh something, or …"
_SPOKEN: Final = HESITATIONS - {BREAK}
_LARGE: Final = frozenset({"TENS", "TEEN"})


def begun_again(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "two point let me wipe it two point eight": the number that broke off at its point is begun again.

    So is a whole number with its point behind it, "eighteen eighteen point one", and a point alone.
    """
    texts = [token.text for token in tokens]
    if "point" not in texts:
        return tokens
    points = [at for at, text in enumerate(texts) if text == "point"]
    cut = _said_twice(texts, points[0])
    if cut:
        return (*tokens[: points[0] - 2 * cut], *tokens[points[0] - cut :])
    for at, then in pairwise(points):
        if then > at + 1 and HESITATIONS.issuperset(texts[at + 1 : then]):
            return (*tokens[:at], *tokens[then:])  # "thirty four point um point two"
        start = at
        while start and texts[start - 1] in CLASSES:
            start -= 1
        said = texts[start:at]
        again = then - len(said)
        talk = texts[at + 1 : again]
        if (
            said
            and texts[again:then] == said
            and len(talk) != 1
            and len(talk) <= _TALK
            and _NO_TALK.isdisjoint(talk)
        ):
            return (*tokens[:start], *tokens[at + 1 :])
    return tokens


def _said_twice(texts: Sequence[str], point: int) -> int:
    """How many words the number before the point at *point* has, said twice behind a hesitation; 0 for none.

    Without one, "left and right twenty two twenty two point one", they are two numbers.
    """
    for length in range(1, _LONGEST + 1):
        said = texts[max(0, point - length) : point]
        twice = point >= 2 * length and texts[point - 2 * length : point - length] == said
        before = texts[point - 2 * length - 1] if point > 2 * length else ""
        if twice and before in _SPOKEN and CLASSES.get(said[0], ("",))[0] in _LARGE:
            return length
    return 0


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
