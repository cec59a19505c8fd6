"""Numbers written in figures, and fractions: which words make one, and with which digits."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from saywright.understanding.numbers.words import (
    BARE_DENOMINATORS,
    CLASSES,
    DENOMINATOR_PAIRS,
    DENOMINATORS,
)

_FIGURES: Final = re.compile(
    r"#?(?P<whole>\d{1,18})|(?P<decimal>\d{0,18}\.\d{1,18})|(?P<ratio>\d{1,9}/[1-9]\d{0,8})"
    r"|(?P<commas>\d{1,3}(?:,\d{3}){1,5})"
)
_FIGURE_CLASS: Final = {"whole": "FIGURE", "decimal": "FIGURE_DECIMAL", "ratio": "RATIO", "commas": "FIGURE"}


def figure(word: str) -> tuple[str, str] | None:
    """Class and digits of a word written in figures; None for any other."""
    if not word or not (word[0].isdigit() or word[0] in "#."):
        return None
    match = _FIGURES.fullmatch(word)
    if match is None or not word.isascii():
        return None
    kind = match.lastgroup or ""
    return _FIGURE_CLASS[kind], (match[kind] or "").replace(",", "")


def denominator_at(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(denominator, number of words) of the denominator that begins at word *at*."""
    if at >= len(words):
        return None
    if at + 1 < len(words) and (pair := DENOMINATOR_PAIRS.get((words[at], words[at + 1]))):
        return pair, 2
    one = DENOMINATORS.get(words[at])
    return (one, 1) if one else None


def _numerator_at(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(numerator, number of words) of the small number at *at*."""
    if at >= len(words):
        return None
    kind, digits = CLASSES.get(words[at]) or figure(words[at]) or ("", "")
    if kind == "TENS" and at + 1 < len(words):
        next_kind, unit = CLASSES.get(words[at + 1], ("", ""))
        if next_kind == "DIGIT":
            return int(digits) + int(unit), 2
    if kind in ("DIGIT", "TEEN", "TENS") or (kind == "FIGURE" and len(digits) <= 3):
        return int(digits), 1
    return None


def fraction_at(
    words: Sequence[str], at: int
) -> tuple[tuple[str, ...], tuple[str, ...], tuple[int, ...]] | None:
    """Classes, digits and word ends of the fraction that begins at word *at*, or None."""
    if at >= len(words):
        return None
    word = words[at]
    if word in BARE_DENOMINATORS:
        return ("DENOMINATOR",), (str(DENOMINATORS[word]),), (at + 1,)
    if word in ("a", "an"):
        found = denominator_at(words, at + 1)
        if found and not words[at + found[1]].endswith("s"):
            return ("A", "DENOMINATOR"), ("1", str(found[0])), (at + 1, at + 1 + found[1])
        return None
    top = _numerator_at(words, at)
    if top is None:
        return None
    found = denominator_at(words, at + top[1])
    if found is None or _no_share(top[0], words[at + top[1]]):
        return None
    if (words[at], words[at + 1]) in DENOMINATOR_PAIRS:
        return None
    return ("NUMERATOR", "DENOMINATOR"), (str(top[0]), str(found[0])), (at + top[1], at + top[1] + found[1])


def _no_share(numerator: int, word: str) -> bool:
    """True where a number beside *word* is a count of things: "two half inch bolts"."""
    return numerator > 1 and (word == "half" or (word == "quarter" and numerator != 3))
