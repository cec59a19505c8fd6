"""A name of the sheet → the tag it has in its place. Where it has several meanings, its neighbours decide."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import BEGINS_NAME, FASTENERS, SIZE_WORDS
from saywright.understanding.conditions.no_states import OBJECTS, done_to_it, is_where, put_on, tells_which
from saywright.understanding.conditions.used_otherwise import used_otherwise
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.light_verbs import said_as_noun
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.naming.run_members import is_next_member
from saywright.understanding.naming.value_names import names_no_value
from saywright.understanding.sides.split_places import BEHIND_RIGHT, goes_on_place, is_right_of
from saywright.understanding.tags import AGES, DEGREES, Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_ing

_COPULAS = frozenset({"is", "of", "at", "was"})
_VALUE_REACH = 8  # tokens behind a name that its value may stand in
_PLACES = frozenset({"POS", "PLACE", "ORD", "KNOWN", "LAST", "FILLER", "MOVE_LOOSE_ON"})
_BEFORE_NOUN = frozenset({"MOD", "LINK", "BREAK", "AUX", "ACT", "OFF", "ON", "MEASURE", "COND"})
_BEFORE_MODIFIER = frozenset({"MOD", "LINK", "BREAK", "AUX", "ACT", "OFF", "ON", "MARK"})
_ARTICLES = frozenset({"the", "a", "an", "his", "its"})
# "carbon remover": what takes it away is named after it.
_SAID_OF = frozenset({"COP", "NEED", "DONE", "READS", "MOVE_OFF", "MOVE_ON", "MOVE_LOOSE_ON", "NEG"})
_ENDS_PLACE = frozenset({"", BREAK, "and", "then", "first", "now", "next"})
_MOVES_SO = frozenset({"moves", "turns", "slides", "spins", "swings", "drops", "rolls", "runs"})
_WORKS = _MOVES_SO | {"works", "opens", "closes"}
_MODALS = frozenset({"will", "would", "do", "does", "did", "can", "could", "not"})
_NO_NOUNS = frozenset({"next", "again", "still", "already", "only", "just", "anyway", "actually", "also"})
_AFTER_NOUN = frozenset(["is", "are", "was", "were", "has", "reads", "out", "off", "in", "on"])


def name_kind(around: Around, at: int, length: int, meaning: Meaning) -> str:
    """The kind of tag for a name of the sheet; "" where it is none, or no more than bench talk here."""
    following = at + length
    placed = meaning.positions and _means_more(meaning)
    if placed and (goes_on_place(around, meaning) or _has_place(around, at, following, meaning)):
        return "MOD"  # "lower bushing", where a lower is also a part; "pressure hose off", "drive gear out"
    if meaning.parts:
        return "CHAR" if meaning.characteristics and _behind_its_part(around, meaning) else "PART"
    if meaning.characteristics and meaning.aliases and _part_of_its_own(around, following):
        return "PART"
    if meaning.characteristics and not (meaning.conditions and _says_condition(around, following)):
        return "WORD" if names_no_value(around, at, length) else "CHAR"
    if meaning.acts and "READS" in meaning.tags and following in around.measures:
        return "LINK"
    if meaning.acts and meaning.conditions:
        noun = said_as_noun(around.texts, at)
        act = noun or _says_action(around, following)
        return "ACT" if act else "WORD" if used_otherwise(around, at, following) else "COND"
    if meaning.conditions:
        idle = done_to_it(around, at, following) or put_on(around, at) or is_where(around, at, length)
        idle = idle or used_otherwise(around, at, following)
        price = "PRICE" in meaning.tags and around.last_kind == "MEASURE"  # "two grand"
        counted = idle and around.last_kind == "MEASURE" and _loose_kind(around, at, following, meaning)
        return "MARK" if price else counted or "WORD" if idle else _condition_kind(around, following, meaning)
    return _loose_kind(around, at, following, meaning)


def _has_place(around: Around, at: int, following: int, meaning: Meaning) -> bool:
    """True where the noun behind names a part that has such a position, or what is read on one."""
    ones, tells = around.text(following) in {"one", "ones"}, around.text(following + 1) in {"is", "has"}
    defined = around.texts[at - 1 : at] == ("the",)
    if ones and (defined or (tells and not at)):
        return True  # "the pressure one", "pressure one's chafed"
    if (ones and tells) or (defined and around.text(following) in _ENDS_PLACE):
        # "engine coupler's fine pump one's chewed up", "gears out the driven then the drive"
        said = [tag.meaning for tag in around.out if tag.kind == "PART"]
    elif (following in around.measures and around.last_kind != "MEASURE") or (
        around.last_kind == "PART" and "TOOL" in meaning.tags
    ):  # "width on the drive thirty four", "cable driver frayed", no "half inch drive"
        said = [tag.meaning for tag in around.out if tag.kind in {"PART", "CHAR"}]
    else:
        said = [around.names(following)]
    owners = (component for one in said for component, _ in one.characteristics)  # "drive journal"
    named = (component for one in said for component in (*one.parts, *one.aliases))
    parts = map(around.lexicon.sheet.get, (*named, *owners))
    return any(part is not None and part.has_places(meaning.positions) for part in parts)


def _means_more(meaning: Meaning) -> bool:
    """True where the word that tells parts apart has another meaning beside."""
    named = meaning.parts or meaning.characteristics
    return bool(named or meaning.tags - _PLACES or meaning.conditions or meaning.acts)


def _loose_kind(around: Around, at: int, following: int, meaning: Meaning) -> str:
    if meaning.acts:
        return "ACT"
    if meaning.positions and not meaning.tags - _PLACES:
        return "MOD" if _position_fits(around, at, following) else "WORD"
    if meaning.positions and meaning.tags & DEGREES and around.text(following) in {"one", "ones"}:
        return "MOD"  # "the small one"
    if meaning.aliases:
        if "TOOL" in around.names(following).tags or _tells_apart(around, at, following):
            return "WORD"  # "a wallop with the copper hammer"
        return "PART" if _alias_fits(around, following) else "WORD"
    return ""


def _condition_kind(around: Around, following: int, meaning: Meaning) -> str:
    """ "seal": a part in short, a state, or in "heavy scoring" the degree of the next one."""
    if tells_which(around, following):
        return "MOD"
    if "FILLER" in meaning.tags and not _says_state(around, following):
        return ""  # "okay, bowl off"
    said = around.texts[following - 1]
    measured = said in around.lexicon.measured or said == "grit"
    if around.last_kind == "MEASURE" and measured:
        return "WORD"  # "two inches free": of the free length; "some eighty grit": of the paper
    stands = bool(meaning.aliases) and _alias_fits(around, following) and not _found_in(around, following)
    alone = stands and around.last_kind not in {"AUX", "PART", "PRON", "ONE"}
    if alone or (meaning.aliases and is_next_member(around, following)):
        return "PART"  # "pistons seals boots out"
    if not meaning.tags & DEGREES or around.text(following) in _MOVES_SO:
        return "COND"  # "it's fine moves freely"
    return "AUX" if around.names(following).conditions else "COND"


def _found_in(around: Around, following: int) -> bool:
    """ "wear in the bush": what was found in a part, no wear plate."""
    if around.text(following) not in {"in", "on"} or (around.last is not None and around.last.tags & AGES):
        return False  # "new seals in, axle back in"
    return around.names_part(following + 1 + (around.text(following + 1) in _ARTICLES))


def _says_state(around: Around, following: int) -> bool:
    """ "looks okay", "right wiper okay": a word of talk that says how a part is."""
    last, text = around.last, around.text(following)
    ends = text in {"", BREAK, "and", "but", "so", "though", "too", "now", "no"}
    behind = around.names(following) if last is not None and last.kind == "PART" else NOTHING
    ends = ends or bool(behind.parts or behind.aliases or behind.characteristics)  # "boots okay, bore …"
    if last is None or not (ends or around.last_kind == "AUX"):
        return False
    return (
        "COP" in last.tags
        or (ends and last.kind in {"PART", "ONE"})
        or (ends and last.kind == "WORD" and around.texts[last.start] in _WORKS)
        or (ends and ((last.kind == "MOD" and bool(last.meaning.positions)) or _several_are(around)))
    )


def _several_are(around: Around) -> bool:
    """ "they are both all right", "screws are all four okay", "screws all okay": behind what is so."""
    said = around.out[-3:-1] if around.last_kind == "MEASURE" else around.out[-2:]
    several = len(said) > 1 and bool(said[1].tags & {"BOTH", "ALL", "OTHER"})
    return several and ("COP" in said[0].tags or ("ALL" in said[1].tags and said[0].kind == "PART"))


def _behind_its_part(around: Around, meaning: Meaning) -> bool:
    """A name that is a part and a characteristic is the latter right behind a part that has it."""
    owners = {component for component, _ in meaning.characteristics}
    for tag in reversed(around.out):
        if tag.kind == "PART":
            return bool(owners & set(tag.meaning.parts or tag.meaning.aliases))
        if tag.kind not in {"WORD", "AUX", "MOD"}:
            return False
    return False


def _part_of_its_own(around: Around, following: int) -> bool:
    """ "clip's bent", "clip off": a part in short, although what is read elsewhere is called so too."""
    if around.text(following) == "itself":
        return True
    if around.text(following) in {"off", "out", "on", "in"}:
        return around.text(following + 1) in {"", BREAK, "and"}
    following += around.text(following) in {"is", "are"}
    return bool(around.names(following).conditions) and following not in around.measures


def _says_condition(around: Around, following: int) -> bool:
    """ "play", "wear": a state unless a number stands beside it."""
    if following in around.measures:
        return False
    if following + 1 in around.measures and around.texts[following] in _COPULAS:
        return False
    return around.last_kind != "MEASURE" and not _read_of(around, following)


def _read_of(around: Around, following: int) -> bool:
    """ "slack on jaw two is point one", "play in the bearing two thou": a value behind the part."""
    if around.text(following) not in {"on", "in", "of", "at"}:
        return False
    for at in range(following + 1, following + _VALUE_REACH):
        measure, before = around.measures.get(at), around.text(at - 1)
        if around.text(at) in {"", BREAK, "and"}:
            return False
        if measure is not None and (before in _COPULAS or small_count(measure) is None):
            return True  # a small whole number is how many, or which one
    return False


def _says_action(around: Around, following: int) -> bool:
    """ "clean": an action before its object or after "needs a"; else a state."""
    if (
        around.text(following) == "and"
        and around.names(following + 1).acts
        and not around.names_part(following + 1)
    ):
        return True  # "clean and grease that one"
    said = [t for t in around.out if "FILLER" not in t.tags]
    last = said[-1] if said else None
    if last is not None and last.kind == "AUX":
        if len(said) > 1 and "DONE" in last.tags and said[-2].kind == "AUX" and said[-2].tags & {"NEED"}:
            return "COP" not in said[-2].tags  # "I'll just clean that one"
        if last.tags & {"NEED", "DECLINE"} and not last.tags & {"COP", "NEG"}:
            return True
        if last.tags & {"COP", "NEG", *DEGREES}:
            return False
    return around.text(following) in OBJECTS or (last is None and bool(around.names(following).parts))


def _position_fits(around: Around, at: int, following: int) -> bool:
    """ "right" at the start is a filler unless something follows that has a right one."""
    if around.texts[at] in {"high", "low"} and around.last is not None and "SLIGHT" in around.last.tags:
        return around.text(following) not in {"", BREAK}  # "thirteen thousand, bit high": how it is
    if around.texts[at] != "right" or following - at > 1 or around.last_kind in {"MOD", "PART", "LINK"}:
        return True
    if around.last is not None and "SAME" in around.last.tags and around.text(following) in {"", BREAK}:
        return any(tag.meaning.positions for tag in around.out)  # "ten left and the same right"
    if around.last_kind == "WORD" and is_ing(around.texts[at - 1]) and not around.names_part(following):
        return False  # "it wasn't hanging right, fifteen point eight"
    if at and around.texts[at - 1] == "the" and around.text(following) in _ENDS_PLACE | {"but", "with", "so"}:
        return True  # "cover off the right and it's scored", "now for the right"
    if around.last_kind == "MEASURE" and any(tag.meaning.positions for tag in around.out):
        return True  # "one eighty four left and one eighty six right"
    names, two = around.names(following), around.texts[following : following + 2]
    return two != ("one", "of") and (  # "right, one of the screws …"; "ten and twelve, right and left"
        two == ("and", "left")
        or around.text(following) in BEHIND_RIGHT
        or "SAME" in names.tags
        or is_right_of(around, names.positions)
        or bool(names.parts or names.aliases or names.conditions or names.characteristics)
        or following in around.measures
    )


def _alias_fits(around: Around, following: int) -> bool:
    """A part of a name stands for the part where a noun would stand."""
    last = around.last
    here = last is not None and ("FILLER" in last.tags or around.texts[last.end - 1] == "here")
    if last is not None and last.kind == "WORD" and here and _said_of(around, following):
        return True  # "spring okay link bent", "pin's free over here boots good"
    if last is not None and last.kind == "WORD" and not last.tags:
        sized = around.texts[last.start] in SIZE_WORDS
        if around.texts[last.start] == "more":  # "banjo off two more washers", not a bare "five more nuts"
            sized = any(tag.kind in {"OFF", "ON"} for tag in around.out)
        if _is_verb(around) or sized:
            return True  # "little gauze in behind it", "the two little screws staked"
        if around.texts[last.start] in _NO_NOUNS:
            return True  # "front right next pads out"
        if _is_modifier(around):
            return False
    if last is None or (last.kind in _BEFORE_NOUN and not _behind_modal(around, last)):
        return True
    if last.kind == "PART" and is_next_member(around, following):
        return True  # "cap pin nut all off", "new pad spring pin and clip"
    led = last.kind in {"PART", "PRON", "OFF", "ON"} and around.texts[following - 1] in FASTENERS
    # "new washer nut to seventy newton metres", "piston in it bolts at one ninety five"
    to = (last.kind == "PART" and around.text(following) == "to") or (led and around.text(following) == "at")
    return around.text(following) in _AFTER_NOUN or following + to in around.measures


def _behind_modal(around: Around, last: Tag) -> bool:
    """ "it won't idle", "doesn't seat": a verb, whatever the sheet calls so."""
    modal = around.texts[last.start : last.end][-2:]
    return last.kind == "AUX" and modal[-1] == "not" and modal[0] in _MODALS


def _tells_apart(around: Around, at: int, following: int) -> bool:
    """ "main oil way", "throttle it back": such a word before a noun or an object is no part by itself."""
    alone = following - at == 1 and around.texts[at] in BEGINS_NAME
    return alone and not (_said_of(around, following) or around.text(following) in {"", BREAK, "and"})


def _said_of(around: Around, following: int) -> bool:
    """True where something is said of what ends at *following*: a state, a doing, a movement or a number."""
    names = around.names(following)
    said_of = names.conditions or names.acts or names.tags & _SAID_OF or around.text(following) in _AFTER_NOUN
    return bool(said_of) or following in around.measures


def _is_verb(around: Around) -> bool:
    """ "drums I'd skim, cylinders I'd change": what somebody is going to do."""
    before = around.out[-2] if len(around.out) > 1 else None
    return before is not None and before.kind == "AUX" and around.texts[before.start] in {"i", "we"}


def _is_modifier(around: Around) -> bool:
    """ "valve cap": an unknown noun before a short name makes it another part."""
    at = len(around.out) - 2
    while at >= 0 and around.out[at].kind == "WORD" and not around.out[at].tags:
        at -= 1  # "the hold down springs"
    before = around.out[at] if at >= 0 else None
    if at < len(around.out) - 2:
        return before is not None and before.kind == "MOD" and around.texts[before.end - 1] in _ARTICLES
    return before is None or before.kind in _BEFORE_MODIFIER or "FILLER" in before.tags
