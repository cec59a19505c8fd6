"""Years, and machines called by a number: "in two thousand and one", "off a five hundred twin". Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CLASSES

_FIRST: Final = 1900
_LAST: Final = 2049
_SINCE: Final = frozenset({"since", "until", "till", "circa", "dated", "built"})
_IN: Final = frozenset({"in", "from", "of", "after", "before", "around", "about", "made", "bought", "back"})
_CENTURY: Final = frozenset({"nineteen", "twenty"})
_TENS: Final = frozenset(
    ["ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety", "oh"]
)  # fmt: skip
_OF: Final = frozenset({"of", "off", "from", "for", "in", "on", "with"})
_ARTICLES: Final = frozenset({"a", "an"})
_OFF_THE: Final = {("off", "the"), ("from", "the"), ("off", "that"), ("from", "that"), ("off", "his")}
_SO_LARGE: Final = ("er", "ers")  # "off the seven and a half tonner"
_SAYS_NOTHING: Final = frozenset({"and", "or"})


def is_year(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "In two thousand and twelve", "since nineteen eighty six": a number said as years are."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if not start or measure is None or measure.unit_said is not None:
        return False
    before = texts[start - 1]
    if before not in _SINCE and (before not in _IN or fact.characteristics):
        return False
    value = measure.readings[0].value
    if not (value.isdigit() and _FIRST <= int(value) <= _LAST):
        return False
    return before in _SINCE or _is_said_so(texts[start : fact.phrase.end])


def _is_said_so(said: tuple[str, ...]) -> bool:
    """ "Two thousand and twelve", "nineteen eighty six", "2012"; not "nineteen hundred"."""
    if len(said) == 1:
        return said[0].isdigit()
    if said[:2] == ("two", "thousand"):
        return True
    return said[0] in _CENTURY and "hundred" not in said and (said[1] in _TENS or said[1].endswith("teen"))


def is_of_kind(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "Off a five hundred twin", "out of a twelve unit parlour": of a thing that nothing here knows."""
    start, end, measure = fact.phrase.start, fact.phrase.end, fact.phrase.measure
    if start < 2 or measure is None or measure.unit_said is not None or end >= len(texts):
        return False
    led = texts[start - 1] in _ARTICLES and texts[start - 2] in _OF
    led = led or (texts[start] in _ARTICLES and texts[start - 1] in _OF)
    led = led or (texts[start - 2 : start] in _OFF_THE and texts[end].endswith(_SO_LARGE))
    if not led or texts[end] in CLASSES or texts[end] in _SAYS_NOTHING:
        return False
    return any(end in strays for strays in told.strays.values())
