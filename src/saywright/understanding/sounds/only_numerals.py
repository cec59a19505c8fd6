"""Places where nothing but a numeral makes sense: "to turns", "the for bolts", "order to seals"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

_NO_BENCH_WORDS: Final = frozenset({"won", "fore", "ate"})  # nobody says them of what lies on it
_EATEN: Final = frozenset({"the", "it", "my", "a", "into", "away", "through", "by"})
_PLAIN_ENGLISH: Final = frozenset({"to", "too", "for"})  # English of their own nearly everywhere
_ORDERS: Final = frozenset({"order", "ordering", "ordered", "need", "needs", "want", "wants"})
_ENDS: Final = frozenset({"", BREAK, "and", "then"})
_BEHIND_ROW: Final = frozenset({"is", "are", "was", "were", "has", "have", "had", "off", "out", "on", "in"})
_UP_TO: Final = frozenset({"of", "at", "about", "around"})  # "a gap of for mil"
_ALL_OF: Final = (["the"], ["them"], ["these"], ["those"])


def only_a_number(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where the word at *at*, which sounds like a numeral, can be nothing else."""
    text = texts[at]
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if text in _NO_BENCH_WORDS:
        own = text in lexicon.words or text in lexicon.positions
        return behind not in _EATEN and not own and (text == "won" or _goes_on(texts, at, lexicon))
    if text not in _PLAIN_ENGLISH:
        return False
    if behind == "of":
        return before not in _ENDS or texts[at + 2 : at + 3] in _ALL_OF
    if before == "the":
        return behind not in _ENDS
    if behind in lexicon.units and before in _UP_TO:
        return True
    if behind in lexicon.units and behind.endswith("s"):
        return not (is_past(before) or before in lexicon.units)
    if before in _ORDERS and text != "for" and texts[at - 2 : at - 1] != ["in"]:
        named = lexicon.names(tuple(texts), at + 1 + (behind in {"new", "more"}))
        return named.many and bool(named.parts or named.aliases)
    row = before == "and" and at > 1 and texts[at - 2] in CARDINALS
    return row and text != "too" and behind in _BEHIND_ROW


def _goes_on(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where what may follow a number stands behind it: not "ate tea psi"."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    known = behind in _ENDS or behind in _BEHIND_ROW or behind in CLASSES or behind in lexicon.units
    return known or behind == "of" or lexicon.names(tuple(texts), at + 1) is not NOTHING
