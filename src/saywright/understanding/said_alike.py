"""Plain words heard for others that sound the same: "no where on it", "knew seal", "pipes of".

What stands around them tells which of the two was said.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.number_words import CLASSES
from saywright.understanding.sounds import sound_key
from saywright.understanding.tokens import BREAK

# "ate hundredths": before a share of a unit only a numeral can stand.
_LIKE_NUMERALS = {"ate": "eight", "for": "four", "fore": "four", "to": "two", "too": "two", "won": "one"}
_SHARES = frozenset({"tenths", "hundredths", "thousandths", "thou"})
_BEFORE_FAULT = frozenset({"no", "a", "some", "any", "of", "much", "bit", "little", "slight"})
_BEHIND_FAULT = frozenset({"", BREAK, "on", "in", "at", "and", "mark", "marks", "ridge", "or"})
_ALL_OF_THEM = {("both", "of", "them"), ("all", "of", "them"), ("with", "it"), ("with", "them")}
_COUNTS = frozenset({"two", "three", "four", "five", "six", "eight"})
_POINT = sound_key("point")
SAID_ALIKE: Final = frozenset({"know", "knew", "where", "of", *_LIKE_NUMERALS})  # what may be another word


def said_alike(texts: list[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said at *at*; "" where it is the one that was heard."""
    text = texts[at]
    if text not in SAID_ALIKE:
        return "point" if _point_between(texts, at) else ""
    if text == "know":
        return "no" if _condition_follows(texts, at, lexicon) else ""
    if text == "knew":
        return "new" if lexicon.names(tuple(texts), at + 1).parts else ""
    if text == "where":
        return "wear" if _is_wear(texts, at, lexicon) else ""
    if text == "of":
        return "off" if _is_off(texts, at, lexicon) else ""
    shared = texts[at + 1 : at + 2] and texts[at + 1] in _SHARES
    return _LIKE_NUMERALS[text] if shared or _counts_all(texts, at, lexicon) else ""


def sounds_like_point(text: str) -> bool:
    """True for "pint"."""
    return sound_key(text) == _POINT


def _is_wear(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "no where on it", "a where mark": behind what stands before a fault, and no clause follows."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    fault = before in _BEFORE_FAULT and behind in _BEHIND_FAULT
    return fault and bool(lexicon.table.get(("wear",), NOTHING).conditions)


def _is_off(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "pipes of both of them", "cover of": a part before it, and nothing behind that it could be of."""
    behind = tuple(texts[at + 1 : at + 4])
    if behind[:1] not in {(), (BREAK,), ("and",)} and behind not in _ALL_OF_THEM:
        return False
    meant = lexicon.table.get((texts[at - 1],), NOTHING) if at else NOTHING
    return bool(meant.parts or meant.aliases)


def _counts_all(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "with for new washers": the number that is fitted of the part behind it, in a list of counts."""
    number = CLASSES[_LIKE_NUMERALS[texts[at]]][1]
    begin = at + 1 + (texts[at + 1 : at + 2] == ["new"])
    found = lexicon.names(tuple(texts), begin)
    fitted = {part.count for part in map(lexicon.sheet.get, found.parts or found.aliases) if part is not None}
    before = texts[at - 1] if at else ""
    counted = before in {"with", "and", BREAK} or not _COUNTS.isdisjoint(texts[:at])
    return found.many and {str(count) for count in fitted} == {str(number)} and counted


def _point_between(texts: list[str], at: int) -> bool:
    """ "nine pint eight": between two numbers, and it sounds like the point."""
    if texts[at] == "point" or not 0 < at < len(texts) - 1 or not texts[at].isalpha() or len(texts[at]) < 4:
        return False
    return texts[at - 1] in CLASSES and texts[at + 1] in CLASSES and sounds_like_point(texts[at])


def _condition_follows(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "has know scratches": heard for "no scratches"; the difference is the whole finding."""
    return bool(lexicon.names(tuple(texts), at + 1).conditions) and (
        at == 0 or texts[at - 1] not in {"i", "you", "we"}
    )
