"""Words heard for others that sound just the same: "quay" for the key, "ruff", "drive and cover".

A word that nothing here knows is the name or the state of the same sounds. "And" between the first word of
an end and what is there is "end".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.naming.slots import name_may_stand
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.phones import phones
from saywright.understanding.tokens import BREAK, Token

_OPENS: Final = frozenset({"", BREAK, "and", "the", "then", "on", "at", "of", "with", "new", "old", "now"})
_ONES: Final = frozenset({"one", "ones"})
_STATES: Final = frozenset(["is", "are", "was", "feels", "bit", "gone", "very", "quite", "little", "pretty"])
_BE: Final = frozenset({"is", "are", "was", "were", "has"})


def same_sound(texts: Sequence[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """The one name or state of the sheet that sounds as the unknown word at *at* does, at *at*; else {}."""
    key = f"{texts[at]} same"
    if key not in lexicon.heard:
        heard = phones(texts[at])
        known = dict.fromkeys((*lexicon.part_words, *lexicon.states, *lexicon.predicates))
        like = [word for word in known if phones(word) == heard]
        lexicon.heard[key] = like[0] if len(like) == 1 else ""
    word = lexicon.heard[key]
    if word in lexicon.predicates:
        return {at: word} if at and texts[at - 1] in _STATES else {}
    return {at: word} if word and name_may_stand(texts, at, at + 1, word, lexicon) else {}


def tells_same(heard: str, word: str, lexicon: Lexicon) -> bool:
    """True for a state that is told only of a part, and sounds just the same."""
    return word in lexicon.predicates and phones(heard) == phones(word)


def ends_heard(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """ "drive and cover off": the tokens as they were heard, and with "end" where an end is so called.

    Both are put right where no number is told, of which the end would decide what it is of.
    """
    if "end" not in lexicon.positions or not any(token.text == "and" for token in tokens):
        return tokens, tokens
    texts = tuple([token.text for token in tokens])
    ends = [at for at, text in enumerate(texts) if text == "and" and _is_end(texts, at, lexicon)]
    if not ends:
        return tokens, tokens
    mended = tuple(replace(t, text="end") if at in ends else t for at, t in enumerate(tokens))
    return (tokens if any(text in CLASSES for text in texts) else mended), mended


def _is_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where the word before begins the name of an end, and what stands behind is at that end."""
    first, behind = texts[at - 1] if at else "", texts[at + 1] if at + 1 < len(texts) else ""
    place = lexicon.table.get((first, "end"), NOTHING).positions if first in lexicon.positions else ()
    alone = lexicon.table.get((first,), NOTHING)
    if not place or alone.parts or alone.aliases or behind in lexicon.positions:
        return False
    if (texts[at - 2] if at > 1 else "") not in _OPENS:
        return False
    if behind in _ONES or behind in _BE:
        return True
    meant = lexicon.names(texts, at + 1)
    parts = [lexicon.sheet.get(c) for c in (*meant.parts, *meant.aliases)]
    return bool(parts) and all(p is not None and p.has_places(place) for p in parts)
