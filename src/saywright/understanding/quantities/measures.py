"""Words → the quantities said in them: number, unit, hedge, sign, range.

Nothing is decided here. A measure keeps every reading of its number and every unit that its
spoken name may mean; the caller picks with the bench sheet and asks where two survive.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.ranked import NumberReading, read_number
from saywright.understanding.numbers.shares import fraction_at
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS, OH
from saywright.understanding.quantities.counted_up import counted_draft, counts_up, may_go_on
from saywright.understanding.quantities.hedges import (
    ARTICLES,
    LEADS_TO_CALL,
    adds_more,
    hedge_behind,
    hedge_length,
    is_far,
    is_place_behind,
    stands_at,
    without_ish,
)
from saywright.understanding.quantities.parts import (
    Draft,
    Sign,
    add_share,
    is_share_word,
    number_draft,
    sounding_lead,
    take_unit,
)
from saywright.understanding.quantities.sounding import by_so_much
from saywright.understanding.quantities.sums import summed
from saywright.understanding.quantities.units import Units, share_unit, unit_at, unit_codes
from saywright.understanding.quantities.words import (
    HESITATIONS,
    LEADING_UNITS,
    LIKE_AND,
    LIKE_POINT,
    SIGNS_AFTER,
)

_STARTERS: Final = (
    frozenset(CLASSES)
    | OH
    | frozenset(DENOMINATORS)
    | {"a", "an", "tree", "won", "ate", "between", "couple", "dozen"}
) - {"dot", "thousand"}
_MAY_LEAD: Final = frozenset({"group", "digits", "decimal", "mixed"})
_SUMS: Final = frozenset({("less",), ("plus",), ("take",), ("take", "off"), ("take", "away")})
_FILLS: Final = frozenset({"is", "was", "the", "a", "to", "of"})  # say nothing between two halves of a number
_REVS: Final = 100  # from here on "revs" are of a minute, and no turns
_RANGE_WORDS: Final = frozenset({"to", "or", "through"})


@fixed
class Measure:
    """One quantity as said."""

    readings: tuple[NumberReading, ...]  # best first, at least one
    unit: str | None  # code of the unit said; None where none was said or the name is ambiguous
    unit_said: str | None  # its words
    units: tuple[str, ...]  # codes that an ambiguous name may mean, else ()
    start: int  # index of the first word, sign and hedge included
    end: int  # index after the last word
    approximate: bool  # hedged, or a range
    hedge: str | None  # the words that make it approximate
    sign: Sign  # "minus" is in the values too; "over" and "under" are said behind
    second: tuple[NumberReading, ...]  # the upper end of a range, else ()
    # "homophone", "by_so_much", "figures", "odd", "tenths", "plus_minus", "stands_at", "counted" and such.
    flags: tuple[str, ...]
    # Readings without the first digit, which may be a position: "cylinder two, ninety"; else ().
    behind_first: tuple[NumberReading, ...] = ()


def find_measures(words: Sequence[str], units: Units) -> tuple[Measure, ...]:
    """All measures in *words*, left to right, not overlapping.

    *units* maps spoken unit names of one to four words to unit codes. Ordinals ("third groove")
    and "one" that stands for a thing ("this one") are no measures.
    """
    said = tuple(words)
    ish = without_ish(said)
    starts = [
        at
        for at, word in enumerate(ish)
        if word in _STARTERS
        or (word and not "a" <= word[0] <= "z" and (word[0] in "#." or word[0].isdigit()))
    ]
    counted = counts_up(said) if starts else False
    found: list[Measure] = []
    floor = 0
    for at in starts:
        if at < floor:
            continue  # inside the last one
        draft = (counted_draft(ish, at) if counted else None) or number_draft(ish, at, units)
        if draft is None:
            continue
        _behind(ish, draft, units)
        _before(ish, draft, floor, units)
        if ish is not said and ish[draft.start : draft.end] != said[draft.start : draft.end]:
            draft.hedges.append("ish")
        found.append(_finish(draft, _behind_first(ish, at, draft)))
        floor = draft.end
    return _mark_torn(said, _called_so(said, summed(said, found))) if len(found) > 1 else tuple(found)


def _called_so(words: tuple[str, ...], found: list[Measure]) -> list[Measure]:
    """ "a sixteenth and a hair, call it five sixty fourths": one value, as it is called at last."""
    out: list[Measure] = []
    for measure in found:
        called = (measure.hedge or "").startswith("call it")
        if called and out and all(w in LEADS_TO_CALL for w in words[out[-1].end : measure.start]):
            told = measure.unit_said is not None or is_far(
                out[-1].readings[0].value, measure.readings[0].value
            )
            first = measure if told else out[-1]
            of_both = replace(measure, unit=first.unit, unit_said=first.unit_said, units=first.units)
            out[-1] = replace(of_both, start=out[-1].start)
        else:
            out.append(measure)
    return out


def _behind(words: tuple[str, ...], draft: Draft, units: Units) -> None:
    """Reads on behind the number: hedge, unit, share, hedge, sign, range."""
    hedge_behind(words, draft)
    if draft.unit_said is None or draft.second:
        take_unit(words, draft, units)
    _share_behind(words, draft, units)
    hedge_behind(words, draft)
    if not draft.second:
        _range(words, draft, units)
        hedge_behind(words, draft)
    following = words[draft.end] if draft.end < len(words) else ""
    if "homophone" in draft.flags and by_so_much(words, draft.end):
        draft.flags.add("by_so_much")
    if following in SIGNS_AFTER and not draft.sign and not is_place_behind(words, draft.end + 1):
        draft.sign = SIGNS_AFTER[following]
        draft.end += 1
        if words[draft.end : draft.end + 1] in ARTICLES:
            draft.flags.add("past_a_limit")


def _share_behind(words: tuple[str, ...], draft: Draft, units: Units) -> None:
    """ "Two turns and a quarter"; and "two and the half turns", which is marked."""
    if draft.end >= len(words) or words[draft.end] not in ("and", "plus"):
        return
    after = draft.end + 1
    parts = fraction_at(words, after)
    if draft.unit_said and parts is not None:
        _, digits, ends = parts
        share = Fraction(int(digits[0]) if len(digits) == 2 else 1, int(digits[-1]))
        again = unit_at(words, ends[-1], units) or share_unit(words, ends[-1], units)
        if share < 1 and (again is None or again[1] == draft.units):
            # "twelve foot pounds plus a quarter turn" names another unit: no sum.
            add_share(draft, share, again[2] if again else ends[-1])
    elif not draft.unit_said and after + 1 < len(words) and is_share_word(words[after + 1]):
        draft.flags.add("odd")
        draft.end = after + 2
        take_unit(words, draft, units)


def _range(words: tuple[str, ...], draft: Draft, units: Units) -> None:
    """The upper end: "two to three", "two or three thou"."""
    if draft.end >= len(words) - 1 or words[draft.end] not in _RANGE_WORDS:
        return
    if draft.start and words[draft.start - 1] == "all" and words[draft.end] == "to":
        return  # "all five to ten": how many are set to what
    second = read_number(words, draft.end + 1)
    if not second or second[0].how == "ordinal":
        return
    upper = Draft(second, draft.end + 1, draft.end + 1 + second[0].words)
    take_unit(words, upper, units)
    if draft.unit_said and upper.unit_said and draft.units != upper.units:
        return
    draft.hedges.append(words[draft.end])
    draft.second, draft.end = second, upper.end
    if upper.unit_said:
        draft.unit_said, draft.units = upper.unit_said, upper.units
    draft.flags |= upper.flags


def _before(words: tuple[str, ...], draft: Draft, floor: int, units: Units) -> None:
    """Takes in what leads to the number: a unit, a sign, hedges; never past word *floor*."""
    _unit_before(words, draft, floor, units)
    sounding_lead(words, draft, floor)
    if draft.readings[0].value.startswith("-"):
        draft.sign = "minus"
    if words[max(floor, draft.start - 2) : draft.start] == ("plus", "or") and draft.sign == "minus":
        draft.readings = tuple(replace(r, value=r.value.removeprefix("-")) for r in draft.readings)
        draft.start, draft.sign = draft.start - 2, ""
        draft.flags.add("plus_minus")
    elif draft.start > floor and words[draft.start - 1] == "plus" and not adds_more(words, draft):
        draft.start, draft.sign = draft.start - 1, "plus"
    bare = not draft.hedges and not draft.second
    while (length := hedge_length(words, draft.start, floor)) > 0:
        draft.hedges.insert(0, " ".join(words[draft.start - length : draft.start]))
        draft.start -= length
    if bare and draft.hedges == ["up to"] and stands_at(words, draft.start):
        draft.flags.add("stands_at")


def _unit_before(words: tuple[str, ...], draft: Draft, floor: int, units: Units) -> None:
    """ "Turn and a half" is one and a half turns; "turns out one and a half" names the unit first."""
    joined = draft.start > floor + 1 and words[draft.start - 1] in ("and", "plus")
    behind = draft.start - 1 if joined else draft.start
    for length in range(min(4, behind - floor), 0, -1):
        name = " ".join(words[behind - length : behind])
        codes = unit_codes(name, units)
        if not codes:
            continue
        if joined and draft.readings[0].how == "fraction" and (not draft.unit_said or draft.units == codes):
            draft.start = behind - length
            add_share(draft, Fraction(1), draft.end)
            draft.unit_said, draft.units = name, codes
            draft.flags.discard("tenths")
            return
        if not joined and not draft.unit_said and LEADING_UNITS.issuperset(codes):
            draft.start, draft.unit_said, draft.units = behind - length, name, codes
        return


def _behind_first(words: tuple[str, ...], at: int, draft: Draft) -> tuple[NumberReading, ...]:
    """Readings of the number without its first word, where that is a digit and the rest a number."""
    taken = draft.readings[0].words
    if taken < 2 or CLASSES.get(words[at], ("",))[0] != "DIGIT" or draft.readings[0].how not in _MAY_LEAD:
        return ()
    rest = read_number(words, at + 1)
    return rest if rest and rest[0].words == taken - 1 and rest[0].how != "ordinal" else ()


def _finish(draft: Draft, behind_first: tuple[NumberReading, ...]) -> Measure:
    flags = draft.flags | set(draft.readings[0].flags)
    if draft.second:
        flags |= set(draft.second[0].flags)
    single = len(draft.units) == 1 and "fraction_or_seconds" not in flags
    if draft.unit_said == "revs" and parse_value(draft.readings[0].value) >= _REVS:
        draft.units = ("rpm",)
    return Measure(
        readings=draft.readings,
        unit=draft.units[0] if single else None,
        unit_said=draft.unit_said,
        units=() if single else draft.units,
        start=draft.start,
        end=draft.end,
        approximate=bool(draft.hedges or draft.second),
        hedge=" … ".join(draft.hedges) or None,
        sign=draft.sign,
        second=draft.second,
        flags=tuple(sorted(flags)),
        behind_first=behind_first,
    )


def _mark_torn(words: tuple[str, ...], found: list[Measure]) -> tuple[Measure, ...]:
    """Marks neighbours that may be one number torn apart by a word heard wrong."""
    for index in range(len(found) - 1):
        if _torn(words, found[index], found[index + 1]):
            for place in (index, index + 1):
                found[place] = replace(found[place], flags=tuple(sorted({*found[place].flags, "odd"})))
    return tuple(found)


def _torn_by(word: str, following: str, then: Measure) -> bool:
    """ "a thou in a half", "six was point four": a word between that says nothing there."""
    if following == "point":
        return word in _FILLS
    return word in LIKE_AND and word != "and" and then.readings[0].how == "fraction"


def _torn(words: tuple[str, ...], first: Measure, then: Measure) -> bool:
    """ "Two and six seven", "eighteen millimeters point four", "eighteen boy four", "two in a half turns"."""
    gap = words[first.end : then.start]
    if gap in _SUMS or may_go_on(first, then):
        return True  # "one and a quarter less half a thou"
    alike = first.readings[0].value == then.readings[0].value
    if len(gap) > 1 or (alike and (gap == ("and",) or (not gap and first.unit_said is not None))):
        return False  # "point oh seven and point oh seven", "six bar six"
    if words[then.start] == "point" and (not gap or gap[0] in HESITATIONS):
        return True
    if gap and _torn_by(gap[0], words[then.start], then):
        return True
    if first.unit_said is not None:
        return not gap and then.unit_said is None and then.readings[0].how == "cardinal"  # "forty psi four"
    if not gap:
        turned = then.unit_said is not None and first.readings[0].how == "decimal"  # "4.44, quarter turn on"
        return then.readings[0].how == "fraction" and not turned
    if gap[0] in LIKE_POINT or (gap[0] in LIKE_AND and then.readings[0].how == "fraction"):
        return True
    return gap[0] == "and" and len(first.readings[0].value) == 1 and then.readings[0].how == "digits"
