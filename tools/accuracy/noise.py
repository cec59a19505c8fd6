"""Words as a poor recogniser would give them: dropped, swapped, taken for others that sound alike. Pure."""

from __future__ import annotations

import random
from collections.abc import Sequence
from difflib import SequenceMatcher

# Taken for each other by ears and recognisers, common practice, no source.
_ALIKE = (
    ("two", "to", "too"),
    ("four", "for"),
    ("eight", "ate"),
    ("one", "won"),
    ("oh", "or"),
    ("six", "sex"),
    ("nine", "mine"),
    ("five", "fine"),
    ("point", "pint"),
    ("thirteen", "thirty"),
    ("fourteen", "forty"),
    ("fifteen", "fifty"),
    ("sixteen", "sixty"),
    ("seventeen", "seventy"),
    ("eighteen", "eighty"),
    ("nineteen", "ninety"),
    ("bore", "boar"),
    ("jet", "jets"),
    ("float", "flow"),
    ("height", "hide"),
    ("is", "as"),
    ("and", "in"),
)
_LEAST_ALIKE = 0.6  # ratio of letters in common from which a word may be taken for another


class Misheard:
    """Mishears words at a given rate; the same seed mishears the same."""

    def __init__(self, vocabulary: Sequence[str], *, rate: float, seed: int) -> None:
        self._alike = {word: [w for w in group if w != word] for group in _ALIKE for word in group}
        self._vocabulary = sorted(set(vocabulary))
        self._rate = rate
        self._rng = random.Random(seed)

    def hear(self, words: Sequence[str]) -> list[str]:
        """Of the words a share of *rate* is, in equal parts, dropped, swapped with the next, or misheard."""
        out: list[str] = []
        left = list(words)
        while left:
            word = left.pop(0)
            if self._rng.random() >= self._rate:
                out.append(word)
                continue
            what = self._rng.choice(("drop", "swap", "alike"))
            if what == "swap" and left:
                out += [left.pop(0), word]
            elif what == "alike":
                out.append(self._other(word))
        return out

    def _other(self, word: str) -> str:
        if word not in self._alike:
            near = [
                other
                for other in self._vocabulary
                if other != word
                and abs(len(other) - len(word)) <= 2
                and SequenceMatcher(None, word, other).ratio() >= _LEAST_ALIKE
            ]
            self._alike[word] = near or [word]
        return self._rng.choice(self._alike[word])
