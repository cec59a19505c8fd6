"""Number words that stand for things: "this one", "the other half", "at this point"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.numbers.ranked import Readings, read_number
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.units import Units, share_unit
from saywright.understanding.quantities.words import (
    AFTER_PRONOUN,
    DESCRIBING,
    DETERMINERS,
    HALF_NOUN,
    HALF_STATE,
    JUDGING,
    PICKED,
    PLACES,
    POINT_NOUN,
    POINTING,
    VALUE_FOLLOWS,
)
from saywright.understanding.wordforms import is_past

# Shares that are also positions: "a third one".
_POSITIONS: Final = frozenset(
    {"third", "fourth", "fifth", "sixth", "seventh", "ninth", "twelfth", "twentieth"}
)

_CHANGES: Final = frozenset(  # "scratch that, one point six"
    {("make", "that"), *((verb, "that") for verb in ("scratch", "strike", "scrap", "scrub", "forget"))}
)

# Before "zero it", where an instrument is set; "," where a clause begins.
_SETS: Final = frozenset(
    ["to", "i", "we", "me", "us", "will", "and", "then", "just", "now", "so", "no", "wait", "okay", ","]
)
_IN_FULL: Final = frozenset(  # "a good one point two" may be a little more than that
    ["good", "nice", "fat", "fair", "big", "tight", "light", "healthy", "decent", "heavy", "loose", "high",
     "low"]
)  # fmt: skip
_ARTICLES: Final = frozenset({"a", "an"})
_DESCRIBED: Final = 2  # tokens before the "one": "the new"
_HOLD_ON: Final = frozenset({("hold", "on"), ("hang", "on")})


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
    if before in DESCRIBING or before in DETERMINERS or _is_one_so(words, at):
        return True
    return at > 1 and words[at - 2] in DETERMINERS and before not in VALUE_FOLLOWS


def behind_thing(words: Sequence[str], at: int, readings: Readings) -> tuple[Readings, int, bool]:
    """The number at word *at*, which begins with "one", where that may be a thing: "that one point five".

    Its readings, the word they begin at, and whether it asks: "the worst one sixty one". "The new" is none
    without its "one", "the left" may be one: "the new one point three" is sure.
    """
    before, end = words[at - 1], at + readings[0].words
    described = before in DESCRIBING or _is_judged(words, at)
    plain = (
        before == "no"  # "no, one point five": nobody is spoken of
        or tuple(words[max(0, at - 2) : at]) in _CHANGES
        or (before not in POINTING and not described and before not in PICKED)
    )
    without = () if plain else read_number(words, at + 1)
    if not without:
        return readings, at, False
    if (before in PICKED or _told_of_ones(words, at)) and at + 1 + without[0].words == end:
        return (*without, *_dearer(readings)), at + 1, True
    whole = described and without[0].how == "decimal" and _is_digit(words, at + 1)
    whole = whole or (words[at + 1] == "point" and is_thing_for_sure(words, at))
    if not whole and without[0].how == "decimal" and is_thing_for_sure(words, at):
        # "the new one twelve point four two": a hundred and twelve, where that alone can be
        return (*without, *_dearer(readings)), at + 1, False
    if (before in POINTING or whole) and without[0].how != "ordinal":
        return without, at + 1, False
    if at + 1 + without[0].words == end:
        readings = tuple(sorted((*readings, *_dearer(without)), key=lambda reading: reading.cost))
    return readings, at, False


def is_thing_for_sure(words: Sequence[str], at: int) -> bool:
    """ "the new one point oh three": nothing but a thing can be called so in full, behind "the"."""
    if at < _DESCRIBED or words[at - 2] not in DETERMINERS or words[at - 1] in PLACES:
        return False
    full = words[at - 2] in _ARTICLES and words[at - 1] in _IN_FULL
    return not full and (words[at - 1] in DESCRIBING or _is_judged(words, at))


def _is_judged(words: Sequence[str], at: int) -> bool:
    """ "the ugly one", "that cracked one"; not "a shocking one point two"."""
    if at < _DESCRIBED or words[at - 2] not in DETERMINERS - _ARTICLES or words[at - 1] in PLACES:
        return False
    return words[at - 1] in JUDGING or is_past(words[at - 1])


def _told_of_ones(words: Sequence[str], at: int) -> bool:
    """ "left one has point one five, right one point four": the first "one" was a thing; so may this be."""
    return any(
        words[i] == "one" and words[i - 1] in DESCRIBING and words[i + 1] not in {*CLASSES, "point", "and"}
        for i in range(1, at - 1)
    )


def _dearer(readings: Readings) -> Readings:
    return tuple(replace(reading, cost=reading.cost + 1) for reading in readings)


def _is_digit(words: Sequence[str], at: int) -> bool:
    """ "the other one three point three": thirteen is not said digit by digit."""
    return words[at + 1] == "point" and CLASSES.get(words[at], ("",))[0] == "DIGIT"


def subject(words: Sequence[str], end: int, units: Units) -> bool:
    """True where a bare "one" goes on as a sentence: "one is bent", "one of them", "one turns freely"."""
    following = words[end] if end < len(words) else ""
    return following in AFTER_PRONOUN or (following in ("turns", "revs") and following in units)


def _is_one_so(words: Sequence[str], at: int) -> bool:
    """ "pads out, one cracked", "both worn one missing": of what was told of just now, one is so."""
    following = words[at + 1] if at + 1 < len(words) else ""
    told = words[at - 1] in {"out", "off", "in", "on", "fine", "good"} or is_past(words[at - 1])
    return told and (is_past(following) or following in {"missing", "gone", "split"})


def is_no_number(words: Sequence[str], at: int, end: int, units: Units) -> bool:
    """True for the word at *at* of "one is bent"; of "zero it again", where an instrument is set anew."""
    if words[at] == "one":
        return subject(words, end, units)
    before = tuple(words[max(0, at - 2) : at])
    if words[at] != "zero" or (at and before[-1] not in _SETS and before not in _HOLD_ON):
        return False  # "runout is zero that's good"
    following = words[end] if end < len(words) else ""
    told = end + 1 < len(words) and words[end + 1] in {"is", "was"}  # "zero, that's good"
    return not told and (following in DETERMINERS or following in {"it", "them"})


def says_decimals(words: Sequence[str], at: int, readings: Readings) -> bool:
    """True where the "point" at word *at* is of a number for all that: "make that point one five".

    Two digits behind it, or one that ends the talk: "no, point three", not "at this point two clips";
    or a number before the no that it puts right: "point two five, no, point two, the clock was sticking".
    """
    lead = words[max(0, at - 2)]
    digits = readings[0].words - 1 if readings and readings[0].how == "decimal" else 0
    if words[at - 1] == "no" and lead in CLASSES:
        return digits > 0
    return lead == "make" or (lead != "at" and (digits > 1 or (digits == 1 and at + 2 == len(words))))


def behind_point(words: Sequence[str], at: int) -> bool:
    """True where a point was said before this number and did not lead into it."""
    if at > 0 and words[at - 1] == "point":
        return at < 2 or words[at - 2] not in POINT_NOUN
    return at > 1 and words[at - 2] == "point" and words[at - 1] in ("of", "a", "the", "or", "boy")
