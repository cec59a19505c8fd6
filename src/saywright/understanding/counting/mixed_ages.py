""" "Clips on both, one new", "top screws, three old ones and a new one": how many of what moved are new."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.tokens import BREAK, Token, text_at

Age = Literal["old", "new"]
Shares = tuple[tuple[int, Age], ...]

AGE_WORDS: dict[str, Age] = {"new": "new", "old": "old"}
_ARTICLES = frozenset({"a", "an", "the"})
_NAMED = 4  # tokens of a part and its age: "five old cover screws, one new"
_MOST = 9  # of one age
_COUNTS = _ARTICLES.union(CARDINALS[:_MOST])  # one of them begins what is told
_AT_LEFT = frozenset(
    {"on", "in", "off", "out", "up", "down", "home", "back", "both", "them", "pair", "lot", "fitted", BREAK}
)
_ENDS = frozenset({"", BREAK, "and", "then", "now", "but", "so"})
Told = dict[int, tuple[int, Shares]]  # first token → the token behind the last, and what they tell


def take_ages(tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], Told]:
    """The tokens with breaks for those that tell how many are old and how many new, and what those tell."""
    texts = tuple([token.text for token in tokens])
    if "new" not in texts and "old" not in texts:
        return tokens, {}
    told: Told = {}
    at = 1
    while at < len(texts) - 1:
        if texts[at] not in _COUNTS:
            at += 1
            continue
        end, shares = _shares(texts, at)
        told_both = any(text in AGE_WORDS for text in texts[max(0, at - _NAMED) : at])
        number = is_number_word(texts, end) and (texts[end - 1] == "ones" or told_both)
        ends = text_at(texts, end) in _ENDS or number
        if shares and ends and _behind(texts, at, of_them="of" in texts[at:end]):
            told[at] = (end, shares)
            at = end
        else:
            at += 1
    taken = {i for start, (end, _) in told.items() for i in range(start, end)}
    return tuple(Token(BREAK, t.word) if i in taken else t for i, t in enumerate(tokens)), told


def shares_behind(told: Told, texts: Sequence[str], end: int) -> tuple[int, Shares]:
    """What is told right behind token *end*, and where that ends."""
    return told.get(end) or told.get(end + (text_at(texts, end) == BREAK)) or (end, ())


def _shares(texts: Sequence[str], at: int) -> tuple[int, Shares]:
    """The end of the words from *at* on, and what they tell."""
    end, first = _share(texts, at)
    if first is None:
        return at, ()
    behind = end + (text_at(texts, end) in {"and", BREAK})
    last, second = _share(texts, behind)
    if second is not None and second[1] != first[1]:
        return last, (first, second)
    one = text_at(texts, at) in _ARTICLES and first[0] == 1
    return end, () if one else (first,)


def _share(texts: Sequence[str], at: int) -> tuple[int, tuple[int, Age] | None]:
    """ "one new", "two of them old", "three old ones", "a new one"."""
    word, article = text_at(texts, at), text_at(texts, at) in _ARTICLES
    some = text_at(texts, at + 2)
    if word == "the" and text_at(texts, at + 1) in AGE_WORDS and some in CARDINALS[1:_MOST]:
        return at + 3, (CARDINALS.index(some) + 1, AGE_WORDS[texts[at + 1]])  # "gears in, the old two"
    count = 1 if article else CARDINALS.index(word) + 1 if word in CARDINALS[:_MOST] else 0
    at += 1
    if tuple(texts[at : at + 2]) in {("of", "them"), ("of", "those"), ("of", "the")}:
        at += 2
    if text_at(texts, at) == ("is" if count == 1 else "are"):  # "one's new"; "two's new" is number two
        at += 1 + (text_at(texts, at + 1) == "a" and text_at(texts, at + 3) == "one")
    age = AGE_WORDS.get(text_at(texts, at))
    ones = text_at(texts, at + 1) in {"one", "ones"} and text_at(texts, at + 2) not in AGE_WORDS
    if not count or age is None or (article and not ones):
        return at, None
    return at + 1 + ones, (count, age)


def _behind(texts: Sequence[str], at: int, *, of_them: bool) -> bool:
    """True behind what several of a part did: "valve one new" is the first valve."""
    before = texts[at - 1]
    return of_them or before in _AT_LEFT or (before.endswith("s") and before not in {"is", "has", "was"})
