"""A number with a word behind it that sounds like a digit: which way to read it comes first. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.numbers.ranked import Readings
from saywright.understanding.tokens import BREAK


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
