"""Where on one thing a value was read, told by halves: "eleven oh one eight one way, oh one nine the other".

"The other" of such is no other part; the words are put aside as those of a place are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.values.named_places import TAKEN

ONE_WAY = "one way"
_ROUND = frozenset({"round", "around", "about", "up", "in", "on", "out", "off"})  # "the other way round"
_ENDS = frozenset({"end", "side", "edge", "face"})
_LEADS = frozenset({"the", "at", "on", "round", "around", "across", "and", "then"})
HEADS = frozenset({"way", "other", "where"})
_POINTS = frozenset({"this", "that"})
_IT = frozenset({"it", "they", "she", "he", "that", "the"})
_TELLS_VALUE = frozenset(
    ["is", "was", "are", "were", "at", "to", "reads", "says", "measures", "makes", "of", "about"]
)
_CLAUSE = 5  # tokens from "where" to its end at most
_NUMERALS = frozenset(CLASSES) | {"point"}
_CLAUSE_ENDS = _NUMERALS | {"and", BREAK}


def ways_aside(
    tokens: tuple[Token, ...], waiting: str | None, *, sided: bool
) -> tuple[tuple[Token, ...], str | None]:
    """*tokens* with "one way", "the other end of it" put aside, and ONE_WAY where the other is to come.

    *waiting* is what the utterance before left waiting; *sided*: what is in hand is one of a left and a
    right, so that "round the other side" is the other one.
    """
    texts = tuple([token.text for token in tokens])
    if HEADS.isdisjoint(texts):
        return tokens, None
    taken = _clauses(texts)
    for at, text in enumerate(texts):
        length = (
            _length(texts, at, waiting, sided=sided)
            if text in {"one", "other"}
            else 2 * _is_that_way(texts, at)
        )
        if not length:
            continue
        start = at
        while start > 0 and text == "other" and texts[start - 1] in _LEADS - {"and", "then"}:
            start -= 1
        taken |= set(range(start, at + length))
    if not taken or _NUMERALS.isdisjoint([t for at, t in enumerate(texts) if at not in taken]):
        return tokens, None
    aside = tuple(replace(t, text=TAKEN) if at in taken else t for at, t in enumerate(tokens))
    return aside, ONE_WAY if "other" not in texts and _tells_one_way(texts) else None


def _tells_one_way(texts: Sequence[str]) -> bool:
    """ "one way", "eight oh one two that way"."""
    return "way" in texts and ("one" in texts or any(_is_that_way(texts, at) for at in range(len(texts))))


def _is_that_way(texts: Sequence[str], at: int) -> bool:
    """ "eight point oh one two that way": behind its value, and no "that way up"."""
    if texts[at] not in _POINTS or texts[at + 1 : at + 2] != ("way",) or at == 0:
        return False
    behind = texts[at + 2 : at + 3]
    return texts[at - 1] in _NUMERALS and not (behind and behind[0] in _ROUND)


def _clauses(texts: Sequence[str]) -> set[int]:
    """ "where it never wore two forty nine", "ninety three where it isn't": places told by a clause."""
    taken: set[int] = set()
    for at, text in enumerate(texts):
        if text != "where" or texts[at + 1 : at + 2] == () or texts[at + 1] not in _IT:
            continue
        end = next((i for i in range(at + 2, len(texts)) if texts[i] in _CLAUSE_ENDS), len(texts))
        read = texts[end : end + 1] and texts[end] in _NUMERALS
        read = read or (at > 0 and texts[at - 1] in _NUMERALS and texts[end - 1] == "not")
        if read and 2 < end - at <= _CLAUSE and texts[end - 1] not in _TELLS_VALUE:
            taken |= set(range(at, end))
    beside = texts[-2:] in {("beside", "it"), ("beside", "that")}
    return taken | set(range(len(texts) - 2, len(texts))) if taken and beside else taken


def _length(texts: Sequence[str], at: int, waiting: str | None, *, sided: bool) -> int:
    """Tokens from *at* on that only tell where on one thing; 0 where they may tell which of several."""
    behind = texts[at + 1 : at + 4]
    if behind[:1] == ("way",):
        return 0 if behind[1:2] and behind[1] in _ROUND else 2
    if texts[at] == "one":
        return 0
    if behind[:1] and behind[0] in _ENDS:
        led = texts[max(0, at - 2) : at] in {("round", "the"), ("around", "the")}
        of_it = behind[1:] in {("of", "it"), ("of", "that")}
        return 4 if of_it else 2 * (led and not sided)
    ends = behind[:1] in {(), (BREAK,)} and texts[max(0, at - 1)] == "the" and at > 1
    if not ends or texts[at - 2] not in _NUMERALS:
        return 0
    return int(_tells_one_way(texts[:at]) or waiting == ONE_WAY)
