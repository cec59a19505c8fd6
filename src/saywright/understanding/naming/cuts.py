"""Names that are longer than what was said: their last word begins something else."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import MACHINES
from saywright.understanding.conditions.no_states import STATE_HEADS, state_in_words
from saywright.understanding.doings.idle_particles import laid_on, takes_all
from saywright.understanding.doings.in_place import goes_elsewhere
from saywright.understanding.doings.split_verbs import leads_one
from saywright.understanding.mark_kinds import asks_too_late
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.naming.shorter_names import (
    noun_not_verb,
    part_not_verb,
    shorter_name,
    two_moved,
    value_begins,
)
from saywright.understanding.naming.slots import names_place_of
from saywright.understanding.tags import DEGREES, MOVES
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_INTO, _BE = frozenset({"in", "on", "into", "onto"}), frozenset({"is", "are"})
_THROWS = frozenset({"scrap", "bin"})
_DOES_TO_PARTS = _THROWS | {"undo", "leave"}
_TELLS_WHY, _ENDS = frozenset({"so", "too"}), frozenset({"", BREAK, "and", "too"})
_POINTED = frozenset({"one", "old", "left", "right", "front", "rear", "upper", "lower", "top", "bottom"})
_TRAVELS = frozenset({"goes", "go", "comes", "moves", "travels", "moving", "going"})
_DISTANCES = frozenset({"length", "angle"})
_OF_THE_MACHINE = frozenset({"gone", "all", "been", "well", "really", "a"})
_MAY_MEAN_ELSE = frozenset({"QUESTION", "MOVE_ON", "MOVE_OFF", "SCRATCH"})  # tags that `_means_else` asks for


def longest_name(around: Around, at: int) -> tuple[int, Meaning] | None:
    """Length and meaning of the longest name at *at* that ends where it was meant to."""
    may_be = around.texts[at] in STATE_HEADS or (at > 1 and around.texts[at - 1] == "not")
    match = (may_be and state_in_words(around, at)) or around.lexicon.match(around.texts, at)
    while match and (_means_else(around, at, match) or (match[0] > 1 and _is_shorter(around, at, match))):
        match = shorter_name(around, at, match[0])
    return match


def _means_else(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """True where bench talk of any length does not mean here what it means elsewhere."""
    if _MAY_MEAN_ELSE.isdisjoint(match[1].tags):
        return around.texts[at] == "she" and bool(match[1].tags) and _names_person(around, at, match)
    return (
        asks_too_late(around, at, match)
        or goes_elsewhere(around, at, match)
        or _travels(around, at, match)
        or _names_person(around, at, match)
        or _scraps_it(around, at, match)
    )


def _scraps_it(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "swollen so bin that", "that's scrap that is", "lip on it too scrap that": the part, not the words."""
    scraps = "SCRATCH" in match[1].tags and around.texts[at] in _THROWS
    if not scraps or around.text(at - 1) not in _TELLS_WHY:
        return scraps and around.text(at - 1) in _BE
    end, before = at + match[0], {tag.kind for tag in around.out}
    alone = around.texts[at + 1 : end] == ("that",) and around.text(end) in _ENDS
    if around.text(at - 1) == "so":
        return "COND" in before or (alone and "PART" in before)
    return alone and "MEASURE" not in before  # one more fault, and no number


def _is_shorter(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """True where the end of a name of several words belongs to what stands behind it."""
    if _is_noun(match[1]):  # to which most of the rules do not apply
        cut = (bool(around.measures) and _cuts_measure(around, at, match[0])) or two_moved(around, at, match)
        return cut or _reads_nothing(around, at, match) or _pairs_sides(around, at, match)
    pair = match[0] == 2 and (
        (around.texts[at] in _INTO and leads_one(around, at + 1))
        or _counts_all(around, at, match[0])
        or takes_all(around, at, match[0])
        or _moves_off(around, at, match)
        or _points_at_part(around, at, match)
        or _is_denied_same(around, at, match)
        or _says_how_it_is(around, at)
        or _reads_nothing(around, at, match)
        or (around.texts[at - 1 : at] == ("the",) and around.texts[at : at + 2] == ("right", "so"))
        or noun_not_verb(around, at, match)
    )
    return (
        pair
        or _cuts_measure(around, at, match[0])
        or _cuts_name(around, at, match)
        or _moves_a_part(around, at, match)
        or _there_begins(around, at, match)
        or two_moved(around, at, match)
        or part_not_verb(around, at, match)
        or laid_on(around, at, match)
        or _pairs_sides(around, at, match)
        or _opens_doing(around, at, match)
        or value_begins(around, at, match)
    )


def _is_noun(meaning: Meaning) -> bool:
    """True for what names a part or what is read on it, and is no talk besides."""
    talk = meaning.tags or meaning.conditions or meaning.acts or meaning.positions
    return not talk and bool(meaning.parts or meaning.aliases or meaning.characteristics)


def _moves_a_part(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "slides in", where the sheet has a slide: the part is in, nobody slides anything."""
    length, meaning = match
    if length < 2 or meaning.parts or not meaning.tags & {"MOVE_OFF", "MOVE_ON"}:
        return False
    first = around.lexicon.table.get((around.texts[at],))
    if first is None or not first.parts:
        return False
    noun = around.last_kind == "PART" and not (around.out[-1].meaning.many or first.many)
    # "new diaphragm slide in": no verb agrees so; "lids off slides out": of the lids all is said
    return noun or around.last_kind in {"", "BREAK", "MOD", "OFF", "ON"}


def _cuts_measure(around: Around, at: int, length: int) -> bool:
    """True where the name ends inside a longer number: "number one" of "number one twenty eight"."""
    end = at + length
    for inside in range(at + 1, end):
        measure = around.measures.get(inside)
        if measure is None or measure.end <= end or measure.readings[0].words <= end - inside:
            continue
        hedge = tuple((measure.hedge or "").split())
        if around.texts[inside:end] != hedge[: end - inside]:
            return True
    return False


def _counts_all(around: Around, at: int, length: int) -> bool:
    """ "and all four screws"; "spring and all" is an end."""
    said = around.texts[at : at + length] == ("and", "all")
    return said and around.text(at + length) not in {"", BREAK}


def _there_begins(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "no I won't, there's a nick": a clause begins with "there is"."""
    end = at + match[0]
    there = bool(match[1].conditions) and around.texts[end - 1] == "there"
    return there and around.text(end) in {"is", "are", "was"}


def _opens_doing(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "so it can go again": the last word of "so it can" begins what is decided."""
    end = at + match[0]
    can = "FUTURE" in match[1].tags and around.texts[end - 1] == "can"
    return can and len(around.names(end - 1).acts) > 0


def _names_person(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "she" of what is on the bench, "she's gone hard", and of nobody else."""
    if around.texts[at] != "she" or match[0] > 1 or around.text(at + 1) not in {"is", "has", "was"}:
        return around.texts[at] == "she" and match[0] == 1
    behind = around.names(at + 2 + (around.text(at + 2) in _OF_THE_MACHINE))
    moves = around.names(at + 1).tags & MOVES
    return not (moves or behind.conditions or behind.acts or behind.tags & (DEGREES | {"NEG"}))


def _points_at_part(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "scrap that gasket", "undo that one": "that" points at the part behind it, nothing is taken back."""
    end = at + match[0]
    takes_back = match[0] == 2 and around.texts[at] in _DOES_TO_PARTS and around.texts[end - 1] == "that"
    return takes_back and (around.names_part(end) or around.text(end) in _POINTED)


def _says_how_it_is(around: Around, at: int) -> bool:
    """ "poppet's okay so …": how the part is, where "okay so" would only lead on; "I'd leave, it's …"."""
    if around.texts[at : at + 3] == ("leave", "it", "is"):
        return around.last_kind == "AUX"
    so = around.texts[at : at + 2] == ("okay", "so")
    return so and around.last is not None and "COP" in around.last.tags


def _is_denied_same(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "so don't undo those", "so is not worth it": no more is said to be the same again; "so do both"."""
    if around.texts[at : at + 2] == ("so", "do") and around.names(at + 2).tags & {"BOTH", "ALL"}:
        return match[0] == 2
    so = around.texts[at] == "so" and match[0] == 2 and "SAME" in match[1].tags
    return so and around.text(at + 2) == "not"


def _pairs_sides(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "left and right out": the second of two sides, no "right out"."""
    sides = around.texts[at - 2 : at] in {("left", "and"), ("right", "and")} if at > 1 else False
    return sides and match[0] > 1 and around.texts[at] in {"left", "right"}


def _travels(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "the pedal goes down forty millimetres": how far it moves; it was not put anywhere."""
    if not match[1].tags & {"MOVE_ON", "MOVE_OFF"} or around.texts[at] not in _TRAVELS:
        return False
    following = at + 1 if at + 1 in around.measures else at + 2
    measure = around.measures.get(following)
    codes = measure.units or (measure.unit,) if measure is not None else ()
    return bool(codes) and all(code is not None and get_unit(code).kind in _DISTANCES for code in codes)


def _cuts_name(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "left side cover", "one second gear", "and no damage": the last word belongs to the name behind it."""
    length, meaning = match
    if length < 2 or meaning.parts or not (meaning.positions or meaning.tags & {"FILLER", "OR"}):
        return False
    last = at + length - 1
    found = around.lexicon.match(around.texts, last) if around.texts[last] else None
    if found is None or found[0] < 2:
        return False
    if "OR" in meaning.tags:
        states = map(around.lexicon.sheet.get_condition, found[1].conditions)
        return any(state is not None and state.good for state in states)
    return bool(found[1].parts) and not names_place_of(around, at, match)


def _moves_off(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "bowl off the gasket's okay": off is the bowl, and what follows is told of another part."""
    if around.texts[at : at + match[0]] != ("off", "the"):
        return False
    if _one_begins(around, at + match[0]) and _several_named(around):
        return True  # "limiter caps both off, the low one's split"
    if around.last_kind != "PART":
        return False
    if around.out[-1].meaning.many and around.text(at + match[0]) in MACHINES:
        return not any("COP" in tag.tags for tag in around.out)  # "carbs off the bike"
    if any(tag.kind in {"ACT", "OFF", "ON", "COND"} for tag in around.out):
        return False
    behind = at + match[0]
    found = around.lexicon.match(around.texts, behind) if behind < len(around.texts) else None
    if found is None or around.text(behind + found[0]) not in {"is", "are", "has", "looks"}:
        return False
    others = {*found[1].parts, *found[1].aliases}
    return bool(others) and not any(_held_by(around, one, others) for one in _parts(around.out[-1].meaning))


def _one_begins(around: Around, at: int) -> bool:
    """ "low one is": one of them, of which something is said."""
    return around.text(at + 1) in {"one", "ones"} and around.text(at + 2) in {"is", "are", "has", "looks"}


def _several_named(around: Around) -> bool:
    """True behind a part in the plural, with "both" or "all" where it is said."""
    named = [t for t in around.out[-2:] if not t.tags & {"BOTH", "ALL"}]
    return (
        bool(named)
        and named[-1].kind == "PART"
        and named[-1].meaning.many
        and named[-1].end >= around.out[-1].start
    )


def _held_by(around: Around, component_id: str, others: set[str]) -> bool:
    """ "o rings off the caps are squashed": the first is in, or called after, one of *others*."""
    one = around.lexicon.sheet.get(component_id)
    holders = [c for c in map(around.lexicon.sheet.get, others - {component_id}) if c is not None]
    if one is None:
        return False
    words = {word for name, _ in component_names(one) for word in name[:-1]}
    nouns = {name[-1] for holder in holders for name, _ in component_names(holder)}
    return one.inside in others or not words.isdisjoint(nouns)


def _parts(meaning: Meaning) -> tuple[str, ...]:
    return (*meaning.parts, *meaning.aliases)


def is_the_one(around: Around, at: int) -> bool:
    """ "the pressure one looks good", not "the pressure one point six": a place that is read, too."""
    if around.text(at + 1) != "one" or at == 0 or around.texts[at - 1] != "the":
        return False
    known, number = around.lexicon.table.get((around.texts[at],), NOTHING), around.measures.get(at + 1)
    both = bool(known.positions and known.characteristics)
    return both and (number is None or number.end == at + 2)


def _reads_nothing(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "cracks at the edge", where the sheet has a cracking pressure: a verb that no value follows."""
    verb = match[0] == 2 and around.texts[at + 1] == "at" and bool(match[1].characteristics)
    return verb and at + match[0] not in around.measures
