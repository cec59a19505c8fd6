""" "Off", "out", "in" and "on" that belong to a verb, a measure or a clause: no part moved."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.around import Around
from saywright.understanding.bench_words import LITTLE, NEUTRAL, SWITCHED, WORKSHOP
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.in_place import unpacked
from saywright.understanding.doings.set_there import SITS, set_there
from saywright.understanding.meanings import Meaning
from saywright.understanding.tokens import BREAK

_TO_AND_FRO = frozenset(
    {("in", "and", "out"), ("out", "and", "in"), ("on", "and", "off"), ("up", "and", "down")}
)
_POINTS = frozenset({"this", "these", "it", "they", "that", "those"})
_IS_OUT = frozenset({("is", "out"), ("are", "out")})
_WAS = frozenset({"was", "were"})
_STOOD = _WAS | {"sat", "sits"}
_WHERE_IT_WAS = {("in",), ("on",), ("fitted",), ("fitted", "in"), ("fitted", "on"), ("mounted",)}
_COME_OUT = frozenset({("come", "out"), ("came", "out"), ("comes", "out")})
_ASKS = frozenset({BREAK, "of", "see", "note", "noted", "know", "mark", "marked", "remember", "sure", "and"})
_CLAUSE_ENDS = frozenset({BREAK, "and", "but", "so", "means", "meant", "matters", "one"})
_PERSONS = frozenset({"he", "she", "they", "you", "it", "who"})
_PIECES = frozenset({"pieces", "bits", "halves", "parts", "half", "shreds", "bands", "places", "spots"})
_FAR_OUT = frozenset({"well", "way", "miles", "far"})
_VALUES_OUT = _COME_OUT | {("come", "up"), ("came", "up")}
_PULLS = frozenset({"pulling", "pulls", "pulled"})
_WAYS = frozenset({"to", "left", "right", "sideways"})
_DRAWS = frozenset({"pulling", "drawing", "taking", "pulls", "draws", "pulled"})
_BITS = LITTLE | {"lot", "mile"}
_WHILES = frozenset(
    ["minute", "minutes", "second", "seconds", "sec", "mo", "moment", "tick", "while", "bit", "hour", "week"]
)
_TURNED_SO = frozenset({"edge", "edges", "side", "sides", "face", "faces", "lip", "lips"})
_PLACED = 4  # tokens of "on the other side"
_AT = frozenset({"on", "at", "from", "round"})
_SO_MANY = frozenset({"both", "two", "three", "four", "five", "six"})
_LAID = frozenset({"rolled", "rolls", "rolling", "spun", "laid"})
_ARTICLES = frozenset({"the", "a", "an", "my"})
_BEFORE_THING = frozenset({"the", "its", "that", "this"})
_OPENS_WITHIN = 4  # tokens before "this is"
_AS_IT = frozenset({"as", "than", "what", "how", "when", "where", "since"})
_SAYS = frozenset({"read", "reading", "call", "calling", "shout", "say", "spell", "sing", "write"})


def is_idle(around: Around, at: int, following: int) -> bool:
    """True where the words of movement [at, following) tell of no part that moved."""
    texts, last = around.texts, around.last
    before = texts[at - 1] if at else ""
    fro = following + 2 if texts[following - 1 : following + 2] in _TO_AND_FRO else 0
    fro = following if not fro and texts[at - 2 : at + 1] in _TO_AND_FRO else fro
    if fro and around.text(fro) not in _ARTICLES:  # no "pads out and in the bin"
        return True  # "you work it in and out", "slides up and down freely"
    stood = following > 1 and texts[following - 2] in _STOOD and set_there(around, following)
    if (
        stood
        or (before in _AS_IT and texts[at] in {"came", "come", "comes", "went"})
        or _was_there(texts, at, following)
        or (texts[following - 1] == "back" and _to_the_workshop(around, following))
        or (before == "back" and _to_the_workshop(around, at))
    ):
        return True  # "was in hole three", "same as came out"
    told = before in {"it", "them"} and not _SAYS.isdisjoint(texts[max(0, at - 2) : at])  # "I'll read it out"
    far = before in _FAR_OUT or _a_bit_out(around, at)  # "two to six, so that's well out"
    if following - at == 1 and texts[at] in {"out", "off"} and (told or far):
        return True
    if texts[following - 1] == "in" and (in_pieces(around, following) or texts[following:] == ("half",)):
        return True  # "front one's in two pieces"
    verb = last is not None and last.kind == "WORD" and not last.tags and before.endswith("s")
    if verb and following - at == 1 and at > 1 and texts[at - 2] in _PERSONS:
        return True  # "it dies when he lets off"
    if at == 0 and following - at == 2 and around.text(following) in {"is", "was"}:
        return True  # "knock off's at half past four"
    shown = texts[at:following] == ("pulling",) and _large(around, following)  # "both pulling twenty six"
    if shown or _comes_to_value(around, at, following):
        return True
    fit = texts[at : at + 2] == ("fit", "for")  # "they're fit for years yet"
    fit = fit or _is_fitting(around, at, following)
    elsewhere = (
        _they_go(around, at, following)
        or _is_from(around, at, following)
        or _came_from(around, at, following)
        or unpacked(around, following)
    )
    return fit or elsewhere or _hung_on(around, at, following) or _is_switched(around, following)


def _to_the_workshop(around: Around, at: int) -> bool:
    """ "slide back in the tray", "goes back in tray": where it lies, and no part it is fitted to."""
    if around.text(at) not in {"in", "on", "into", "onto"}:
        return False
    place = at + 1 + (around.text(at + 1) in _ARTICLES)
    return around.text(place) in WORKSHOP - {"order", "list"} and not around.names_part(place)


def _was_there(texts: Sequence[str], at: int, following: int) -> bool:
    """ "the fuse that was in it is a ten": which one is meant, by where it was found."""
    words = texts[at:following]
    verb, said = (at, words[1:]) if words[0] in SITS else (at - 1, words)
    if said not in _WHERE_IT_WAS:
        return False
    there = verb > 0 and texts[verb] in _WAS and texts[verb - 1] in {"that", "which"}
    return there or _asks_where(texts, verb)


def _is_fitting(around: Around, at: int, following: int) -> bool:
    """ "cracked by the fitting", "pipe fitting's rounded": a thing that things are joined with."""
    if around.texts[at:following] != ("fitting",) or around.last is None:
        return False
    behind_article = around.texts[at - 1] in _BEFORE_THING or around.last_kind == "LINK"
    return behind_article or around.text(following) in {"is", "are"}


def _asks_where(texts: Sequence[str], verb: int) -> bool:
    """ "photo of which hole the spring was in", "which slot was it in": where it is, up to *verb*."""
    begin = max((i for i in range(verb) if texts[i] in {"which", "what"}), default=-1)
    if begin < 0 or not (begin == 0 or texts[begin - 1] in _ASKS):
        return False
    within = texts[begin + 1 : verb + 1]
    if SITS.isdisjoint(within[1:]) or not _CLAUSE_ENDS.isdisjoint(within[:-1]):
        return False
    return len(within) > 2 and (within[-1] in SITS or within[1] in SITS)


def _comes_to_value(around: Around, at: int, following: int) -> bool:
    """ "they both come out two fifty one", "motor was pulling four amps", "trailer pulling to the left"."""
    words, draws = around.texts[at:following], around.texts[at] in _DRAWS
    if around.texts[at] in _PULLS and len(words) == 1:
        if around.text(following) in _WAYS:
            return True
        numbers = (around.measures.get(following + far) for far in range(3))
        number = next((m for m in numbers if m is not None), None)
        if around.text(following) == "up" and number is not None and not around.names_part(number.end):
            return True  # "that bolt was pulled up to twenty one", "pulling up at five clicks"
    measure = around.measures.get(following)
    if measure is not None and measure.unit == "turn" and words[-1] in {"in", "out"}:
        return not _WAS.isdisjoint((*words, around.texts[at - 1]))  # "screw was in two and a half turns"
    return (draws or words in _VALUES_OUT) and _comes_to(around, following, of_unit=draws)


def _comes_to(around: Around, at: int, *, of_unit: bool = False) -> bool:
    """A value that counts no parts; *of_unit*: with its unit."""
    measure = around.measures.get(at)
    if of_unit and (measure is None or measure.unit is None):
        return False
    return measure is not None and small_count(measure) is None and not around.names_part(measure.end)


def _a_bit_out(around: Around, at: int) -> bool:
    """ "so it's a good bit out": how far."""
    return around.texts[at - 1] in _BITS and "a" in around.texts[max(0, at - 3) : at - 1]


def _they_go(around: Around, at: int, following: int) -> bool:
    """ "want to be out on the road": people, where no part is named before."""
    to_be = around.texts[at:following] == ("out",) and around.texts[max(0, at - 2) : at] == ("to", "be")
    return to_be and not any(tag.kind in {"PART", "PRON", "ONE"} for tag in around.out)


def _hung_on(around: Around, at: int, following: int) -> bool:
    """ "out comes the slide, the spring and the needle all on the cable": where they were till then."""
    on_it = around.texts[at:following] == ("all", "on") and around.text(following) in {"the", "its", "one"}
    return on_it and any(tag.kind == "OFF" for tag in around.out)


def _is_from(around: Around, at: int, following: int) -> bool:
    """ "this is the carb off Bob's old van", "these are off a five hundred": from where."""
    if following - at == 2 and around.text(following) in {"a", "an"}:
        numbered = following in around.measures or following + 1 in around.measures
        return numbered and around.texts[at - 1] in _POINTS and around.texts[following - 1] == "off"
    if around.texts[at:following] != ("off",):
        return False
    begins = ("this", "is") if "this" in around.texts[:at] else ("these", "are")
    opens = any(around.texts[i : i + 2] == begins for i in range(min(at, _OPENS_WITHIN)))
    if not opens or around.text(following) in {"", BREAK}:
        return False
    named = around.names(following)
    known = around.lexicon.match(around.texts, following) is not None and "DET" not in named.tags
    return not (known or around.names_part(following + 1) or around.names(following + 1).positions)


def _came_from(around: Around, at: int, following: int) -> bool:
    """ "rusty water come out of that bowl": from where it came, and no part did."""
    last = around.last
    if last is None or around.text(following) != "of" or around.texts[following - 1] != "out":
        return False
    if around.texts[at:following] not in _COME_OUT or any(tag.kind == "PART" for tag in around.out):
        return False
    stuff = last.kind == "WORD" and not last.tags and around.texts[last.start] not in NEUTRAL
    return (stuff or last.kind == "COND") and around.text(following + 1) not in {"it", "there"}


def in_pieces(around: Around, following: int) -> bool:
    """ "in two pieces", "in bits"."""
    number = int(following in around.measures or around.text(following) in {"a", "several", "many"})
    number += around.text(following + 1) in {"hundred", "thousand", "million"}
    return around.text(following + number) in _PIECES


def _is_switched(around: Around, following: int) -> bool:
    """ "the supply's off now": it is switched off, and nothing was taken off."""
    last = around.last
    if last is None or last.end - last.start > 1 or around.texts[last.start] not in SWITCHED:
        return False
    return not last.meaning.parts and around.texts[following - 1] in {"off", "on"}


def is_out_of(around: Around, at: int, following: int) -> bool:
    """ "it's out of true", "it's out of bay two": how it is, or from where it came."""
    if around.texts[at:following] not in _IS_OUT or around.text(following) != "of":
        return False
    if around.text(following + 1) in {"that", "this", "it", "there", "them"}:
        return False  # "both pads are out of that one"
    return "DET" not in around.names(following + 1).tags and not around.names_part(following + 1)


def out_by(around: Around, following: int) -> bool:
    """ "the rim's out by a mil", "the holes they came out of": how far, or which."""
    behind, after = around.text(following), around.text(following + 1)
    return (behind == "by" and following + 1 in around.measures) or (
        behind in {"of", "from"} and after in {"", BREAK}
    )


def comes_out_so(around: Around, at: int, following: int) -> bool:
    """ "washed it, it's come out spotless": how it is after what was done."""
    cleaned = any(tag.kind == "ACT" for tag in around.out)
    return cleaned and around.texts[at:following] in _COME_OUT and bool(around.names(following).conditions)


def counted_ones(around: Around) -> bool:
    """ "all six out", "other two in", "two out": a number that counts parts."""
    last = around.last
    if last is None or last.kind != "MEASURE" or small_count(last.measure) is None:
        return False
    picking = {"ALL", "OTHER", "LAST"}  # or the part itself: "jaw one"
    picked = any(t.tags & picking or (t.kind == "PART" and not t.meaning.many) for t in around.out[-2:-1])
    return picked or around.text(last.end) in {"out", "off"}


def names_one(around: Around) -> bool:
    """ "plunger two is out", "all four are out": a number that tells which of several, or that it is all."""
    number = small_count(around.out[-1].measure)
    before = around.out[-2] if len(around.out) > 1 else None
    if number is not None and number > 1 and before is not None and before.tags & {"ALL", "OTHER"}:
        return True
    if number is None or before is None or before.kind != "PART" or before.meaning.many:
        return False
    parts = [around.lexicon.sheet.get(c) for c in (*before.meaning.parts, *before.meaning.aliases)]
    return bool(parts) and all(p is not None and str(number) in p.whiches for p in parts)


def turned_so(around: Around) -> bool:
    """ "new vanes, round edge out": which way round; not "screws on this side out"."""
    last = around.last
    if last is None or "PLACE" not in last.tags or around.texts[last.end - 1] not in _TURNED_SO:
        return False
    words = around.texts[max(0, last.end - _PLACED) : last.end]
    return not any(one in _AT and two in {"the", "this", "that"} for one, two in pairwise(words))


def in_a_while(around: Around, at: int) -> bool:
    """ "a minute", "five minutes"."""
    soon = around.text(at) in {"a", "five", "ten"}
    return soon and not _WHILES.isdisjoint(around.texts[at + 1 : at + 3])


def laid_on(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "rolled on the glass": how it was looked at, and where."""
    end = at + match[0]
    return match[0] > 1 and around.texts[at] in _LAID and around.text(end) in _ARTICLES


def takes_all(around: Around, at: int, length: int) -> bool:
    """ "shoes off the pair", "cups off the two": how many, behind the way they moved."""
    said = length == 2 and around.texts[at] in {"off", "out", "in", "on"} and around.texts[at + 1] == "the"
    if not said or around.text(at + 3) not in {"", BREAK, "and", "of"}:
        return False
    several = around.last is not None and around.last.kind == "PART" and around.last.meaning.many
    return around.text(at + 2) in {"pair", "lot"} or (several and around.text(at + 2) in _SO_MANY)


def _large(around: Around, at: int) -> bool:
    """True for a number of two words or with a unit, of which no part is counted behind it."""
    measure = around.measures.get(at)
    if measure is None or around.names_part(measure.end):
        return False
    return measure.end - at > 1 or measure.unit_said is not None
