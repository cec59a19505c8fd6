"""What is read ahead of all else where its words are said, and put aside: a number said twice, ages.

read_ahead(tokens of "clips on both, one new", work)    breaks for "one new"; work.ages tells of it
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from saywright.understanding.counting.mixed_ages import AGE_WORDS, take_ages
from saywright.understanding.counting.same_ones import KEPT, take_same
from saywright.understanding.numbers.doubled import begun_again, told_apart
from saywright.understanding.quantities.said_twice import NUMBER_WORDS, said_once
from saywright.understanding.steps import Tokens, cued
from saywright.understanding.values.two_ways import HEADS, ways_aside
from saywright.understanding.working import Working

Ahead = Callable[[Tokens, Working], Tokens]


def read_ahead(tokens: Tokens, work: Working) -> Tokens:
    """*tokens* without what is told by such words; *work* knows it then."""
    for rule, cue in _RULES:
        if cue & work.cues:
            tokens = rule(tokens, work)
    return tokens


def _three_alike(tokens: Tokens, work: Working) -> Tokens:
    return told_apart(tokens, (part.count for part in work.sheet.component))


def _begun_again(tokens: Tokens, _: Working) -> Tokens:
    return begun_again(tokens)


def _said_once(tokens: Tokens, work: Working) -> Tokens:
    return said_once(tokens, work.lexicon.units, work.sheet, work.hand)


def _ways(tokens: Tokens, work: Working) -> Tokens:
    sided = work.hand is not None and bool(work.hand.which)
    tokens, work.place = ways_aside(tokens, work.before.place, sided=sided)
    return tokens


def _ages(tokens: Tokens, work: Working) -> Tokens:
    tokens, work.ages = take_ages(tokens)
    return tokens


def _same_ones(tokens: Tokens, work: Working) -> Tokens:
    tokens, work.same = take_same(tokens)
    return tokens


_RULES: Final[tuple[tuple[Ahead, int], ...]] = cued(
    (_three_alike, {"and"}),
    (_begun_again, {"point"}),
    (_said_once, NUMBER_WORDS),
    (_ways, HEADS),
    (_ages, AGE_WORDS),
    (_same_ones, KEPT),
)
