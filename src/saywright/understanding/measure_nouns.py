"""Number words that stand for things: "this one", "the other half", "at this point"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.measure_units import Units, share_unit
from saywright.understanding.measure_words import (
    AFTER_PRONOUN,
    DESCRIBING,
    DETERMINERS,
    HALF_NOUN,
    HALF_STATE,
    POINT_NOUN,
    VALUE_FOLLOWS,
)
from saywright.understanding.numbers import Readings

# Shares that are also positions: "a third one".
_POSITIONS: Final = frozenset(
    {"third", "fourth", "fifth", "sixth", "seventh", "ninth", "twelfth", "twentieth"}
)


def is_noun(words: Sequence[str], at: int, end: int, units: Units) -> bool:
    """True for "the other half", "half of them", "a third one"."""
    if share_unit(words, end, units) is not None:
        return False
    word = words[end - 1]
    following = words[end] if end < len(words) else ""
    if words[at] in ("a", "an"):
        return word in _POSITIONS
    if end - at > 1:
        return False
    return (at > 0 and words[at - 1] in HALF_NOUN) or following in HALF_STATE


def is_thing(words: Sequence[str], at: int) -> bool:
    """True where the "one" at word *at* stands for a thing: "the left one", "that bent one"."""
    before = words[at - 1]
    if before in DESCRIBING or before in DETERMINERS:
        return True
    return at > 1 and words[at - 2] in DETERMINERS and before not in VALUE_FOLLOWS


def subject(words: Sequence[str], end: int, units: Units) -> bool:
    """True where a bare "one" goes on as a sentence: "one is bent", "one of them", "one turns freely"."""
    following = words[end] if end < len(words) else ""
    return following in AFTER_PRONOUN or (following in ("turns", "revs") and following in units)


def says_decimals(words: Sequence[str], at: int, readings: Readings) -> bool:
    """True where the "point" at word *at* is of a number for all that: "make that point one five".

    Two digits behind it, or one that ends the talk: "no, point three", not "at this point two clips".
    """
    lead = words[max(0, at - 2)]
    digits = readings[0].words - 1 if readings and readings[0].how == "decimal" else 0
    return lead == "make" or (lead != "at" and (digits > 1 or (digits == 1 and at + 2 == len(words))))


def behind_point(words: Sequence[str], at: int) -> bool:
    """True where a point was said before this number and did not lead into it."""
    if at > 0 and words[at - 1] == "point":
        return at < 2 or words[at - 2] not in POINT_NOUN
    return at > 1 and words[at - 2] == "point" and words[at - 1] in ("of", "a", "the", "or", "boy")
