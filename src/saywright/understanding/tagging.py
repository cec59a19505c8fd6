"""Tokens → tags: each stretch of words gets the one tag it has here, with what it means.

The longest name of the lexicon wins; a measure wins over talk of the same length. Where a
name has several meanings, its neighbours decide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.around import Around
from saywright.understanding.by_words import OF_TEXTS
from saywright.understanding.conditions.no_states import (
    all_that_fault,
    colours_fault,
    is_place_by_part,
    worn_flat,
)
from saywright.understanding.conditions.predicates import predicate_at
from saywright.understanding.counting.counted_rows import (
    OPEN_ROW,
    counted_rows,
    give_counts,
    stretch,
    without_rows,
)
from saywright.understanding.counting.counted_things import SAYS_NOTHING
from saywright.understanding.discourse import Hand
from saywright.understanding.doings.in_place import only_if_off
from saywright.understanding.doings.split_verbs import join_split_verbs, split_kind
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.naming.cuts import is_the_one, longest_name
from saywright.understanding.naming.kinds import name_kind
from saywright.understanding.naming.value_names import READ_BY, leads_to_value, read_by_particle, read_on_it
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.quantities.edges import (
    before_name,
    behind_one,
    but_one,
    one_of_it,
    rest_of_measure,
    turned_over,
)
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.quantities.pauses import over_pauses
from saywright.understanding.quantities.repairs import named_points, repaired
from saywright.understanding.second_thoughts.words import turns_at
from saywright.understanding.sides.numbered_positions import station_word
from saywright.understanding.sides.position_ones import is_left_over, leads_choice, stands_for_noun
from saywright.understanding.sides.told_numbers import COUNTED, ToldOff, put_numbers, told_off
from saywright.understanding.steps import CUES
from saywright.understanding.subjects.anyway import is_anyway
from saywright.understanding.tags import Tag
from saywright.understanding.talk_kinds import talk_kind
from saywright.understanding.tokens import BREAK, Token

_PLAIN: dict[str, tuple[str, Meaning]] = {
    BREAK: ("BREAK", NOTHING),
    "?": ("MARK", Meaning(tags=frozenset({"QUESTION"}))),
    "": ("WORD", Meaning(tags=frozenset({"FILLER"}))),  # the particle of a verb that was split
}

_FILLER = Meaning(tags=frozenset({"FILLER"}))
_MUCH = Meaning(tags=frozenset({"MODERATE"}))
_NEEDED = Meaning(tags=frozenset({"NEED"}))  # "I'd have a new one": what is to be done
_SPEAKERS, _SOME = frozenset({"i", "we"}), frozenset({"a", "an", "new", "another"})
_TAKEN_BACK = Meaning(tags=frozenset({"MAKE_THAT"}))
_ONES, _TELLS_ONE = frozenset({"one", "ones"}), frozenset({"one", "ones", "is", "has", "", BREAK})
_IDLE = frozenset(
    {"half", "over", "under", "either", "all", "left", "bar", "but", "except", "barring", "one"}
)
_OWNERS = frozenset({"its", "their", "his", "my", "our"})
_THROUGHOUT = frozenset({"down", "along", "across", "over", "up", "through"})
_TURNS = frozenset({"no", "nope", "nah", "wait"})
_POINTING = frozenset({"the", "that", "this"})
_NO_NAME = frozenset({"MOVE_LOOSE_ON", "POS", "PLACE", "ORD", "SLIGHT", "MODERATE", "SEVERE"})
_NO_POINTERS = frozenset({"only", "next", "right", "wrong", "number", "no", "this", "that", "is", "at"})
_ROWS, _NUMBERS = CUES.bit(OPEN_ROW | {"last"}), CUES.bit(COUNTED)


def tag(
    tokens: Sequence[Token], lexicon: Lexicon, hand: Hand | None = None, moved: str | None = None
) -> tuple[Tag, ...]:
    """The tags of *tokens*, left to right, without gaps.

    *hand* is what is in hand before, *moved* the part of a station that the last line says was moved.
    """
    words = tuple([token.text for token in tokens])
    cues = CUES.of(words)
    rows = counted_rows(words, lexicon) if cues & _ROWS else ()
    words = without_rows(words, rows) if rows else words
    joined, texts = join_split_verbs(words, lexicon)
    roll = told_off(texts, lexicon, hand, moved) if cues & _NUMBERS or lexicon.stations else {}
    counted = _without_names(words, roll, lexicon)
    texts = _with_stations(texts, roll) if roll else texts
    heard = find_measures(counted, lexicon.units)
    measures = over_pauses(repaired(heard, counted), counted, lexicon) if heard else ()
    around = Around(lexicon, texts, {m.start: m for m in (stretch(measures, rows) if rows else measures)})
    at, size = 0, len(texts)
    while at < size:
        if at in roll:
            put_numbers(around, roll[at])
            at = roll[at].end
            continue
        found = _next(around, at)
        if at in joined and found.kind != "MEASURE":
            meaning = joined[at]
            found = replace(found, kind=split_kind(meaning), meaning=meaning, end=max(found.end, at + 1))
        around.out.append(found)
        at = found.end
    tags: Sequence[Tag] = around.out
    for rule in [rule for rule, cue in OF_TEXTS if cue & cues]:
        tags = rule(tags, texts, lexicon)
    return give_counts(tuple(tags), rows) if rows else tuple(tags)


def _without_names(words: tuple[str, ...], roll: ToldOff, lexicon: Lexicon) -> tuple[str, ...]:
    """The words that may be numbers: no roll, no "free" of a free length, no boiling "point"."""
    if not roll and lexicon.like_digits.isdisjoint(words) and lexicon.before_point.isdisjoint(words):
        return words
    last = {at for at, word in enumerate(words) if word in lexicon.like_digits and not _goes_on(words, at)}
    last |= named_points(words, lexicon.before_point)
    last |= {at for told in roll.values() for at in range(told.start, told.end)}
    last |= {told.start - 1 for told in roll.values() if words[told.start - 1] == "for" and told.start}
    return tuple("" if at in last else word for at, word in enumerate(words))


def _with_stations(texts: tuple[str, ...], roll: ToldOff) -> tuple[str, ...]:
    """The words with one that is a position in place of each that names a station."""
    stations = {
        at: station_word(told.orders[0])
        for told in roll.values()
        if told.station is not None
        for at in range(told.start, told.end)
    }
    return tuple(stations.get(at, text) for at, text in enumerate(texts)) if stations else texts


def _goes_on(words: tuple[str, ...], at: int) -> bool:
    """True where another word of a number stands right behind."""
    return is_number_word(words, at + 1) or words[at + 1 : at + 2] == ("point",)


def _next(around: Around, at: int) -> Tag:
    """The tag of the token at *at* and those that belong to it."""
    text = around.texts[at]
    plain = _PLAIN.get(text)
    if text in _TURNS and turns_at(around.texts, at):
        plain = ("MARK", _TAKEN_BACK)
    if plain is not None:
        return Tag(plain[0], at, at + 1, plain[1])
    if text in {"one", "again"} and stands_for_noun(around, at):
        return Tag("ONE", at, at + 1, around.lexicon.names(("one",), 0))
    if text in _ONES and around.text(at + 1) != "point" and _describes(around):
        around.out[-1] = replace(around.out[-1], kind="MOD")
        return Tag("ONE", at, at + 1, around.lexicon.names((text,), 0))
    one_behind = around.ones and around.text(at + 1) in _ONES
    if (one_behind or text in around.lexicon.heads) and (_points(around, at) or is_the_one(around, at)):
        return Tag("MOD", at, at + 1, Meaning(positions=(text,)))
    if text in _IDLE and (idle := _idle(around, at)) is not None:
        return idle
    measure = around.measures.get(at)
    if measure is not None:
        measure = before_name(around, measure)
    elif at in around.inside:
        measure = rest_of_measure(around, at)
    said = predicate_at(around, at) if text in around.lexicon.predicates else None
    match = said or longest_name(around, at)
    if measure and (match is None or not _name_wins(match, measure)):
        return Tag("MEASURE", at, measure.end, NOTHING, behind_one(around, measure))
    if match is None:
        return Tag("WORD", at, at + 1, NOTHING)
    return Tag("COND", at, at + said[0], said[1]) if said is not None else _named(around, at, match)


def _named(around: Around, at: int, match: tuple[int, Meaning]) -> Tag:
    """The tag of the name *match* at *at*."""
    length, meaning = match
    part = at + length < around.size and bool(meaning.parts or meaning.aliases)
    if part and is_place_by_part(around, at, at + length):
        return Tag("WORD", at, at + length + 1, Meaning(tags=frozenset({"PLACE"})))
    if part and _names_gauge(around, at + length, meaning):
        return Tag("WORD", at, at + length + 1, Meaning(tags=frozenset({"INSTRUMENT"})))
    read = read_on_it(around, at, length, meaning) if meaning.conditions else ()
    if not read and around.texts[at + length - 1] in READ_BY:
        read = read_by_particle(around, at, length)
    if read:
        return Tag("CHAR", at, at + length, Meaning(characteristics=read))
    if meaning.conditions and colours_fault(around, at, at + length):
        return Tag("AUX", at, at + length, _MUCH)
    if length == 1 and around.texts[at].startswith("flat") and (shape := worn_flat(around, at)) is not None:
        return Tag("COND" if shape.conditions else "WORD", at, at + 1, shape)
    if length > 1 and _leads_to_state(around, at + length - 1, meaning.tags):
        return Tag("WORD", at, at + length - 1, _FILLER)
    if "HYPO" in meaning.tags and around.text(at + length) in _SOME and around.texts[at] in _SPEAKERS:
        return Tag("AUX", at, at + length, _NEEDED)
    kind = name_kind(around, at, length, meaning) or talk_kind(around, at, length, meaning.tags)
    noun = kind == "ON" and around.texts[at] == "fit" and _is_noun(around)
    if noun or (kind == "CHAR" and leads_to_value(around, at, length, meaning)):
        kind, meaning = "WORD", SAYS_NOTHING
    elif kind == "ON":
        meaning = only_if_off(around, at, at + length, meaning)
        length -= length > 1 and around.texts[at + length - 1] in {"into", "onto"}  # "knocked into the hub"
    return Tag(kind, at, at + length, meaning)


def _leads_to_state(around: Around, end: int, tags: frozenset[str]) -> bool:
    """ "still in good condition", "it's out of the dip": nothing moved; its end tells a state or a doing."""
    if "NOT_MOVED" in tags:
        return bool(around.names(end).conditions)
    out = "MOVE_OFF" in tags and around.texts[end : end + 2] == ("out", "of")
    return out and bool(around.names(end).acts)


def _is_noun(around: Around) -> bool:
    """ "a good fit", "a nice snug fit": an article, and what it is like, stand before."""
    article = next((tag for tag in reversed(around.out[-3:]) if tag.kind == "MOD"), None)
    return article is not None and around.texts[article.start : article.end] in {("a",), ("an",)}


def _names_gauge(around: Around, at: int, meaning: Meaning) -> bool:
    """ "pin gauge says two point one": an instrument, where nothing is read on the pin."""
    if around.text(at) != "gauge" or not (at + 1 in around.measures or "READS" in around.names(at + 1).tags):
        return False
    parts = map(around.lexicon.sheet.get, (*meaning.parts, *meaning.aliases))
    return not any(part is not None and part.characteristic for part in parts)


def _describes(around: Around) -> bool:
    """ "the rusty one": a state that tells which of several."""
    before = around.out[-2] if len(around.out) > 1 else None
    return around.last_kind == "COND" and before is not None and around.texts[before.end - 1] in _POINTING


def _points(around: Around, at: int) -> bool:
    """ "the high one", "rear one's okay", "rear's gritty": a word that tells parts apart, of no part here."""
    word, lexicon = around.texts[at], around.lexicon
    if around.text(at + 1) not in _TELLS_ONE and at + 1 not in around.measures:
        return False
    known = lexicon.table.get((word,), NOTHING)
    place = "POS" in known.tags
    if not word.isalpha() or word in _NO_POINTERS or at in around.measures:
        return False
    if known != Meaning(aliases=known.aliases, many=known.many, tags=known.tags & _NO_NAME):
        return False
    if "ORD" in known.tags and word not in lexicon.heads:
        return False
    opens = around.last_kind in {"", "BREAK"} or (around.last is not None and "AND" in around.last.tags)
    defined = around.last is not None and around.texts[at - 1] == "the"
    tells = word in lexicon.heads and (
        place or "ORD" in known.tags or around.last_kind in {"CHAR", "MEASURE"}
    )
    beside_value = around.last_kind in {"CHAR", "MEASURE"} or around.texts[at - 1 : at] in {("on",), ("for",)}
    if around.text(at + 1) in {"is", "has"} and tells:
        return opens or defined or (beside_value and around.last_kind != "CHAR")
    if tells and (at + 1 in around.measures or (beside_value and around.text(at + 1) in {"", BREAK})):
        return opens or defined or beside_value
    number = around.measures.get(at + 1)
    if around.text(at + 1) not in {"one", "ones"} or (number is not None and number.end > at + 2):
        return False
    behind_state = around.last_kind == "COND" and word in lexicon.positions  # "rough, far one's free"
    return defined or behind_state or (opens and (place or word in lexicon.heads))


def _idle(around: Around, at: int) -> Tag | None:
    """ "half blocked", "half over", "either one", "has six left": no number, no choice and no side."""
    if around.texts[at] == "all":
        if is_anyway(around.texts, at):
            return Tag("WORD", at, at + 3, _FILLER)
        if around.last_kind == "COND" and around.text(at + 1) in _THROUGHOUT:
            return Tag("WORD", at, at + 2, _FILLER)  # "pitted all down one side"
        return Tag("AUX", at, at + 2, _FILLER) if all_that_fault(around, at) else None
    if around.texts[at] == "one":
        return Tag("WORD", at, at + 1, _FILLER) if one_of_it(around, at) else None
    if but := but_one(around, at):
        return Tag("WORD", at, but, _FILLER)
    if _is_share_of_state(around, at):
        return Tag("AUX", at, at + 1, _FILLER)
    says_nothing = turned_over(around, at) or leads_choice(around, at) or is_left_over(around, at)
    return Tag("WORD", at, at + 1, _FILLER) if says_nothing else None


def _is_share_of_state(around: Around, at: int) -> bool:
    """ "half blocked", "lost half its skirt": how far it is so, no number."""
    if around.texts[at] != "half":
        return False
    measure, owned = around.measures.get(at), around.text(at + 1) in _OWNERS
    known = measure is not None and measure.end == at + 1 and bool(around.names(at + 1).conditions)
    return owned or known


def _name_wins(match: tuple[int, Meaning], measure: Measure) -> bool:
    length, meaning = match
    span = measure.end - measure.start
    if length != span:
        return length > span
    return bool(meaning.parts or meaning.characteristics or meaning.tags & {"CLOCK", "FILLER", "ORD"})
