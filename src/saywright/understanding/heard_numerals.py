"""Words heard for numerals where only a numeral can stand: "plunger won", "trailing won is", "sick screws".

A position counted, a count that is the one fitted, a place inside a number. What is put right asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.number_words import CARDINALS, CLASSES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

HEARD_FOR: Final = {
    "won": "one", "to": "two", "too": "two", "tree": "three", "free": "three", "for": "four", "fore": "four",
    "sick": "six", "sex": "six", "ate": "eight",
}  # fmt: skip
_NEVER_NUMERAL_ALONE: Final = frozenset({"to", "too", "for"})  # English of its own nearly everywhere
_BE: Final = frozenset({"is", "are", "was", "were", "has", "have", "had"})
_DOERS: Final = frozenset({"i", "we", "he", "she", "they", "it", "you", "who"})
_ENDS: Final = frozenset({"", BREAK, "and", "then"})
_BEFORE_ONE: Final = frozenset({"the", "a", "other", "new", "old", "that", "this", "first", "last"})
_BEHIND_COUNT: Final = frozenset({"off", "out", "on", "in", "back", "at", "are", "is", "came", "come", "now"})
_FOR_COUNT: Final = frozenset({"for", "fore", "sick", "sex", "ate", "tree"})
_BEHIND_ALL: Final = frozenset({"", BREAK, "off", "out", "on", "in", "back", "and", "new"})
_OPENS_COUNT: Final = frozenset({"with", "and", BREAK})
_SHARES: Final = frozenset({"tenths", "hundredths", "thousandths", "thou"})
_LED_TO: Final = frozenset({"up", "down", "set", "close", "back", "from"})
_LARGE: Final = frozenset({"hundred", "thousand"})
_PARTS_OF_ONE: Final = frozenset({"half", "quarter"})
_LONGEST_NAME: Final = 4  # words
_FEWEST: Final = 3  # of parts that are counted, from which "to" and "for" tell which one


def numeral_heard(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The numeral that was said at *at*; "" where it is the word that was heard."""
    text, numeral = texts[at], HEARD_FOR[texts[at]]
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if before in _DOERS:
        return ""  # "we won", "it ate the seal"
    if behind in _SHARES:
        return numeral  # "ate hundredths"
    if behind in _LARGE and not (is_past(before) or before in _LED_TO):
        return numeral
    if behind == "point" and _opens_number(texts, at, lexicon):
        return numeral
    if text in {"for", "fore"} and tuple(texts[at + 1 : at + 3]) == ("and", "a"):
        return numeral if texts[at + 3 : at + 4] and texts[at + 3] in _PARTS_OF_ONE else ""
    all_of_them = before == "all" and _are_all(texts, at, lexicon)
    if all_of_them or _tells_which(texts, at, lexicon) or _counts(texts, at, lexicon):
        return numeral
    if text != "won":
        return ""
    one = before in _BEFORE_ONE or before in lexicon.positions
    named = lexicon.names(tuple(texts), at + 1)
    return numeral if (one and behind in _BE | _ENDS) or (named.parts or named.aliases) else ""


def _are_all(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "cap bolts all for out": as many as there are of a part."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if at < 2 or texts[at] not in _FOR_COUNT or behind not in _BEHIND_ALL:
        return False
    return any(CARDINALS[c.count - 1 : c.count] == (HEARD_FOR[texts[at]],) for c in lexicon.sheet.component)


def _opens_number(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "the outer's to point nine", "outer sick point oh"; "down to point nine" is none."""
    before = texts[at - 1] if at else ""
    if texts[at] in {"sick", "sex"}:
        return True
    if texts[at] not in {"to", "too"}:
        return False
    if before in CARDINALS:  # "number two to point three"; "point one to point three" is a range
        return texts[at - 2 : at - 1] == ["number"] or bool(_name_before(texts, at - 1, lexicon).parts)
    return before in _BE or (before in lexicon.positions and before not in {"in", "up", "down"})


def _tells_which(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "valve for is stuck", "plunger free i'll polish": behind the name of a part that is counted."""
    text, number = texts[at], CARDINALS.index(HEARD_FOR[texts[at]]) + 1
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if text in _NEVER_NUMERAL_ALONE:
        follows = behind in _BE
    else:
        value = behind in CLASSES and behind != "point"
        state = behind in _ENDS or behind in _BE or (behind in _DOERS and behind != "it")
        follows = value or (state and (text != "free" or behind in _DOERS | {"is"}))
    if not follows:
        return False
    meant = _name_before(texts, at, lexicon)
    fitted = [lexicon.sheet.get(part) for part in meant.parts or meant.aliases]
    return not meant.many and any(
        part is not None and not part.positions and part.count >= max(number, _FEWEST) for part in fitted
    )


def _counts(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "tree screws", "for cover screws out", "on ate bolts": as many as the sheet says are fitted."""
    if HEARD_FOR[texts[at]] == "one" or texts[at] == "free":
        return False
    number = CARDINALS.index(HEARD_FOR[texts[at]]) + 1
    said = tuple(texts)
    begin = at + 1 + (texts[at + 1 : at + 2] in (["new"], ["old"]))
    found = lexicon.match(said, begin) if begin < len(said) and said[begin] != BREAK else None
    if found is None or not found[1].many:
        return False
    fitted = {part.count for part in map(lexicon.sheet.get, found[1].parts or found[1].aliases) if part}
    if number not in fitted:
        return False
    before = texts[at - 1] if at else ""
    behind = texts[begin + found[0]] if begin + found[0] < len(texts) else ""
    if texts[at] not in _NEVER_NUMERAL_ALONE:
        return True
    if before in _OPENS_COUNT or not set(CARDINALS[1:]).isdisjoint(texts[:at]):
        return True
    verb = is_past(before) or before.endswith("ing") or before in _DOERS
    return not verb and (behind in _BEHIND_COUNT or behind in CLASSES)


def _name_before(texts: Sequence[str], at: int, lexicon: Lexicon) -> Meaning:
    """What the longest name that ends before *at* means."""
    for start in range(max(0, at - _LONGEST_NAME), at):
        meant = lexicon.table.get(tuple(texts[start:at]), NOTHING)
        if meant.parts or meant.aliases:
            return meant
    return NOTHING
