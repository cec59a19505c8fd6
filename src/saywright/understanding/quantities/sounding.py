"""A number with a word behind it that sounds like a digit: which way to read it comes first. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.numbers.ranked import Readings
from saywright.understanding.tokens import BREAK

# Behind a unit: by how much it is past something, or how fine the steps are.
_BY_SO_MUCH: Final = frozenset(
    ["short", "long", "shy", "over", "under", "out", "down", "up", "off", "in", "from", "apart", "away",
     "more", "less", "higher", "lower", "longer", "shorter", "bigger", "smaller", "too", "step", "steps",
     "each", "per", "wear", "play", "clearance", "thick", "wide", "deep", "high"]
)  # fmt: skip
_TOO: Final = frozenset(
    (word,)
    for word in (
        "high", "low", "long", "short", "big", "small", "tight", "loose", "thin", "thick", "deep", "shallow",
        "wide", "narrow", "far", "rich", "lean", "slack", "heavy", "light", "much", "many", "little", "worn",
        "fast", "slow", "hot", "cold", "weak", "stiff", "large", "close", "good", "bad",
    )
)  # fmt: skip


def is_too_much(words: Sequence[str], end: int) -> bool:
    """ "fourteen point eight, too high", "nine, too tight that": no digit, but what the value is."""
    return tuple(words[end : end + 1]) == ("too",) and tuple(words[end + 1 : end + 2]) in _TOO


def by_so_much(words: Sequence[str], end: int) -> bool:
    """True where the quantity before *end* may be told beside a number: "two eighty two mil short"."""
    return end < len(words) and words[end] in _BY_SO_MUCH


def both_ways(words: Sequence[str], at: int, sounding: Readings, plain: Readings) -> Readings:
    """The readings with the word as a digit, then the dearer ones without it.

    "Too" at the end of "right's seven too" is rather what it seems, and comes first so; behind a point it
    is a digit.
    """
    end = at + plain[0].words if plain else at
    ends = tuple(words[end + 1 : end + 2]) in ((), (BREAK,))
    if plain and words[end : end + 1] == ("too",) and ends and "point" not in words[at:end]:
        as_long = tuple(replace(reading, words=plain[0].words) for reading in sounding)
        plain, sounding = as_long, plain
    return (*sounding, *(replace(reading, cost=reading.cost + 3) for reading in plain))
