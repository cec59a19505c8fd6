"""Typed text: which of its commas stay, for they part two numbers: "twenty five, twenty four" is no 25.24.

All others go, as no listener gives any. A count aloud stays one run, and a number goes on behind a pause:
"one, two, three, four out", "eighteen, point four two", "two thousand, four hundred".
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.hearing.spoken import ONES, TENS

_COMMAS = frozenset({",", ";"})
_COUNTED = 3  # numbers that are counted aloud at least
# Words that a number may end with, and that the next may begin with.
_OF_NUMBERS = frozenset({*ONES, *TENS, "nought", "naught", "oh"}) - {""}
_UP = {**{word: at for at, word in enumerate(ONES)}, **{str(at): at for at in range(len(ONES))}}


def with_commas(tokens: Sequence[str]) -> list[str]:
    """The words among *tokens*; one that a comma parts from the next, where both are of numbers, keeps it."""
    if _COMMAS.isdisjoint(tokens):
        return list(tokens)
    words: list[str] = []
    parted: list[int] = []
    for token in tokens:
        if token not in _COMMAS:
            words.append(token)
        elif words:
            parted.append(len(words) - 1)
    counted = _counted(words)
    for at in parted:
        if at not in counted and _is_number(words[at]) and _is_number(*words[at + 1 : at + 2]):
            words[at] += ","
    return words


def _is_number(word: str = "") -> bool:
    return word in _OF_NUMBERS or (word[-1:].isdigit() and not word[0].isalpha())


def _counted(words: Sequence[str]) -> set[int]:
    """The places in *words* of numbers that go up from one, but for the last of each run."""
    inside: set[int] = set()
    for start in [at for at, word in enumerate(words) if _UP.get(word) == 1]:
        end = start + 1
        while end < len(words) and _UP.get(words[end]) == end - start + 1:
            end += 1
        if end - start >= _COUNTED:
            inside.update(range(start, end - 1))
    return inside
