"""Rewordings that wait to be called: a line runs those that one of its words calls, and asks no other.

Each says beside itself which words call it:

    @called_by({"ones"})
    def ones_named(tokens, state, lexicon): …

so "now the float" runs next to none of forty, at the price of one look at each of its words. A word that one
rewording puts in calls those behind it. Pure.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from saywright.understanding.fixed import fixed
from saywright.understanding.tokens import Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

Tokens = tuple[Token, ...]
Reword = Callable[[Tokens, "Discourse", "Lexicon"], Tokens]


@fixed
class Step:
    """One rewording; it gives back the very same tokens where it has nothing to say by plainer words."""

    reword: Reword
    words: frozenset[str] | None  # that call it; None where every line does


def called_by(words: Iterable[str]) -> Callable[[Reword], Step]:
    """Of a rewording that has nothing to do where none of *words* is said."""
    return lambda reword: Step(reword, frozenset(words))


def called_always(reword: Reword) -> Step:
    """Of a rewording that the words of a sheet call, or what was said before."""
    return Step(reword, None)


class Steps:
    """Rewordings in their order."""

    def __init__(self, *steps: Step) -> None:
        self._rewords = tuple(step.reword for step in steps)
        self._always = 0
        self._by_word: dict[str, int] = {}  # a bit for each step
        for at, step in enumerate(steps):
            if step.words is None:
                self._always |= 1 << at
            else:
                for word in step.words:
                    self._by_word[word] = self._by_word.get(word, 0) | 1 << at

    def _called(self, tokens: Tokens) -> int:
        """A bit for each step that *tokens* call."""
        called, by_word = self._always, self._by_word
        for token in tokens:
            if token.text in by_word:
                called |= by_word[token.text]
        return called

    def run(self, tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
        """*tokens* as all the steps put them that they call, each behind those before it."""
        called = self._called(tokens)
        while called:
            first = called & -called
            called ^= first
            plainer = self._rewords[first.bit_length() - 1](tokens, state, lexicon)
            if plainer is not tokens:
                tokens = plainer
                called = self._called(tokens) & -(first << 1)  # those behind it, by the words as they are now
        return tokens
