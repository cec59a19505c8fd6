"""Words heard for numerals where only a numeral can stand: "plunger won", "trailing won is", "sick screws".

A position counted, a count that is the one fitted, a place inside a number. What is put right asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CARDINALS, CLASSES, DENOMINATORS, ORDINALS
from saywright.understanding.sounds.only_numerals import only_a_number
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

HEARD_FOR: Final = {
    "won": "one", "to": "two", "too": "two", "tree": "three", "free": "three", "for": "four", "fore": "four",
    "sick": "six", "sicks": "six", "sex": "six", "ate": "eight",
}  # fmt: skip
_NEVER_NUMERAL_ALONE: Final = frozenset({"to", "too", "for"})  # English of its own nearly everywhere
_BE: Final = frozenset({"is", "are", "was", "were", "has", "have", "had"})
_DOERS: Final = frozenset({"i", "we", "he", "she", "they", "it", "you", "who"})
_ENDS: Final = frozenset({"", BREAK, "and", "then"})
_BEFORE_ONE: Final = frozenset(
    {"the", "a", "other", "new", "old", "that", "this", "first", "last", "number", "side"}
)
_BEHIND_COUNT: Final = frozenset({"off", "out", "on", "in", "back", "at", "are", "is", "came", "come", "now"})
_PARTICLES: Final = frozenset({"off", "out", "on", "in"})
_MOVED: Final = frozenset({"off", "out"})
_OTHERS_DO: Final = frozenset({"are", "were", "have", "went", "came", "come", "go", "stay", "off", "out"})
_BEHIND_NUMBER: Final = _BE | _ENDS | _PARTICLES
_FOR_COUNT: Final = frozenset({"for", "fore", "sick", "sicks", "sex", "ate", "tree"})
_BEHIND_ALL: Final = frozenset({"", BREAK, "off", "out", "on", "in", "back", "and", "new"})
_OPENS_COUNT: Final = frozenset({"with", "and", BREAK})
_SHARES: Final = frozenset({"tenths", "hundredths", "thousandths", "thou"})
_LED_TO: Final = frozenset({"up", "down", "set", "close", "back", "from"})
_LEADS_VALUE: Final = frozenset(
    {"", BREAK, "to", "at", "about", "around", "roughly", "of", "shows", "gives", "pulls", "says"}
)
_GOES: Final = frozenset({"drops", "falls", "rises", "climbs", "opens", "closes", "lifts", "moves", "wears"})
_OFF_TO_MORE: Final = tuple((moved, "to", "more") for moved in ("off", "out"))
_LARGE: Final = frozenset({"hundred", "thousand"})
_PARTS_OF_ONE: Final = frozenset({"half", "quarter"})
_LITTLE_ELSE: Final = frozenset({"sick", "sicks", "sex", "ate", "tree"})
_SPELLED: Final = frozenset({"niner", "fife", "fower"})
_TO: Final = frozenset({"to", "too"})
_ZEROS: Final = frozenset({"oh", "o"})
_OF_SOMETHING_ELSE: Final = tuple([word] for word in ("part", "serial", "model", "phone", "the", "a", "his"))
_LONGEST_NAME: Final = 4  # words
_FEWEST: Final = 3  # of parts that are counted, from which "to" and "for" tell which one


def numeral_heard(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The numeral that was said at *at*; "" where it is the word that was heard."""
    text, numeral = texts[at], HEARD_FOR[texts[at]]
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if before in _DOERS:
        return ""  # "we won", "it ate the seal"
    if only_a_number(texts, at, lexicon):
        return numeral
    if behind in _LARGE and not (is_past(before) or before in _LED_TO):
        return numeral
    if _opens_number(texts, at, lexicon) or _in_number(texts, at, lexicon):
        return numeral
    if before == "number" and _is_numbered(texts, at, lexicon):
        return numeral
    if text == "free" and before == "other" and behind in _OTHERS_DO:
        return numeral  # "the other free went back"
    all_of_them = before == "all" and (text in _LITTLE_ELSE or _are_all(texts, at, lexicon))
    if all_of_them or _tells_which(texts, at, lexicon) or _counts(texts, at, lexicon):
        return numeral
    return numeral if text == "won" and _is_the_one(texts, at, lexicon) else ""


def _is_numbered(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "new sleeve in number to forty five oh three", "number free bowl off": nothing but which one it is."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    named = lexicon.names(tuple(texts), at + 1)
    told = behind in _BEHIND_NUMBER or _is_digit(behind) or bool(named.parts or named.aliases)
    return told and texts[at - 2 : at - 1] not in _OF_SOMETHING_ELSE


def _is_the_one(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "the other won is off", "won gasket": one of several, or how many."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    named = lexicon.names(tuple(texts), at + 1)
    told = behind in _BE | _ENDS or bool(named.conditions or named.tags & MOVES)
    one = before in _BEFORE_ONE or before in ORDINALS or before in lexicon.positions
    told = told or (one and behind in CARDINALS)  # "the third won three point five"
    return (one and told) or bool(named.parts or named.aliases)


def _in_number(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where the number around *at* goes on: "twenty free point five", "nine sick", "for percent"."""
    text = texts[at]
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if text == "tree" and not _SPELLED.isdisjoint(texts):
        return False  # "niner point tree": as the alphabet of the air has it
    if text in _NEVER_NUMERAL_ALONE:
        counted = is_counted(texts, at) or _ends_decimal(texts, at)
        return counted or (text == "for" and behind in lexicon.units and before in _BE)
    if text == "free" and behind in _ENDS and _has_free_length(texts[:at], lexicon):
        return False
    if _is_digit(behind):  # of a number, or counted aloud: "half won one and a half"
        led = _is_digit(before) or before == "point" or before in _PARTS_OF_ONE
        return led or text in {"sick", "sicks", "sex"}
    if _shares_behind(texts, at):
        return True
    if behind in lexicon.units:
        ends = at + 2 >= len(texts) or texts[at + 2] in _ENDS | {"out", "in"}
        return behind not in {"turn", "turns"} or text in _LITTLE_ELSE or ends
    if not (_is_digit(before) or before == "point"):
        return False
    tens = CLASSES.get(before, ("",))[0] == "TENS"
    goes_on = (behind in _ENDS or behind == "point") and (tens or _has_point(texts, at))
    return text in _LITTLE_ELSE or goes_on


def _shares_behind(texts: Sequence[str], at: int) -> bool:
    """ "one and free quarters", "free and a half": parts of one belong to it."""
    before = texts[at - 1] if at else ""
    behind = tuple(texts[at + 1 : at + 4])
    if behind[:1] and behind[0] in DENOMINATORS and behind[0].endswith("s"):
        return before == "and" or behind[0] in _SHARES
    return len(behind) > 2 and behind[0] == "and" and behind[1] in {"a", "one"} and behind[2] in DENOMINATORS


def _has_free_length(texts: Sequence[str], lexicon: Lexicon) -> bool:
    """ "spring's forty one point six free": of such a part, or none was named."""
    if "free" not in lexicon.measured:
        return False
    named = [lexicon.table.get((text,), NOTHING) for text in texts]
    parts = {part for meant in named for part in (*meant.parts, *meant.aliases)}
    owners = {
        part.id
        for part, read in lexicon.sheet.characteristics()
        if any("free" in name.lower().split() for name in read.names)
    }
    return not parts or not owners.isdisjoint(parts)


def _is_digit(text: str) -> bool:
    return text in _ZEROS or (text in CLASSES and text != "point")


def is_counted(texts: Sequence[str], at: int) -> bool:
    """ "three for five": one more than before, and one less than behind."""
    if texts[at] not in HEARD_FOR or not 0 < at < len(texts) - 1:
        return False
    number = CARDINALS.index(HEARD_FOR[texts[at]])
    return 0 < number < len(CARDINALS) - 1 and (texts[at - 1], texts[at + 1]) == (
        CARDINALS[number - 1],
        CARDINALS[number + 1],
    )


def _has_point(texts: Sequence[str], at: int) -> bool:
    """True where the number that ends before *at* has a point."""
    while at and _is_digit(texts[at - 1]):
        at -= 1
    return bool(at) and texts[at - 1] == "point"


def _ends_decimal(texts: Sequence[str], at: int) -> bool:
    """ "ten point too", "one point nine for and …": behind the point, or a "for" that nothing is behind."""
    if texts[at - 1 : at] == ["point"] and at > 1:
        return _is_digit(texts[at - 2])
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    return texts[at] == "for" and behind in _ENDS and _is_digit(texts[at - 1]) and _has_point(texts, at)


def _are_all(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "cap bolts all for out": as many as there are of a part."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if at < 2 or texts[at] not in _FOR_COUNT or behind not in _BEHIND_ALL:
        return False
    return any(CARDINALS[c.count - 1 : c.count] == (HEARD_FOR[texts[at]],) for c in lexicon.sheet.component)


def _opens_number(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "the outer's to point nine", "for and a half", "ate hundredths"; "down to point nine" is none."""
    text = texts[at]
    before = texts[at - 1] if at else ""
    behind = tuple(texts[at + 1 : at + 4])
    if behind[:1] and behind[0] in _SHARES:
        return True
    if behind[:2] == ("and", "a") and text in _NEVER_NUMERAL_ALONE | {"fore"}:
        led = text in _TO and (is_past(before) or before in _LED_TO)
        return len(behind) > 2 and behind[2] in _PARTS_OF_ONE and not led
    if behind[:1] != ("point",):
        return False
    if text not in _TO:
        return len(behind) > 1 and _is_digit(behind[1])
    if before in CARDINALS:  # "number two to point three"; "point one to point three" is a range
        return texts[at - 2 : at - 1] == ["number"] or bool(_name_before(texts, at - 1, lexicon).parts)
    placed = before in lexicon.positions and before not in {"in", "up", "down"}
    led = before in _BE or before in _LEADS_VALUE  # "down to to point one"
    return placed or led or _tells_value(before, lexicon)


def _tells_value(before: str, lexicon: Lexicon) -> bool:
    """ "it draws to point three": a verb that a value follows, where nothing goes to one."""
    if before in _GOES or before in lexicon.read_words:
        return False  # "drops to point three", "gap to point nine"
    meant = lexicon.table.get((before,), NOTHING)
    return "READS" in meant.tags or (bool(meant.characteristics) and before.endswith("s"))


def _tells_which(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "valve for is stuck", "plunger free i'll polish": behind the name of a part that is counted."""
    text, number = texts[at], CARDINALS.index(HEARD_FOR[texts[at]]) + 1
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if text in _NEVER_NUMERAL_ALONE:
        follows = behind in _BE or behind in _MOVED  # "head to off"
    else:
        value = behind in CLASSES and behind != "point"
        state = behind in _ENDS or behind in _BE or (behind in _DOERS and behind != "it")
        follows = value or (state and (text != "free" or behind in _DOERS | {"is"}))
    if not follows:
        return False
    meant = _name_before(texts, at, lexicon)
    fitted = [lexicon.sheet.get(part) for part in meant.parts or meant.aliases]
    return not meant.many and any(part is not None and _has_number(part, number) for part in fitted)


def _has_number(part: Component, number: int) -> bool:
    """True where one of *part* is told by *number*: of those that are counted, or that are numbered."""
    if part.positions:
        return str(number) in part.positions
    return part.count >= max(number, _FEWEST)


def _counts(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "tree screws", "for cover screws out", "on ate bolts": as many as the sheet says are fitted."""
    if HEARD_FOR[texts[at]] == "one":
        return False
    if texts[at + 1 : at + 2] in (["off"], ["out"]):  # "bonded seals for off"
        named = _name_before(texts, at, lexicon)
        if named.many and _are_fitted(texts[at], named, lexicon):
            return True
    said = tuple(texts)
    more = tuple(texts[at - 1 : at + 2]) in _OFF_TO_MORE
    begin = at + 1 + (more or texts[at + 1 : at + 2] in (["new"], ["old"]))
    found = lexicon.match(said, begin) if begin < len(said) and said[begin] != BREAK else None
    if found is None or not found[1].many:
        return False
    if texts[at] in _LITTLE_ELSE or (more and _name_before(texts, at - 1, lexicon) is not NOTHING):
        return True  # "banjo off to more washers"
    behind = texts[begin + found[0]] if begin + found[0] < len(texts) else ""
    return _are_fitted(texts[at], found[1], lexicon) and _is_count(texts, at, behind)


def _are_fitted(heard: str, named: Meaning, lexicon: Lexicon) -> bool:
    """True where as many parts of that name are fitted as the word that was *heard* says."""
    number = CARDINALS.index(HEARD_FOR[heard]) + 1
    parts = map(lexicon.sheet.get, named.parts or named.aliases)
    return any(
        part is not None and (part.count == number or _on_each(part, number, lexicon)) for part in parts
    )


def _on_each(part: Component, number: int, lexicon: Lexicon) -> bool:
    """ "head two off for bolts": *number* of twelve, where there are three heads."""
    each, rest = divmod(part.count, number)
    numbered = (c.stations for c in lexicon.sheet.component if "1" in c.stations)
    return not rest and not part.stations and number > 1 and any(len(s) == each for s in numbered)


def _is_count(texts: Sequence[str], at: int, behind: str) -> bool:
    """True where the words before the number and *behind* the name leave it nothing but how many."""
    before = texts[at - 1] if at else ""
    if texts[at] == "free":
        return before in {"all", "the"}
    if texts[at] not in _NEVER_NUMERAL_ALONE:
        return True
    if before in _PARTICLES and (behind in _ENDS or behind in _BEHIND_COUNT):
        return True  # "guard off for bolts"
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
