"""Common words heard for a side or for what is on one: "in a pad five point two", "left we'll off".

Only where they make no sense as they stand: at the head of a clause before a part that has such a place and
what was read on it, and between a side and how something moved.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.phones import alike
from saywright.understanding.tokens import BREAK, Token

_PLACES: Final = {"in": "inner", "out": "outer"}
_PLACE_WORDS: Final = frozenset(_PLACES)
_ENDINGS: Final = frozenset({"a", "her", "are", "our", "or"})
_OPENS: Final = frozenset({BREAK, "and", "then", "the", "left", "right", "front", "rear"})
_READS: Final = frozenset({"is", "point", "down", "has"})
_MOVES: Final = frozenset({"MOVE_OFF", "MOVE_ON"})
_ALIKE: Final = 0.8
_TAILS: Final = {"will": "ll", "would": "d", "have": "v", "are": "re"}  # as they are heard in one word
_TAIL_WORDS: Final = frozenset(_TAILS)
_MAY_BE: Final = _PLACE_WORDS | _TAIL_WORDS


def sides_heard(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with such words put right; *tokens* itself where there are none."""
    texts = tuple([token.text for token in tokens])
    if _MAY_BE.isdisjoint(texts):
        return tokens
    if _PLACE_WORDS.isdisjoint(texts) or lexicon.positions.isdisjoint(_PLACES.values()):
        return _parts_heard(tokens, texts, lexicon)
    for at in range(len(texts) - 2):
        place = _PLACES.get(texts[at], "")
        if place in lexicon.positions and texts[at + 1] in _ENDINGS and _reads_it(texts, at, place, lexicon):
            return (*tokens[:at], replace(tokens[at], text=place), *tokens[at + 2 :])
    return tokens


def put_right(
    mended: tuple[Token, ...], heard: tuple[Token, ...], tokens: tuple[Token, ...]
) -> frozenset[int]:
    """Indices in *mended* of the words that *heard* has in the place of those of *tokens*."""
    words = {t.word for t in heard} & {t.word for t in tokens if t not in heard}
    return frozenset(at for at, t in enumerate(mended) if t.word in words)


def _reads_it(texts: tuple[str, ...], at: int, place: str, lexicon: Lexicon) -> bool:
    """True where a part that has *place* stands behind the two words at *at*, and what is read on it."""
    if at and texts[at - 1] not in _OPENS:
        return False
    named = lexicon.match(texts, at + 2)
    end = at + 2 + (named[0] if named is not None else 0)
    if named is None or not _has_place(named[1].parts, place, lexicon):
        return False
    return end < len(texts) and (texts[end] in _READS or texts[end] in CLASSES)


def _parts_heard(tokens: tuple[Token, ...], texts: tuple[str, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "left we'll off": two tokens of one word between a side and how it moved are the part on that side."""
    if _TAIL_WORDS.isdisjoint(texts):
        return tokens
    for at in range(1, len(tokens) - 2):
        if tokens[at].word != tokens[at + 1].word or texts[at - 1] not in lexicon.positions:
            continue
        if not lexicon.names(texts, at + 2).tags & _MOVES or texts[at + 1] not in _TAILS:
            continue
        part = _part_like(texts[at] + _TAILS[texts[at + 1]], texts[at - 1], lexicon)
        if part:
            return (*tokens[:at], replace(tokens[at], text=part), *tokens[at + 2 :])
    return tokens


def _part_like(heard: str, side: str, lexicon: Lexicon) -> str:
    """The one-word name of a part on *side* that sounds like *heard*; "" for none."""
    able = (w for w in lexicon.part_words if _has_place(lexicon.table[w,].parts, side, lexicon))
    ranked = sorted(((alike(heard, word, _ALIKE), word) for word in able), reverse=True)
    return ranked[0][1] if ranked and ranked[0][0] >= _ALIKE else ""


def _has_place(components: Sequence[str], place: str, lexicon: Lexicon) -> bool:
    parts = [lexicon.sheet.get(c) for c in components]
    return bool(parts) and all(p is not None and p.has_places((place,)) for p in parts)
