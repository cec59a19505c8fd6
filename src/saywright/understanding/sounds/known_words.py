"""How well each word that was heard is known: what means something here is hardly ever mended."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import FASTENERS, LETTERS, NEUTRAL, PLAIN, SOURCES
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.said_alike import (
    SAID_ALIKE,
    in_some_name,
    name_like,
    sounds_like_point,
)
from saywright.understanding.sounds.state_sounds import state_like
from saywright.understanding.sounds.subject_sounds import doer_like, first_like
from saywright.understanding.tokens import BREAK

UNKNOWN: Final = "unknown"
HALF: Final = "half"
LITTLE: Final = "little"
_PLAIN: Final = "plain"
_MOST_HEARD: Final = 100_000  # answers that are remembered
_TALK: Final = NEUTRAL | PLAIN
_NEVER_PLAIN: Final = SAID_ALIKE | frozenset(LETTERS)
_SHORTEST_ALONE: Final = 4  # letters; a shorter word sounds like too many others


def loose_words(texts: list[str], lexicon: Lexicon) -> list[tuple[int, str]]:
    """The tokens that may be mended, each with how well it is known."""
    known = [(at, _known(text, lexicon)) for at, text in enumerate(texts) if text not in lexicon.plain]
    return [one for one in known if one[1] != _PLAIN and not _is_source(texts, one[0])]


def _is_source(texts: list[str], at: int) -> bool:
    """ "plates says one point four": what says so is written somewhere, and is no part."""
    return texts[at] in SOURCES and texts[at + 1 : at + 2] in (["says"], ["say"])


def bound_memory(lexicon: Lexicon) -> None:
    """Forget what was looked up once there is too much of it."""
    if len(lexicon.heard) > _MOST_HEARD:
        lexicon.heard.clear()
        lexicon.plain.clear()
        lexicon.tried_as.clear()


def _known(text: str, lexicon: Lexicon) -> str:
    """How well the word is known; looked up once."""
    known = lexicon.heard.get(text)
    if known is None:
        known = _how_known(text, lexicon)
        lexicon.heard[text] = known
        if known == _PLAIN:
            lexicon.plain.add(text)
    return known


def _how_known(text: str, lexicon: Lexicon) -> str:
    """Unknown, half known, plain where it is never mended whatever stands around it, or "" for known.

    A little word of talk can only be another that sounds the same.
    """
    if _unknown(text, lexicon):
        return UNKNOWN
    if _half_known(text, lexicon):
        return HALF
    if text in _NEVER_PLAIN or sounds_like_point(text) or in_some_name(text, lexicon):
        return LITTLE if len(text) < _SHORTEST_ALONE and text in _TALK else ""
    meant = lexicon.table.get((text,), NOTHING)
    common = (
        text.isalpha()
        and len(text) >= _SHORTEST_ALONE
        and not (meant.parts or meant.aliases or meant.positions)
    )
    if not common:
        return _PLAIN
    alike = name_like(text, lexicon) or doer_like(text, lexicon) or _is_state_like(text, meant, lexicon)
    return "" if alike or first_like(text, lexicon) else _PLAIN


def _is_state_like(text: str, meant: Meaning, lexicon: Lexicon) -> bool:
    """ "afraid": a word of talk that means nothing on the sheet, and sounds like a state of it."""
    return not (meant.conditions or meant.acts or meant.characteristics) and bool(state_like(text, lexicon))


def _half_known(text: str, lexicon: Lexicon) -> bool:
    """ "true bolts": a word that by itself means nothing, and only belongs to longer names."""
    if len(text) < _SHORTEST_ALONE or text not in lexicon.words or text in PLAIN:
        return False
    return (text,) not in lexicon.table and text not in lexicon.predicates  # "a bend in it"


def _unknown(text: str, lexicon: Lexicon) -> bool:
    if len(text) < 3 or text == BREAK or not text.isalpha() or text in CLASSES:
        return False
    if text in PLAIN or text in FASTENERS or text in lexicon.predicates:
        return False  # "two bolts" are bolts, of the sheet or not
    return (text,) not in lexicon.table and text not in lexicon.words and text not in lexicon.units
