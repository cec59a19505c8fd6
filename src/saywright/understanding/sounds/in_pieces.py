"""Names heard as two words ("sir clips", "carry a bolts"): put together by their sound, and they ask."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import replace
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS, HOMOPHONES
from saywright.understanding.sounds.consonants import sound_key
from saywright.understanding.sounds.phones import alike
from saywright.understanding.tokens import Token
from saywright.understanding.wordforms import plural, singular

_LONGEST_PIECE: Final = 9  # letters; longer words are heard whole
_ALIKE: Final = 0.78  # of both together or of the longer one
_WHOLE: Final = 0.72  # of both together
_BETTER: Final = 0.1  # than a part of it alone sounds like the name
_SWALLOWED: Final = -0.13  # the same, where one of the two is small
_SHORTEST_VERB: Final = 2  # letters
_ARTICLES: Final = frozenset({"the", "and", "new", "old", "both", "all", "is", "are", "that", "this"})
_OBJECTS: Final = frozenset({"it", "her"})
_NUMERALS: Final = frozenset(CLASSES) | frozenset(HOMOPHONES) | frozenset(DENOMINATORS)
_FEWEST: Final = 4  # letters of a name
# The small words that an ending or a beginning is heard as.
_SMALL: Final = frozenset({"a", "an", "in", "it", "her", "he", "our", "um"})

Sounds = dict[str, tuple[str, ...]]
Fits = Callable[[Sequence[str], int, int, str], bool]  # may the name stand for tokens [first, last)?


def sounds_of_names(sheet: Sheet) -> dict[str, tuple[str, ...]]:
    """Sound key, and the same without one of its sounds → the words of names that sound so."""
    words = {word for c in sheet.component for name, _ in component_names(c) for word in name}
    words |= {plural(singular(name[-1])) for c in sheet.component for name, _ in component_names(c)}
    words |= {word for c in sheet.component for position in c.positions for word in position.split()}
    words |= {w for _, read in sheet.characteristics() for name in read.names for w in name.lower().split()}
    words |= {name for condition in sheet.condition for name in condition.names if name.isalpha()}
    found: dict[str, tuple[str, ...]] = {}
    for word in sorted(word for word in words if len(word) >= _FEWEST):
        for key in _keys(word):
            found[key] = (*found.get(key, ()), word)
    return found


def _keys(word: str) -> Iterator[str]:
    key = sound_key(word)
    yield from dict.fromkeys((key, *(key[:at] + key[at + 1 :] for at in range(len(key)))))


def put_together(
    tokens: tuple[Token, ...], sounds: Sounds, unknown: Set[str], fits: Fits, *, heard: dict[str, str]
) -> tuple[tuple[Token, ...], frozenset[int]]:
    """The tokens with such names in one, and the indices of those.

    *unknown*: words that mean nothing; *heard*: what was found before.
    """
    if not unknown:
        return tokens, frozenset()
    texts = [token.text for token in tokens]
    out: list[Token] = []
    changed: set[int] = set()
    at = 0
    while at < len(tokens):
        behind = texts[at + 1] if at + 1 < len(texts) else ""
        may = behind and (texts[at] in unknown or behind in unknown or behind in _OBJECTS)
        name = _name(texts, at, sounds, unknown, fits, heard=heard) if may else ""
        if name:
            changed.add(len(out))
        out.append(replace(tokens[at], text=name) if name else tokens[at])
        at += 2 if name else 1
    return (tuple(out), frozenset(changed)) if changed else (tokens, frozenset())


def _name(
    texts: Sequence[str], at: int, sounds: Sounds, unknown: Set[str], fits: Fits, *, heard: dict[str, str]
) -> str:
    """The name that the two words at *at* sound like together; "" for none, or for two as like."""
    first, second = texts[at], texts[at + 1]
    if not (first.isalpha() and second.isalpha()) or max(len(first), len(second)) > _LONGEST_PIECE:
        return ""
    if not _may_be_pieces(first, second, unknown):
        return ""
    word = _likest(first, second, sounds, heard)
    return word if word and fits(texts, at, at + 2, word) else ""


def _likest(first: str, second: str, sounds: Sounds, heard: dict[str, str]) -> str:
    """The word of a name that both sound like together; looked up once."""
    key = f"{first} {second} together"
    if key not in heard:
        whole = first + second
        able = {word for near in _keys(whole) for word in sounds.get(near, ())} - {first, second}
        like, word = max(((alike(whole, word, _WHOLE), word) for word in able), default=(0.0, ""))
        small = first != "a" and (first in _SMALL or second in _SMALL)  # "that's a shame"
        more = _SWALLOWED if small else 0.0 if first in _SMALL else _BETTER
        alone = max(alike(first, word), alike(second, word)) if like >= _WHOLE else 0.0
        heard[key] = word if like >= _WHOLE and max(like, alone) >= _ALIKE and like - alone >= more else ""
    return heard[key]


def _may_be_pieces(first: str, second: str, unknown: Set[str]) -> bool:
    """True where a word means nothing, and the other nothing either, or hardly anything."""
    if first in _NUMERALS or second in _NUMERALS or first in _ARTICLES:
        return False
    if first in unknown:
        return second in unknown or second in _SMALL
    if second in unknown:
        return True
    return second in _OBJECTS and len(first) > _SHORTEST_VERB  # "tap it boots"
