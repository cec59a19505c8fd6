"""Little words of bench talk heard for others that sound the same: "pads our", "cap of", "the hold one".

What stands beside them tells which of the two was said; what is taken so decides no part and no value.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

# Heard → what was said.
LITTLE_WORDS: Final = {
    "of": "off", "our": "out", "about": "out", "hold": "old", "knew": "new", "hall": "all", "an": "and",
    "meets": "metres", "meet": "metres", "wear": "where", "or": "are", "threw": "through", "blew": "blue",
}  # fmt: skip
BE: Final = frozenset({"is", "are", "was", "were", "has", "have"})
_IS: Final = frozenset({"is", "are"})
ENDS: Final = frozenset({"", BREAK, "and", "then"})
_ALL_OF_THEM: Final = {
    ("the", "pair", "of"),
    ("the", "two", "of"),
    ("the", "lot"),
    ("both", "of", "them"),
    ("all", "of", "them"),
    ("with", "it"),
    ("with", "them"),
}
_CAME: Final = frozenset({"come", "came", "comes", "coming"})
_TOOK: Final = frozenset({"take", "took", "taken", "taking"})
_PICTURES: Final = frozenset({"picture", "pictures", "photo", "photos", "photograph", "shot", "snap"})
_NEXT_CLAUSE: Final = frozenset(
    {"it", "with", "in", "hung", "so", "but", "now", "there", "too", "as", "same", "together", "first"}
)
_DOERS: Final = frozenset({"i", "we", "he", "she", "they", "you", "who", "never", "it", "to", "will", "can"})
_BEFORE_AGE: Final = frozenset(
    ["", BREAK, "the", "a", "an", "its", "their", "his", "and", "with", "both", "is", "are", "in", "on",
     "off", "out"]
)  # fmt: skip
_ONES: Final = frozenset({"one", "ones"})
_OF_THE_PLACE: Final = frozenset({"the", "a", "town"})  # "down the hall"
_HALL: Final = frozenset({"sensor", "effect", "switch"})
_HOW_THEY_ARE: Final = frozenset(
    {"at", "on", "in", "off", "out", "not", "all", "still", "just", "very", "quite"}
)
# A colour stands behind these, and "blew" behind none of them.
_BEFORE_COLOUR: Final = frozenset({"is", "are", "was", "were", "gone", "bit", "slightly", "quite", "turned"})
_WHAT_IS_OURS: Final = frozenset(
    ["own", "old", "new", "best", "usual", "next", "last", "main", "only", "problem", "fault", "trouble",
     "culprit"]
)  # fmt: skip
_OWNERS: Final = frozenset({"my", "your", "his", "her", "our", "their"})
# Before an "or" of two things: "no play in the bush or worn", "is it the seal or cracked".
_ELSE: Final = frozenset(
    ["no", "not", "never", "without", "is", "if", "either", "whether", "what", "which", "nothing", "neither",
     "could", "would", "any", "or"]
)  # fmt: skip
_SILENT_H: Final = frozenset({"hour", "hours", "honest", "heir"})
_FEWEST: Final = 2  # letters of a word that is no letter by itself


def little_word(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said at *at*; "" where it is the one that was heard."""
    text = texts[at]
    if text == "of":
        told = _is_off(texts, at, lexicon)
    elif text in {"our", "about"}:
        told = _is_out(texts, at, lexicon)
        counted = (
            list(texts[at + 1 : at + 2]) == ["all"] and texts[at + 2 : at + 3] and texts[at + 2] in CARDINALS
        )
        if told and text == "our" and not counted and _is_are(texts, at, lexicon):
            return "are"
    elif text in {"hold", "knew"}:
        told = _is_age(texts, at, lexicon)
    elif text == "hall":
        before = texts[at - 1] if at else ""
        told = before not in _OF_THE_PLACE and _HALL.isdisjoint(texts) and text not in lexicon.words
    elif text in {"meets", "meet"}:
        told = texts[at - 1 : at] in (["newton"], ["newtons"])
    elif text == "wear":
        told = _is_place(texts, at, lexicon)
    elif text == "threw":
        told = _is_through(texts, at, lexicon)
    elif text == "blew":
        told = bool(at) and texts[at - 1] in _BEFORE_COLOUR
    elif text == "or":
        told = _is_said_of(texts, at, lexicon)
    else:
        told = _is_and(texts[at + 1] if at + 1 < len(texts) else "")
    return LITTLE_WORDS[text] if told else ""


def _part_before(texts: Sequence[str], at: int, lexicon: Lexicon) -> Meaning:
    """The part whose name ends right before *at*, by its last word or by its last two."""
    for begin in (at - 1, at - 2):
        meant = lexicon.table.get(tuple(texts[begin:at]), NOTHING) if begin >= 0 else NOTHING
        if meant.parts or meant.aliases:
            return meant
    return NOTHING


def _names_part(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where a part is named at *at*, behind its side or without one."""
    begin = at + (at < len(texts) and texts[at] in lexicon.positions)
    meant = lexicon.names(tuple(texts), begin)
    first = lexicon.names(tuple(texts), at)
    return bool(meant.parts or meant.aliases or first.parts or first.aliases)


def _is_and(behind: str) -> bool:
    """ "off an hung up": no word that an article of two letters stands before."""
    if behind in {"a", "an"}:
        return True  # "three an a half"
    if len(behind) < _FEWEST or not behind.isalpha():
        return False
    return behind[0] not in "aeiouh" or (behind[0] == "h" and behind not in _SILENT_H)


def _is_age(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "the hold one back", "knew outer bearing": what is told of a part is whether it is old or new."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    whole = lexicon.match(tuple(texts), at)
    if before in _DOERS or (whole is not None and whole[0] > 1):
        return False
    one = behind in _ONES or behind in lexicon.positions
    if not (one or _names_part(texts, at + 1, lexicon)):
        return False
    led = before in _BEFORE_AGE or before in CLASSES or before in lexicon.positions
    return led or texts[at] == "knew" or "new" in texts[:at]


def _is_out(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "pads our both", "bolts are our and the bonnet's off", "it came our": a part came out."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    ends = behind in ENDS or behind == "both"
    if texts[at] == "about":
        return ends and _part_before(texts, at - (before in _IS), lexicon) is not NOTHING
    if before in _CAME:
        return True
    if behind in _WHAT_IS_OURS:
        return False
    return _part_before(texts, at - (before in BE), lexicon) is not NOTHING


def _is_place(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "rusty wear the pads sit": behind a state, and a clause follows."""
    told = lexicon.table.get((texts[at - 1],), NOTHING) if at else NOTHING
    return (
        bool(told.conditions)
        and texts[at + 1 : at + 2] in (["the"], ["it"], ["they"])
        and at + 3 < len(texts)
    )


def _is_through(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "blown threw", "flushed it threw": behind what was done, and the clause ends."""
    before = texts[at - 1] if at else ""
    done = texts[at - 2] if at > 1 and before in {"it", "them", "both", "all"} else before
    acts = lexicon.table.get((done,), NOTHING).acts
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if before in {"been", "went", "go", "goes", "gone", "put"} and behind in {"the", "it"}:
        return True  # "all been threw the ultrasonic"
    return (is_past(done) or bool(acts)) and behind in ENDS | {"with"}


def _is_are(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "bolts our at twenty five", "pads our worn": what is told of a part stands behind."""
    if texts[at - 1] in _CAME | BE:
        return False
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    told = lexicon.names(tuple(texts), at + 1)
    return behind in _HOW_THEY_ARE or bool(told.conditions or told.tags & {"MOVE_OFF", "MOVE_ON"})


def _is_said_of(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "seals or out", "springs or both rusty": what is told of the part right before it stands behind."""
    if _part_before(texts, at, lexicon) is NOTHING or not _ELSE.isdisjoint(texts[:at]):
        return False
    begin = at + 1 + (texts[at + 1 : at + 2] in (["both"], ["all"]))
    told = lexicon.match(tuple(texts), begin) if begin < len(texts) and texts[begin] else None
    if told is None or told[1].parts or told[1].aliases:
        return False
    behind = texts[begin + told[0]] if begin + told[0] < len(texts) else ""
    ends = behind in ENDS or behind in _HOW_THEY_ARE or behind in {"both", "but"}
    return ends and bool(told[1].conditions or told[1].tags & {"MOVE_OFF", "MOVE_ON"})


def _is_off(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "pipes of both of them", "cover of": a part before it, and nothing behind that it could be of."""
    before = texts[at - 1] if at else ""
    behind = tuple(texts[at + 1 : at + 4])
    if before in _TOOK:
        return _PICTURES.isdisjoint(texts[:at])
    if before in _CAME:
        return behind[:1] in {(), (BREAK,), ("and",), ("with",), ("now",), ("together",)}
    if _moves_behind(texts, at, lexicon):
        return True
    clause = behind[:1] and (behind[0] in _NEXT_CLAUSE or (behind[0] == "that" and behind[1:2] == ("is",)))
    if not clause and behind[:1] not in {(), (BREAK,), ("and",), ("an",)} and behind not in _ALL_OF_THEM:
        return False
    back = at - 1 if before in BE and at > 1 else at  # "the drum is of"
    return _part_before(texts, back, lexicon) is not NOTHING


def _moves_behind(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "back cover of five screws", "cap of diaphragm out": what is named behind came off or is told of."""
    meant = _part_before(texts, at, lexicon)
    if meant is NOTHING or at + 1 >= len(texts):
        return False
    said = tuple(texts)
    counted = texts[at + 1] in CARDINALS
    begin = at + 1 + (counted or texts[at + 1] in lexicon.positions)
    found = lexicon.match(said, begin) if begin < len(said) else None
    if found is None or not (found[1].parts or found[1].aliases):
        return False
    if counted:
        parts = map(lexicon.sheet.get, found[1].parts or found[1].aliases)
        return found[1].many and any(
            part is not None and int(CLASSES[texts[at + 1]][1]) <= part.count for part in parts
        )
    behind = texts[begin + found[0]] if begin + found[0] < len(texts) else ""
    same = bool({*meant.parts, *meant.aliases} & {*found[1].parts, *found[1].aliases})
    if same:
        return behind in {"off", "of", "out"}
    told = lexicon.names(said, begin + found[0])
    return behind in BE | {"with", "of"} or bool(told.conditions or told.tags & {"MOVE_OFF", "MOVE_ON"})


def is_theirs(texts: list[str], at: int) -> bool:
    """ "my other sled": what belongs to somebody is no part on the bench, whatever it sounds like."""
    before = texts[at - 1] if at else ""
    if before in {"other", "last", "old", "own"} and at > 1:
        before = texts[at - 2]
    return before in _OWNERS
