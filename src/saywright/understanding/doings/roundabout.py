"""Words of which a roundabout order is made: who asks, how many, how it ends. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

Form = Callable[[Tokens, list[str], "Lexicon"], Tokens]  # of a way to say it: the plain words, or the same

PUT: Final = frozenset(
    ["put", "stick", "pop", "add", "chuck", "whack", "bung", "sling", "throw", "get", "write", "jot", "have",
     "shove", "slap", "mark", "note"]
)  # fmt: skip
PERSONS: Final = frozenset({"me", "us", "him", "her"})
POINTS: Final = frozenset({"it", "that", "this", "them", "those", "these", "they"})
NUMBERS: Final = frozenset(TO_TWELVE)
SOME: Final = NUMBERS | {"a", "an", "some", "another", "new", "more"}
HOW_MANY: Final = NUMBERS | {"a", "pair", "set", "couple", "another", "more", "new", "of", "full", "both"}
MAY: Final = frozenset({"can", "could", "will", "would"})
POLITE: Final = frozenset({"just", "please", "also", "possibly", "maybe", "you"})
SPEAKS: Final = frozenset(
    {"i", "we", "have", "will", "would", "shall", "had", "better", "to", "just", "let", "us"}
)
LINKS: Final = frozenset({"and", "so", "then", "right", "okay", "oh", "well", "also", "plus", "now"})
_ENDS: Final = frozenset(
    {"and", "then", "too", "as", "please", "but", "so", "now", "also", "though", "already"}
)
NOT: Final = frozenset({"not", "no", "never", "nothing", "what", "whether", "if", "tried", "trying", "?"})
REACH: Final = 16  # tokens from the verb to the list


def put_plainly(tokens: Tokens, forms: Iterable[Form], lexicon: Lexicon) -> Tokens:
    """*tokens* as each of *forms* puts them, in turn."""
    texts = [token.text for token in tokens]
    for form in forms:
        plain = form(tokens, texts, lexicon)
        if plain is not tokens:
            tokens, texts = plain, [token.text for token in plain]
    return tokens


def put_by_words(tokens: Tokens, forms: Calls[Form], lexicon: Lexicon) -> Tokens:
    """*tokens* as each of *forms* puts them that their words call, in turn."""
    return forms.put(tokens, lambda form, said: form(said, [token.text for token in said], lexicon))


def names_part(texts: Sequence[str], start: int, end: int, lexicon: Lexicon) -> bool:
    """True where a part is named in [start, end)."""
    words = tuple(texts[:end])
    return any(found.parts or found.aliases for found in (lexicon.names(words, i) for i in range(start, end)))


def ended(texts: Sequence[str], at: int) -> bool:
    """True where the clause ends before *at*."""
    return at >= len(texts) or texts[at] == BREAK or texts[at] in _ENDS


def behind_tail(texts: Sequence[str], at: int) -> int:
    """The token behind "while you're there", "for me", "would you", "if you can" at *at*."""
    words = tuple(texts[at : at + 2])
    if words[:1] == ("for",) and words[1:] and words[1] in PERSONS:
        return behind_tail(texts, at + 2)
    if len(words) == 2 and words[0] in MAY and words[1] == "you":
        return behind_tail(texts, at + 2)
    if words in {("while", "you"), ("when", "you"), ("if", "you"), ("while", "i"), ("while", "we")}:
        rest = range(at, len(texts))
        return next((i for i in rest if texts[i] == BREAK), len(texts))
    return at


def ordered(tokens: Tokens, cut: int, begin: int, end: int, rest: int) -> Tokens:
    """The tokens before *cut*, "order", those of [begin, end), and those from *rest* on."""
    word = tokens[min(cut, len(tokens) - 1)]
    return (*tokens[:cut], replace(word, text="order"), *tokens[begin:end], *tokens[rest:])


def behind_quantity(texts: Sequence[str], at: int) -> int:
    """The token behind "two", "a couple more", "three of those" at *at*; *at* where none is said."""
    end = at
    while end < len(texts) and texts[end] in HOW_MANY:
        end += 1
    counts = {*texts[at:end]} - {"a", "of", "new", "another", "one"}
    if not counts:
        return at
    return end + (texts[end - 1] == "of" and texts[end : end + 1] != [] and texts[end] in POINTS)


def put_words(tokens: Tokens, start: int, end: int, *words: str) -> Tokens:
    """*tokens* with *words* in the place of those of [start, end)."""
    return (*tokens[:start], *(replace(tokens[start], text=word) for word in words), *tokens[end:])
