"""A part heard as a word that is no noun, where only a noun can stand: "damp is weeping", "unloaded's off".

Behind an article, a side or nothing, and before its verb: the one part of the sheet that sounds like it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.sounds.consonants import sound_key
from saywright.understanding.sounds.phones import alike
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import singular

_BE: Final = frozenset({"is", "are", "was", "were", "has", "have", "turns", "moves", "slides", "spins"})
_ARTICLES: Final = frozenset({"the", "a", "an", "that", "this", "new", "old", "both"})
_OPENS: Final = frozenset({"", BREAK, "and", "but", "so", "then", "now"})
_ALIKE: Final = 0.86
_APART: Final = 0.05  # the next best is less alike by this at least
_RHYMES: Final = 0.66  # alike, where the first sound alone differs
_SHORTEST: Final = 4  # letters


def doer_like(text: str, lexicon: Lexicon) -> str:
    """The name of a part, of one word, that ends in -er where *text* does not; "" for none."""
    key = f"{text} doer"
    if key not in lexicon.heard:
        stem = text.removesuffix("ed").removesuffix("e")
        doers = {stem + "er", stem + "or", text.removesuffix("ing") + "er"} & set(lexicon.part_words)
        lexicon.heard[key] = min(doers, default="") if len(text) >= _SHORTEST else ""
    return lexicon.heard[key]


def first_like(text: str, lexicon: Lexicon) -> bool:
    """True where the common word *text* sounds like the first of two words of a part's name."""
    key = f"{text} first"
    if key not in lexicon.heard:
        begins = sound_key(text)[:1]
        able = (w for w in lexicon.mendable if w[1:] == text[1:] or sound_key(w)[:1] == begins)
        lexicon.heard[key] = next((w for w in able if alike(text, w, _ALIKE) >= _ALIKE), "")
    return bool(lexicon.heard[key])


def subject_heard(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The part that the word at *at* was; "" where it may be what it is."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if behind not in _BE:
        return ""
    before = texts[at - 1] if at else ""
    led = before in _ARTICLES or before in lexicon.positions
    if not (led or (before in _OPENS and behind in {"is", "are"})):
        return ""
    told = lexicon.names(tuple(texts), at + 2)
    if not (told.conditions or told.acts or told.tags) and behind not in _BE - {"is", "are"}:
        return ""
    return doer_like(texts[at], lexicon)


def beside_its_noun(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """ "slight pin", "just seals": the first word of a name of two whose second stands behind it."""
    if len(texts[at]) < _SHORTEST or at + 1 >= len(texts) or not texts[at + 1]:
        return ""
    noun = texts[at + 1]
    if (texts[at], noun) in lexicon.table:
        return ""
    key = f"{texts[at]} {noun} beside"
    if key not in lexicon.heard:
        lexicon.heard[key] = _first_word(texts[at], noun, lexicon)
    return lexicon.heard[key]


def _first_word(text: str, noun: str, lexicon: Lexicon) -> str:
    names = (*lexicon.mendable.get(noun, ()), *lexicon.mendable.get(singular(noun), ()))
    able = {n[0] for n in names if len(n) == 2 and singular(n[1]) == singular(noun)} - lexicon.positions
    able = {word for word in able if lexicon.table.get((word, noun), NOTHING).parts}
    ranked = sorted(((alike(text, word), word) for word in able), reverse=True)
    best = ranked[0] if ranked else (0.0, "")
    rival = ranked[1][0] if len(ranked) > 1 else 0.0
    return best[1] if best[0] >= _ALIKE and best[0] - rival >= _APART else ""


def rhymes(text: str, known: Sequence[str]) -> str:
    """ "the left nose": the one word of *known* that differs in its first letter alone; "" for none."""
    like = [word for word in known if word[1:] == text[1:] and word != text and alike(text, word) >= _RHYMES]
    return like[0] if len(like) == 1 and len(text) >= _SHORTEST else ""
