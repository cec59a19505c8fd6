"""Words of states that are used otherwise: "snaps shut", "stuck a forty two in", "the wet end". Pure.

Each of them tells what somebody does, how something moves, or where and when; nothing was found.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.understanding.around import Around
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tags import AGES
from saywright.understanding.tokens import BREAK

_SNAPS: Final = frozenset({"snap", "snaps", "snapped"})
_SHUT: Final = frozenset({"shut", "closed", "over", "back", "home", "into", "onto", "together", "round"})
_SHUT_SO: Final = frozenset({"shut", "closed", "upside", "pressed", "seals", "sealing", "seated"})
_PLUGGED: Final = frozenset(
    {"", BREAK, "up", "solid", "with", "by", "and", "completely", "altogether", "totally", "fully"}
)
_STUCK: Final = frozenset({"stuck", "jammed"})
_WANTED: Final = frozenset({"time", "space", "room", "parts", "spares", "words", "a"})
_TILL: Final = frozenset({"for", "till", "until"})
_WAITS: Final = frozenset({"lunch", "tea", "dinner", "cash", "money", "tomorrow", "time", "space", "room"})
_AWAITED: Final = _WAITS | CLASSES.keys()
_THING: Final = frozenset(
    ["a", "an", "another", "some", "the", "it", "them", "that", "this", "these", "my", "his", "new", "old"]
)
_SOMEBODY: Final = frozenset({"somebody", "someone", "they", "i", "we", "he", "she", "you", "who", "just"})
_HAS: Final = frozenset({"is", "has", "have", "had"})
_WETS: Final = frozenset({"wet", "damp"})
_OBJECTS: Final = frozenset({"it", "them", "that", "both", "the"})
_ENDS: Final = frozenset({"end", "side", "bench", "rag", "cloth", "and", "sleeve", "liner", "clutch", "sump"})
_UNDER: Final = frozenset({"under", "underneath", "beneath", "behind", "through", "past", "below"})
_POINTING: Final = frozenset({"the", "that", "this", "all"})
_STUFF: Final = frozenset({"dirt", "rust", "wear", "grit", "muck", "corrosion", "scoring", "play", "varnish"})
_AGENTS: Final = frozenset(
    ["remover", "removers", "dissolver", "converter", "killer", "inhibitor", "cleaner"]
)  # fmt: skip
_ONE_BY_ONE: Final = frozenset({"tight", "sound", "free", "seals", "clean"})
_CLEANLY: Final = frozenset(
    ["lifts", "shuts", "opens", "closes", "breaks", "broke", "cuts", "snapped", "sheared"]
)
_LOOSE: Final = frozenset({"slack", "play", "travel", "movement"})
_OTHERS: Final = frozenset({"one", "ones", "other", "side"})
_RATHER: Final = 3  # tokens of "is sawdust not"
_MORE: Final = frozenset({"two", "three", "four", "five", "six", "eight"})
_KEPT_AWAY: Final = frozenset({"fingers", "hands", "face", "eyes", "feet", "stand", "keep", "yourself"})
_STANDS: Final = frozenset({"standing", "stood"})
_TOOLS: Final = frozenset(
    ["hands", "hand", "rag", "rags", "cloth", "fingers", "gloves", "glove", "brush", "tray", "paper", "tub",
     "bench", "oil", "grease", "fluid", "fuel", "petrol", "water", "paraffin", "screwdriver", "driver"]
)  # fmt: skip

_AWAY: Final = frozenset({("not", "here"), ("not", "there"), ("not", "in"), ("not", "present")})
_CALLS: Final = frozenset(
    ["hello", "try", "ring", "call", "phone", "him", "her", "tomorrow", "today", "monday", "message"]
)  # fmt: skip
_BARED = frozenset({"stripped"})
_WHOLES = frozenset({"side", "end", "lot", "corner", "machine", "bank", "half"})
_PURPOSE = 6  # tokens from "to let" to what happens then


def used_otherwise(around: Around, at: int, following: int) -> bool:
    """True where the word of a state at *at* tells of something else; *following* is the token behind it."""
    word = around.texts[at]
    behind = around.text(following)
    if behind in _AGENTS or (behind == "and" and around.last_kind == "ON"):
        return behind in _AGENTS or around.text(following + 1) == "all"  # "strainer's back dent and all"
    if following - at > 1:
        return _seals(around, at, following) or word in _UNDER or _is_of_caller(around, at, following)
    kept = word == "clear" and not _KEPT_AWAY.isdisjoint(around.texts[max(0, at - 2) : at])
    if kept or (word == "stopped" and behind not in _PLUGGED):
        return True  # "keep your fingers clear", "stand clear", "the handle has stopped half way"
    if word in _SNAPS:
        return behind in _SHUT or (behind == "in" and around.text(following + 1) in {"", BREAK, "place"})
    if word in _STUCK:
        return _was_put(around, at, behind)
    if word in _WETS and _is_wetted(around, at, behind):
        return True
    if word in _ONE_BY_ONE and _by_neighbour(around, at, following):
        return True
    elsewhere = _is_there_only(around, at) or _of_tool(around, following) or _is_rather(around, at)
    return elsewhere or _is_apart(around, at) or _is_purpose(around, at) or _is_more(around, at, following)


def _seals(around: Around, at: int, following: int) -> bool:
    """ "No fuel coming through with it shut": nothing is blocked."""
    led = around.texts[at] in {"no", "nothing"} and "through" in around.texts[at:following]
    return led and not _SHUT_SO.isdisjoint(around.texts)


def _is_of_caller(around: Around, at: int, following: int) -> bool:
    """ "Hello, no, he's not here, try him after four": somebody who is asked for."""
    away = around.texts[at:following] in _AWAY and around.text(at - 2) in {"he", "she", "it"}
    said = _CALLS if around.text(at - 2) in {"he", "she"} else _CALLS - {"ring", "try", "today"}
    return away and not said.isdisjoint(around.texts)


def _is_more(around: Around, at: int, following: int) -> bool:
    """ "Right cable has more slack than the left": how the two compare.

    Not so "more rust than it should", "more scoring than the right", nor where more is said behind.
    """
    before = around.text(at - 1) if at else ""
    much = before == "less" or (before == "more" and around.texts[at] in _LOOSE)
    if not much or around.texts[following : following + 2] != ("than", "the"):
        return False
    if {"has", "got", "had", "have"}.isdisjoint(around.texts[max(0, at - _PURPOSE) : at]):
        return False
    beside = following + 2
    while beside < around.size:
        found = around.lexicon.match(around.texts, beside)
        named = found is not None and (found[1].positions or found[1].parts or found[1].aliases)
        if not named and around.texts[beside] not in _OTHERS:
            return False
        beside += found[0] if found is not None and named else 1
    return beside > following + 2


def _is_apart(around: Around, at: int) -> bool:
    """ "Left side's stripped, that's the drum and both shoes off"; not "the bleeder end is stripped"."""
    bared = around.texts[at] in _BARED and around.texts[at - 1 : at] in {("is",), ("are",)}
    if not bared or around.texts[max(0, at - 2)] not in _WHOLES:
        return False
    return at < _RATHER or around.texts[at - 2] != "end" or not around.names_part(at - _RATHER)


def _is_purpose(around: Around, at: int) -> bool:
    """ "Backed the screws off to let the fuel weep": what for."""
    return ("to", "let") in pairwise(around.texts[max(0, at - _PURPOSE) : at])


def _by_neighbour(around: Around, at: int, following: int) -> bool:
    """ "tight then back nine", "the sound of", "standing free", "the last four seals"."""
    word, before = around.texts[at], around.texts[at - 1] if at else ""
    if word in {"tight", "free"} and around.text(following) in _TILL:
        return around.text(following + 1) in _AWAITED  # "tight for time", "free till three"
    if word == "tight":
        return around.text(following) == "then"
    if word == "clean":
        return before in _CLEANLY  # "lifts clean and shuts clean"
    if word == "sound":
        return around.texts[at - 1 : following + 1] == ("the", "sound", "of")
    if word == "free":
        return before in _STANDS
    return at > 1 and before in _MORE and around.texts[at - 2] != "number"  # not "number two seals"


def _was_put(around: Around, at: int, behind: str) -> bool:
    """ "somebody's stuck a forty two in": put; nothing is seized."""
    if not at or behind not in _THING:
        return behind in _THING or (behind == "for" and around.text(at + 2) in _WANTED)  # "stuck for time"
    who = at - 1 - (around.texts[at - 1] in _HAS)
    return who >= 0 and around.texts[who] in _SOMEBODY


def _is_wetted(around: Around, at: int, behind: str) -> bool:
    """ "wet it first", "the wet end", "while it's wet"."""
    before = around.texts[max(0, at - 3) : at]
    if behind in _OBJECTS and (not before or before[-1] not in _HAS):
        return True
    if before[-2:] in {("it", "is"), ("is", "still")} and before[0] in {"while", "when"}:
        return True
    return before[-1:] in {("the",), ("a",)} and behind in _ENDS


def _is_there_only(around: Around, at: int) -> bool:
    """ "under the dirt it says thirty eight": where it stands; what lies there is no news."""
    if at < 2 or around.texts[at - 1] not in _POINTING:
        return False
    led = at - 2 - (around.texts[at - 2] in _POINTING)
    return led >= 0 and around.texts[led] in _UNDER


def _is_rather(around: Around, at: int) -> bool:
    """ "That's sawdust, not dirt": what it is not; nothing is denied of the part."""
    if around.texts[at] not in _STUFF or around.texts[at - 1] != "not" or at < _RATHER:
        return False
    noun = next((i for i in (at - 2, at - 3) if around.texts[i] != BREAK), at - 2)
    said = around.texts[noun]
    return said.isalpha() and said not in _HAS and not around.names(noun).tags and noun > 1


def _of_tool(around: Around, following: int) -> bool:
    """ "clean hands", "with a dry rag", "that took the good screwdriver": of what it was done with."""
    noun = around.text(following)
    if noun not in _TOOLS:
        return False
    before = around.out[-1] if around.out else None
    if before is not None and ("COP" in before.tags or before.kind in {"PART", "ONE", "PRON"}):
        return False
    return before is None or not before.tags & AGES
