"""Plain words heard for others that sound the same: "no where on it", "knew seal", "pipes of".

What stands around them tells which of the two was said.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import PLAIN
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Name
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.consonants import sound_key
from saywright.understanding.sounds.heard_numerals import HEARD_FOR, numeral_heard
from saywright.understanding.sounds.little_words import BE, LITTLE_WORDS, little_word
from saywright.understanding.sounds.phones import alike
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past, plural, singular, verb_forms

_BEFORE_FAULT = frozenset({"no", "a", "some", "any", "of", "much", "bit", "little", "slight"})
_BEHIND_FAULT = frozenset({"", BREAK, "on", "in", "at", "and", "mark", "marks", "ridge", "or"})
_POINT = sound_key("point")
_SAME = 0.92  # alike; one sound of five may be its voiced twin
_BEFORE_NOUN = frozenset({"the", "a", "both", "new", "old", "two", "three", "four"})
_BEHIND_NOUN = frozenset({"", BREAK, "and", "with", "off", "out", "in", "on", "is", "are", "then"})
_TAKEN = frozenset({"a", "an", "the", "new", "it", "its", "one", "another"})  # behind a verb
_IN_NUMBER = frozenset({"point", "oh", "and"})
# Plain words inside a name: "hub not", "run our", "pop of", "cap a rings".
_IN_NAMES: Final = {
    "of": "off", "our": "out", "about": "out", "ran": "run", "rum": "run", "not": "nut", "a": "o", "or": "o",
}  # fmt: skip
_BEHIND_NAME: Final = frozenset(
    {"", BREAK, "off", "on", "out", "in", "and", "first", "at", "next", "now", "then"}
)
SAID_ALIKE: Final = frozenset(
    {"know", "where", "with", *LITTLE_WORDS, *HEARD_FOR}
)  # what may be another word


def name_like(text: str, lexicon: Lexicon) -> str:
    """The name of a part, of one word, that the common word *text* is hardly told from; "" for none."""
    key = f"{text} name"
    if key not in lexicon.heard:
        ranked = ((alike(text, word, _SAME), word) for word in lexicon.part_words)
        far, word = max(ranked, default=(0.0, ""))
        forms = {plural(text), singular(text), *verb_forms(singular(text))}
        lexicon.heard[key] = word if far >= _SAME and word not in forms else ""
    return lexicon.heard[key]


def _named_like(texts: list[str], at: int, lexicon: Lexicon) -> str:
    """ "both reads with it", "the slight and the spring": where only a noun can stand, the part so called."""
    name = name_like(texts[at], lexicon)
    if not name:
        return ""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if before == "a" and lexicon.table.get((texts[at],), NOTHING).acts:
        return ""  # "gave it a rinse and it's clear": no rings
    if texts[at] in PLAIN and (behind in _TAKEN or is_past(behind)):
        return ""  # "main gets swapped", "pilot gets a new one": a verb
    whole = lexicon.table.get((before, name), NOTHING)
    return name if whole.parts or (before in _BEFORE_NOUN and behind in _BEHIND_NOUN) else ""


def in_some_name(text: str, lexicon: Lexicon) -> bool:
    """True for a plain word that may be heard for another inside a name of the sheet."""
    return _IN_NAMES.get(text) in lexicon.mendable


def inside_a_name(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """True where the plain word at *at* is another inside a name of the sheet."""
    return in_some_name(texts[at], lexicon) and bool(_name_word(texts, at, lexicon))


def _name_word(texts: list[str], at: int, lexicon: Lexicon) -> str:
    """ "the hub not is off": the word of a name whose other words stand around, and the name ends so."""
    meant = _IN_NAMES.get(texts[at], "")
    for name in lexicon.mendable.get(meant, ()):
        begin = at - name.index(meant)
        if begin == at and meant == "o":
            continue  # "got a ring worn in it"
        if begin < 0 or not _stands(name, texts[begin : begin + len(name)], meant):
            continue
        behind = texts[begin + len(name)] if begin + len(name) < len(texts) else ""
        lone = tuple(word for word in name if word != meant)
        denies = meant == "nut" and behind not in BE and lexicon.table.get(lone, NOTHING).parts
        told = lexicon.names(tuple(texts), begin + len(name))
        found = told.conditions or told.tags & {"MOVE_OFF", "MOVE_ON", "COP", "READS", "INSTRUMENT"}
        if not denies and (behind in BE | _BEHIND_NAME or behind in CLASSES or found):
            return meant
    return ""


def _stands(name: Name, said: list[str], but: str) -> bool:
    """True where *said* are the words of *name*, *but* one of them, each by itself or by its plural."""
    if len(said) < len(name):
        return False
    for word, heard in zip(name, said, strict=True):
        if word in (but, heard):
            continue
        if word[0] != heard[:1] or singular(word) != singular(heard):  # a plural begins as it does
            return False
    return True


def said_alike(texts: list[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said at *at*; "" where it is the one that was heard."""
    text = texts[at]
    if in_some_name(text, lexicon) and (inside := _name_word(texts, at, lexicon)):
        return inside
    if text not in SAID_ALIKE:
        return "point" if _point_between(texts, at) else _named_like(texts, at, lexicon)
    if text == "with":
        return "width" if _is_width(texts, at, lexicon) else ""
    if text == "know":
        return "no" if _condition_follows(texts, at, lexicon) else ""
    if text == "where":
        return "wear" if _is_wear(texts, at, lexicon) else ""
    if text in LITTLE_WORDS:
        return little_word(texts, at, lexicon)
    return numeral_heard(texts, at, lexicon)


def sounds_like_point(text: str) -> bool:
    """True for "pint"."""
    return text != "point" and sound_key(text) == _POINT


def _is_wear(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "no where on it", "a where mark": behind what stands before a fault, and no clause follows."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    fault = before in _BEFORE_FAULT and behind in _BEHIND_FAULT
    return fault and bool(lexicon.table.get(("wear",), NOTHING).conditions)


def _is_width(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "drive gear with nineteen point nine": a part that a width is read on, and nothing but the number."""
    meant = lexicon.table.get((texts[at - 1],), NOTHING) if at else NOTHING
    wide = {component for component, _ in lexicon.table.get(("width",), NOTHING).characteristics}
    rest = texts[at + 1 : next((i for i in range(at, len(texts)) if texts[i] in {BREAK, "and"}), len(texts))]
    number = "point" in rest and all(word in CLASSES or word in _IN_NUMBER for word in rest)
    return number and not wide.isdisjoint((*meant.parts, *meant.aliases))


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
