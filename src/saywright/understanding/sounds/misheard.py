"""Traces that a word was lost, swapped or misheard beside a number: such a reading asks.

A number alone cannot tell that it lost a digit. What stands around it can: a number word that
no one has a place for, "and a" with nothing behind it, fewer decimals than the limits can be
judged with, a value far outside the limits that one slip of hearing makes of one that is not. Any
other value inside the plausible range of the sheet is a finding; where it has none, one far outside asks.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import decimals, parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.bench_words import PLAIN
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.quantities.plausible import is_coarse, is_far_out, is_plausible
from saywright.understanding.quantities.words import LIKE_AND
from saywright.understanding.second_thoughts.words import turned_back
from saywright.understanding.sounds.in_its_place import in_its_place
from saywright.understanding.sounds.misheard_parts import part_doubts
from saywright.understanding.sounds.slips import misheard_for
from saywright.understanding.sounds.torn_numbers import counts_behind, digit_beside, goes_on, is_two
from saywright.understanding.statements import Reading
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.neighbours import neighbour_doubts
from saywright.understanding.working import Working
from saywright.units import get_unit

_NEAR = 6  # tokens between a reading's number and a number word that belongs to nothing
_NO_COUNT = 20  # from here on a number beside a part says hardly how many or which
_NOT_HEARD = "unk"  # what a recogniser writes for a word outside its vocabulary
_LIKEWISE = frozenset({"same", "again", "likewise", "also"})  # "lid on, same forty"
_EACH = frozenset({("both",), ("all",), ("each",), ("both", "at"), ("all", "at")})
_PLACE_BEHIND = 2  # tokens between a number and its position behind it
_TURNED = frozenset({"back", "backed", "wind", "wound", "turn", "turned", "screw", "screwed"})
_GIVEN = frozenset({"give", "gave", "given", "opened", "nudged", "tweaked"})  # always by how much
_TURNED_REACH = 4  # tokens from the verb to by how much
_RANGE_REACH = 4  # tokens from "between" to the number that ends its range
_ANGLES = frozenset({"degree", "degrees"})
_NUMBER_WORDS = frozenset(CLASSES) | frozenset(DENOMINATORS) - {"second", "seconds"}
_HALF_OF_IT = frozenset({"through", "way", "worn", "gone", "full", "empty"})  # "worn half through"
_BEFORE_ROW = frozenset({"are", "and", "measure"})
_BEFORE_NUMBER = frozenset({"at", "is", "to", "was", "reads"})
_HEAD_OF_NUMBER = 3  # what leads to it, the word misheard, "and"
_CUT_SHORT, _ARTICLES = frozenset({"the", "a", "an", "of", "at"}), frozenset({BREAK, "the", "a", "an"})


def doubt_misheard(work: Working, tags: Sequence[Tag]) -> None:
    """Readings of this utterance beside which something was misheard ask."""
    made = [(s, work.said[s.id]) for s in work.out if type(s) is Reading and s.id in work.said]
    if not made:
        return
    loose = tuple(_loose_numbers(work, tags))
    for reading, fact in made:
        if reading.id in work.gone:
            continue
        found = [
            *_number_doubts(reading, fact, work),
            *_word_doubts(reading, fact, work, loose),
            *neighbour_doubts(reading, fact, work),
            *part_doubts(reading, fact, work, tags),
        ]
        if found:
            known = {f.kind for f in reading.flags}
            more = [f for f in found if f.kind not in known]
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, *more)}))


def _number_doubts(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """What the number itself says against it."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    if spec is None or reading.in_sheet_unit is None:
        return
    if is_far_out(spec, parse_value(reading.in_sheet_unit)):
        told = "is not one of the sizes" if spec.allowed else "is far outside the limits"
        other = _said_for_it(reading, spec, work) if spec.plausible is not None else ""
        if spec.plausible is None or other:
            yield flag(FlagKind.OUTSIDE_PLAUSIBLE, f"{reading.value} {told}{other and f', {other} is not'}")
    measure = fact.phrase.measure
    shares = measure is not None and measure.readings[0].how in {"fraction", "mixed"}
    if reading.unit == spec.unit and not shares and is_coarse(reading.value, spec):
        yield flag(FlagKind.POORLY_HEARD, f"{reading.value} has fewer decimals than the limits need")


def _said_for_it(reading: Reading, spec: Characteristic, work: Working) -> str:
    """A value that the sheet expects and one slip of hearing makes this one of; "" for none."""
    if reading.unit != spec.unit:
        return ""
    shown = (one.resolution for one in work.sheet.instrument if one.id == spec.instrument)
    places = max(spec.limit_places, decimals(spec.nominal)) or max(map(decimals, shown), default=0)
    found = misheard_for(reading.value, places)
    return next((f"{other}" for other in found if not is_far_out(spec, Fraction(other))), "")


def _word_doubts(reading: Reading, fact: Fact, work: Working, loose: Collection[int]) -> Iterator[Flag]:
    """What the words around the number say against it."""
    start, end = fact.phrase.start, fact.phrase.end
    if _NOT_HEARD in work.texts[fact.start : fact.end]:
        yield flag(FlagKind.POORLY_HEARD, "a word beside it was not made out")
    near = [at for at in loose if -_NEAR <= at - end < _NEAR and not _is_elsewhere(work, end, at)]
    if near:
        yield flag(FlagKind.SECOND_NUMBER, work.texts[near[0]])
    named = fact.characteristics and work.texts[end : end + 1] and work.texts[end] in work.lexicon.like_digits
    if _began_before(work, start):
        yield flag(FlagKind.NUMBER_ODD, f"it may begin at '{work.texts[start - 2]}'")
    if goes_on(work, end) or (not named and digit_beside(work, start, end)):
        yield flag(FlagKind.NUMBER_ODD, "the number did not end there")
    if is_two(work.texts, start, end):
        yield flag(FlagKind.NUMBER_ODD, "it may be two numbers")
    if counts_behind(work, start, end):
        yield flag(FlagKind.NUMBER_ODD, f"its end may count what follows: {work.texts[end]}")
    if _is_of_one(fact, work):
        yield flag(FlagKind.NUMBER_AMBIGUOUS, "it may tell which one")
    if _ends_range(fact, work):
        yield flag(FlagKind.APPROXIMATE, "between")
    if end < len(work.texts) and work.texts[-1] in _CUT_SHORT:
        yield flag(FlagKind.PART_AMBIGUOUS, f"the words end at '{work.texts[-1]}'")
    if _by_how_much(fact, work):
        yield flag(FlagKind.NUMBER_ODD, "how far it was turned, not where it stands")
    if not _is_size(reading, fact, work) and _is_lone(fact, work) and not in_its_place(reading, fact, work):
        yield flag(FlagKind.NUMBER_ODD, "it stands alone, away from its part")


def _began_before(work: Working, start: int) -> bool:
    """ "blows off at wonder and twenty": an unknown word behind what leads to a number, and "and"."""
    texts = work.texts
    if start < _HEAD_OF_NUMBER or texts[start - 1] != "and" or texts[start - 3] not in _BEFORE_NUMBER:
        return False
    word = texts[start - 2]
    return word.isalpha() and word not in PLAIN and (word,) not in work.lexicon.table


def _is_elsewhere(work: Working, end: int, at: int) -> bool:
    """ "upper twenty six point nine six, lower point nine five": the next number is of another place."""
    between = work.texts[end:at]
    return bool(between) and between[-1] in work.lexicon.positions and len(between) <= _PLACE_BEHIND


def _is_of_one(fact: Fact, work: Working) -> bool:
    """ "cover three is stripped": a small whole number of which a state is said tells which one."""
    end = fact.phrase.end
    if small_count(fact.phrase.measure) is None or work.texts[end : end + 1] not in {("is",), ("has",)}:
        return False
    return bool(work.lexicon.names(work.texts, end + 1).conditions)


def _by_how_much(fact: Fact, work: Working) -> bool:
    """ "back it off half a turn", "wind it in another quarter": a change, no setting."""
    before = work.texts[max(0, fact.phrase.start - _TURNED_REACH) : fact.phrase.start]
    if fact.phrase.measure is not None and "counted" in fact.phrase.measure.flags:
        return False  # "off one two three clicks": from nothing on
    if not _GIVEN.isdisjoint(before):
        return fact.phrase.measure is not None and fact.phrase.measure.unit_said == "turn"
    return not (_TURNED.isdisjoint(before) or {"another", "further", "extra", "off"}.isdisjoint(before))


def _ends_range(fact: Fact, work: Working) -> bool:
    """ "between … and four": the lower end was not understood."""
    measure, start = fact.phrase.measure, fact.phrase.start
    before = work.texts[max(0, start - _RANGE_REACH) : start]
    if measure is None or measure.second or "between" not in before:
        return False
    return before[-1] in LIKE_AND | {"between"}


def _is_size(reading: Reading, fact: Fact, work: Working) -> bool:
    """ "pilot went up to a forty two": too high to count something else, and stamped on the part."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    value = parse_value(reading.value)
    if any(s.selector == "other" for s in fact.subjects):
        return False  # "the other main jet had a one thirty in it": on another job
    if spec is None or not spec.is_count or value < _NO_COUNT or not is_plausible(spec, value):
        return False
    return bool(spec.allowed) or spec.plausible is not None


def _is_placed_behind(fact: Fact, work: Working) -> bool:
    """ "the discs are fourteen left and fifteen right": more than there are, and where it was read."""
    start, end = fact.phrase.start, fact.phrase.end
    behind = [s for s in fact.subjects if s.which and s.components and s.start == end]
    parts = [work.sheet.get(c) for s in behind for c in s.components]
    count = small_count(fact.phrase.measure) or _NO_COUNT
    several = all(p is not None and 1 < len(p.positions) < count for p in parts)
    return bool(parts) and several and work.texts[start - 1] in _BEFORE_ROW


def _is_lone(fact: Fact, work: Working) -> bool:
    """ "o ring … flattened on one": a small bare number apart from the part it would be of."""
    measure = fact.phrase.measure
    if fact.characteristics or measure is None or measure.unit_said is not None:
        return False
    start, end = fact.phrase.start, fact.phrase.end
    led = (
        fact.introduced
        or fact.changes
        or fact.measured
        or _is_stamp(work, start - 1)
        or work.texts[max(0, start - 1) : start] in {("at",), ("to",), ("again",)}
        or turned_back(work.texts, start)  # "fifteen foot pounds, no, correction, sixteen"
    )
    if led or not measure.readings[0].value.isdigit() or _goes_with(work, fact):
        return False
    few = (small_count(measure) or _NO_COUNT) < _NO_COUNT
    if _is_placed_behind(fact, work):
        return False
    if few and any(s.components and s.start == end for s in fact.subjects):
        return True  # "one cover gasket", "on three inner": how many, or a word heard as a number
    if any(s.components for s in fact.subjects) and _behind_its_fitting(work, fact):
        return False
    if any(s.components and 0 < s.start - end <= _PLACE_BEHIND for s in fact.subjects):
        return work.texts[end] not in {"on", "for"}  # "forty on the bolt"
    gaps = [start - s.end if s.end <= start else s.start - end for s in fact.subjects if s.components]
    if any(s.components and work.texts[s.end : start] in _EACH for s in fact.subjects):
        return few  # "springs both eighty six"
    reach = _PLACE_BEHIND if any(s.which for s in fact.subjects) else 0  # "nine on the left"
    return bool(gaps) and min(gaps) > reach


def _goes_with(work: Working, fact: Fact) -> bool:
    """ "injectors one eighty six and one ninety": one of the values of a row."""
    start, end = fact.phrase.start, fact.phrase.end
    placed = any(s.which and s.start > end for s in fact.subjects)
    if fact.phrase.measure is None or (small_count(fact.phrase.measure) is not None and not placed):
        return False  # but "seven and six and a half, inner and outer"
    others = [(o.phrase.start, o.phrase.end) for o in work.said.values() if o is not fact and o.subjects]
    gaps = [
        work.texts[o_end:start] if o_end <= start else work.texts[end:o_start] for o_start, o_end in others
    ]
    return any({BREAK, "and"}.issuperset(gap) for gap in gaps)


def _behind_its_fitting(work: Working, fact: Fact) -> bool:
    """ "pilot jet back in, thirty five": nothing but how the part moved stands between it and the number."""
    ends = [s.end for s in fact.subjects if s.components and s.end <= fact.phrase.start]
    if not ends:
        return False
    between = [t for t in work.texts[max(ends) : fact.phrase.start] if t not in _ARTICLES | _LIKEWISE]
    moved = work.lexicon.table.get(tuple(between), NOTHING).tags
    return bool(moved & {"MOVE_ON", "MOVE_OFF", "MOVE_LOOSE_ON"})


def _is_stamp(work: Working, at: int) -> bool:
    """ "stamped three fifty": a word that has a number behind it."""
    known = work.lexicon.table.get(work.texts[max(0, at) : at + 1])
    return known is not None and bool(known.tags & {"STAMP", "READS"})


def _has_angles(work: Working) -> bool:
    kinds = {get_unit(spec.unit).kind for _, spec in work.sheet.characteristics()}
    return bool(kinds & {"angle", "temperature"})


def _loose_numbers(work: Working, tags: Sequence[Tag]) -> Iterator[int]:
    """Number words that belong to no reading and to nothing else that is known."""
    used = {at for start, end in work.aside for at in range(start, end)}
    for fact in work.said.values():
        used.update(range(fact.phrase.start, fact.phrase.end))
    for tag in tags:
        if tag.kind not in {"MEASURE", "WORD"}:
            continue
        words = work.texts[tag.start : tag.end]
        if words == ("one",) or _NUMBER_WORDS.isdisjoint(words):
            continue
        denied = tag.start > 0 and work.texts[tag.start - 1] in {"not", "no"}
        after = work.texts[tag.end] if tag.end < len(work.texts) else ""
        denied = denied or (words == ("point",) and after in {"no", "sorry"})  # "twelve point, no, eleven"
        turned = tag.measure is not None and tag.measure.unit == "turn"  # "a quarter turn on, four point …"
        if turned and after in {"on", "round", "around", "away", "apart", "further"}:
            continue
        if tag.measure is not None and tag.measure.unit_said in _ANGLES and not _has_angles(work):
            continue  # "round ninety degrees, seventy three five": where on it
        if words == ("half",) and after in _HALF_OF_IT:
            continue
        things = after.endswith("s") and after not in work.lexicon.units  # "in three spots"
        if not (denied or things or "FILLER" in tag.tags) and used.isdisjoint(range(tag.start, tag.end)):
            yield tag.start
