"""What waits to be called by its words: a line asks what one of its words calls, and nothing else.

A rewording says beside itself which words call it:

    @called_by({"ones"})
    def ones_named(tokens, state, lexicon): …

so "now the float" runs next to none of forty, at the price of one look at each of its words. A word that one
rewording puts in calls those behind it. A table of rules names the words beside each rule: `Calls` looks the
words up each time, `cued` is for rules behind the rewordings, for all of which they are looked up once. Pure.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from typing import TYPE_CHECKING, Final, Generic, TypeVar

from saywright.understanding.fixed import fixed
from saywright.understanding.tokens import Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

One = TypeVar("One")
Tokens = tuple[Token, ...]
Reword = Callable[[Tokens, "Discourse", "Lexicon"], Tokens]


class Calls(Generic[One]):
    """Rules in their order, each with the words that call it; None where every line does."""

    def __init__(self, *rules: tuple[One, Collection[str] | None]) -> None:
        self.rules = tuple(rule for rule, _ in rules)
        self._always = 0
        self._by_word: dict[str, int] = {}  # a bit for each rule
        for at, (_, words) in enumerate(rules):
            if words is None:
                self._always |= 1 << at
            for word in words or ():
                self._by_word[word] = self._by_word.get(word, 0) | 1 << at

    @property
    def words(self) -> frozenset[str]:
        """All the words that call one of the rules."""
        return frozenset(self._by_word)

    def bits(self, said: Iterable[str]) -> int:
        """A bit for each rule that one of the words *said* calls."""
        called, by_word = self._always, self._by_word
        for word in said:
            if word in by_word:
                called |= by_word[word]
        return called

    def put(self, tokens: Tokens, put: Callable[[One, Tokens], Tokens]) -> Tokens:
        """*tokens* as *put* makes them by each rule in turn that their words, as they are then, call."""
        called, rules = self.bits([token.text for token in tokens]), self.rules
        while called:
            first = called & -called
            called ^= first
            plainer = put(rules[first.bit_length() - 1], tokens)
            if plainer is not tokens:
                tokens = plainer
                called = self.bits([token.text for token in tokens]) & -(first << 1)
        return tokens

    def by(self, said: Iterable[str]) -> list[One]:
        """The rules that one of the words *said* calls, in their order."""
        called, rules, found = self.bits(said), self.rules, []
        while called:
            first = called & -called
            called ^= first
            found.append(rules[first.bit_length() - 1])
        return found


class Cues:
    """Words that call rules at all stages of an utterance: a bit for each rule, each word looked up once."""

    ALWAYS: Final = 1  # of rules that every line calls

    def __init__(self) -> None:
        self._by_word: dict[str, int] = {}
        self._next = self.ALWAYS << 1

    def bit(self, words: Iterable[str]) -> int:
        """The bit of a rule that *words* call."""
        bit, self._next = self._next, self._next << 1
        for word in words:
            self._by_word[word] = self._by_word.get(word, 0) | bit
        return bit

    def of(self, said: Iterable[str]) -> int:
        """The bits of all rules that one of the words *said* calls."""
        called, by_word = self.ALWAYS, self._by_word
        for word in said:
            if word in by_word:
                called |= by_word[word]
        return called


CUES: Final = Cues()


def cued(*rules: tuple[One, Iterable[str] | None]) -> tuple[tuple[One, int], ...]:
    """Rules in their order, each with the bit of the words that call it; None where every line does."""
    return tuple((rule, CUES.ALWAYS if words is None else CUES.bit(words)) for rule, words in rules)


@fixed
class Step:
    """One rewording; it gives back the very same tokens where it has nothing to say by plainer words."""

    reword: Reword
    words: frozenset[str] | None  # that call it; None where those for places do that a sheet has words for
    beside: frozenset[str] | None = None  # one of them has to be said too; None where none has


def called_by(words: Iterable[str], *, beside: Iterable[str] | None = None) -> Callable[[Reword], Step]:
    """Of a rewording that has nothing to do where none of *words* is said, or none of those *beside* them."""
    with_it = frozenset(beside) if beside is not None else None
    return lambda reword: Step(reword, frozenset(words), with_it)


def called_by_places(reword: Reword) -> Step:
    """Of a rewording that the words call by which the sheet tells places, or people in their place."""
    return Step(reword, None)


class Steps:
    """Rewordings in their order."""

    def __init__(self, *steps: Step) -> None:
        self._rewords = tuple(step.reword for step in steps)
        # A bit for each, and above those, as many for what is said beside the words that call it.
        self._calls: dict[str, int] = {}
        self._by_places = self._beside_any = 0
        for at, step in enumerate(steps):
            bit, beside = 1 << at, 1 << at + len(steps)
            for word in step.words or ():
                self._calls[word] = self._calls.get(word, 0) | bit
            for word in step.beside or ():
                self._calls[word] = self._calls.get(word, 0) | beside
            self._by_places |= bit if step.words is None else 0
            self._beside_any |= beside if step.beside is None else 0

    def run(self, tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
        """*tokens* as all the steps put them that they call, each behind those before it."""
        called, rewords = self._called(tokens, lexicon), self._rewords
        while called:
            first = called & -called
            called ^= first
            plainer = rewords[first.bit_length() - 1](tokens, state, lexicon)
            if plainer is not tokens:
                tokens = plainer
                called = self._called(tokens, lexicon) & -(first << 1)
        return tokens

    def _called(self, tokens: Tokens, lexicon: Lexicon) -> int:
        """A bit for each rewording that *tokens* call."""
        said, calls, size = self._beside_any, self._calls, len(self._rewords)
        texts = [token.text for token in tokens]
        for text in texts:
            if text in calls:
                said |= calls[text]
        places, others, heads = lexicon.positions, lexicon.other_places, lexicon.station_heads
        if not (
            places.isdisjoint(texts) and others.keys().isdisjoint(texts) and heads.keys().isdisjoint(texts)
        ):
            said |= self._by_places
        return said & said >> size & (1 << size) - 1
