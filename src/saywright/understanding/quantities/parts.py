"""The parts of a measure: its number, its unit, the upper end of its range."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final, Literal

from saywright.quantity import parse_value
from saywright.understanding.numbers.ranked import NumberReading, Readings, exact_text, read_number
from saywright.understanding.numbers.words import DENOMINATORS, HOMOPHONES
from saywright.understanding.quantities.nouns import (
    behind_point,
    behind_thing,
    is_no_number,
    is_noun,
    is_thing,
    says_decimals,
    subject,
)
from saywright.understanding.quantities.sounding import both_ways, is_too_much
from saywright.understanding.quantities.units import Units, share_unit, unit_at
from saywright.understanding.quantities.words import (
    COUNTED_BY_ARTICLE,
    POINT_NOUN,
    POINTING,
    VALUE_VERBS,
)

Sign = Literal["", "plus", "minus", "over", "under"]

_DIGIT_WORDS: Final = {"1": "one", "2": "two", "3": "three", "4": "four", "6": "six", "8": "eight"}
_ATTACHED: Final = re.compile(r"(#?\d{1,12}(?:\.\d{1,12})?)([a-z%°]+)")
_BROKEN: Final = re.compile(r"#?(\d{1,12}(?:\.\d{1,12})?)")
_WRITTEN_ORDINAL: Final = re.compile(r"\d+(st|nd|rd|th)s?")
_LONE: Final = frozenset({"ate", "tree", "won"})  # sound like a digit, and are no small words of talk
_PASSED_OVER: Final = frozenset({"missed", "skipped", "lost"})
_TENTHS: Final = frozenset({"tenth", "tenths"})


@dataclass(slots=True)
class Draft:
    """A measure while its surroundings are read. Word indices as in `Measure`."""

    readings: Readings
    start: int
    end: int
    unit_said: str | None = None
    units: tuple[str, ...] = ()  # codes its unit may be; none said: ()
    hedges: list[str] = field(default_factory=list)
    sign: Sign = ""
    second: Readings = ()
    flags: set[str] = field(default_factory=set)


def number_draft(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """The number that begins at word *at*, without what is around it; None where it is none."""
    word = words[at]
    if word in ("a", "an", "couple", "between"):
        special = _special(words, at, units)
        if special is not None:
            return special
    readings = read_number(words, at)
    if word == "point" and at > 0 and words[at - 1] in POINT_NOUN and not says_decimals(words, at, readings):
        return None
    sounding = _sounding(words, at, readings) or _before_unit(words, at, readings, units)
    flags: set[str] = set()
    if sounding:
        readings, flags = both_ways(words, at, sounding, readings), {"homophone"}
    if not readings:
        return _written(words, at, units)
    end = at + readings[0].words
    if readings[0].how == "ordinal":
        return _share_of(words, at, end, units)
    if readings[0].how == "fraction" and is_noun(words, at, end, units):
        return None
    if word == "one" and at > 0:
        return _after_one(words, at, readings, units, flags)
    if readings[0].words == 1 and is_no_number(words, at, end, units):
        return None
    if word in ("hundred", "thousand") and at > 0 and words[at - 1] in ("few", "several", "couple", "many"):
        flags.add("odd")
    if behind_point(words, at) or (word == "point" and at > 0 and words[at - 1] in ("a", "the")):
        flags.add("odd")
    return Draft(readings, at, end, flags=flags)


def _share_of(words: Sequence[str], at: int, end: int, units: Units) -> Draft | None:
    """ "Sixteenth of an inch": a share, where an ordinal alone is a position."""
    bottom = DENOMINATORS.get(words[at]) if end == at + 1 else None
    if bottom is None or words[end : end + 1] != ("of",) or share_unit(words, end, units) is None:
        return None
    return Draft((NumberReading(exact_text(Fraction(1, bottom)), "fraction", 0, 1),), at, end)


def _special(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """A range with between, "a couple of", "a turn"."""
    if words[at] == "between":
        return _between(words, at, units)
    couple = at + 1 if words[at] == "a" and at + 1 < len(words) and words[at + 1] == "couple" else at
    if words[couple] == "couple":
        end = couple + 2 if couple + 1 < len(words) and words[couple + 1] == "of" else couple + 1
        hedge = " ".join(words[at:end])
        return Draft((NumberReading("2", "cardinal", 0, end - at),), at, end, hedges=[hedge])
    if words[at] in ("a", "an") and (at == 0 or words[at - 1] not in ("of", "half")):
        found = unit_at(words, at + 1, units)
        if found and not COUNTED_BY_ARTICLE.isdisjoint(found[1]):
            return Draft((NumberReading("1", "article", 0, 1),), at, at + 1)
    return None


def _between(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """Between A and B; where "and" occurs twice, the split with A < B holds."""
    best: Draft | None = None
    near = words[at + 1 : at + 14]
    for split, word in enumerate(near):
        middle = at + 1 + split
        if word != "and":
            continue
        low = read_number(near[:split])
        high = read_number(words, middle + 1)
        if not low or not high or "ordinal" in (low[0].how, high[0].how):
            continue
        unit = unit_at(near[:split], low[0].words, units)
        if (unit[2] if unit else low[0].words) != split:
            continue
        draft = Draft(low, at, middle + 1 + high[0].words, hedges=["between"], second=high)
        if unit:
            draft.unit_said, draft.units = unit[0], unit[1]
        if parse_value(low[0].value) < parse_value(high[0].value):
            return draft
        best = best or draft
    return best


def _sounding(words: Sequence[str], at: int, plain: Readings) -> Readings:
    """Readings that take in a word which sounds like a digit; () where none does."""
    end = at + (plain[0].words if plain else 0)
    near = words[end : end + 2]
    if HOMOPHONES.keys().isdisjoint(near) or is_too_much(words, end):
        return ()
    sounding = read_number(words, at, homophones=True)
    longer = sounding and (not plain or sounding[0].words > plain[0].words)
    return sounding if longer else ()


def _before_unit(words: Sequence[str], at: int, plain: Readings, units: Units) -> Readings:
    """ "twenty to newton meters": what sounds like a digit stands between a number and its unit."""
    end = at + (plain[0].words if plain else 0)
    if not plain and at and words[at] in _LONE and words[at - 1] in VALUE_VERBS:
        return read_number((_DIGIT_WORDS[HOMOPHONES[words[at]]],)) if unit_at(words, at + 1, units) else ()
    if not plain or end >= len(words) or words[end] not in HOMOPHONES or not unit_at(words, end + 1, units):
        return ()
    digit = _DIGIT_WORDS[HOMOPHONES[words[end]]]
    sounding = read_number((*words[at:end], digit))
    return sounding if sounding and sounding[0].words == end + 1 - at else ()


def sounding_lead(words: Sequence[str], draft: Draft, floor: int) -> None:
    """Adds the readings in which the word before the number was a digit: "to sixty seven" as 267.

    They are dear, since to and for mostly are what they seem; "too" and "to and a half" ask.
    """
    joined = draft.start > floor and words[draft.start - 1] == "and" and draft.readings[0].how == "fraction"
    lead = draft.start - 2 if joined else draft.start - 1
    end = draft.start + draft.readings[0].words
    if joined:
        draft.flags.add("odd")
    if lead < floor or words[lead] not in HOMOPHONES:
        return
    digit = _DIGIT_WORDS[HOMOPHONES[words[lead]]]
    sounding = read_number((digit, *words[lead + 1 : end]), homophones=True)
    if not sounding or sounding[0].words != end - lead or sounding[0].how == "ordinal":
        return
    stated = lead > floor and words[lead - 1] == "is" and words[lead + 1] == "point"  # "it's to point nine"
    if joined or stated or words[lead] not in ("to", "for"):
        draft.flags.add("homophone")
    draft.readings += tuple(
        replace(
            reading,
            cost=reading.cost + 3,
            words=draft.readings[0].words,
            flags=tuple(sorted({*reading.flags, "homophone"})),
        )
        for reading in sounding
    )


def _written(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """Figures with their unit attached ("18.42mm"), or figures that cannot be read whole ("4.3.64.")."""
    word = words[at]
    if not word or _WRITTEN_ORDINAL.fullmatch(word):
        return None
    attached = _ATTACHED.fullmatch(word)
    if attached and (codes := ("%",) if attached[2] == "%" else units.get(attached[2], ())):
        reading = NumberReading(attached[1].lstrip("#"), "figures", 0, 1, ("figures",))
        return Draft((reading,), at, at + 1, unit_said=attached[2], units=codes)
    broken = _BROKEN.match(word)
    if broken is None:
        return None
    return Draft((NumberReading(broken[1], "figures", 5, 1, ("figures", "odd")),), at, at + 1)


def _after_one(
    words: Sequence[str], at: int, readings: Readings, units: Units, flags: set[str]
) -> Draft | None:
    """A number that begins with "one", which may be the thing spoken of instead."""
    before = words[at - 1]
    end = at + readings[0].words
    if before in _PASSED_OVER:
        return None  # "I missed one make it four"
    if readings[0].words == 1:
        found = unit_at(words, end, units)
        plainly = before in VALUE_VERBS and words[end : end + 1] not in (("of",), ("more",), ("another",))
        if not plainly and (
            before in POINTING or (found is None and is_thing(words, at)) or subject(words, end, units)
        ):
            return None
        return Draft(readings, at, end, flags=flags | ({"odd"} if behind_point(words, at) else set()))
    of_number, start, odd = behind_thing(words, at, readings)
    return Draft(of_number, start, start + of_number[0].words, flags=flags | ({"odd"} if odd else set()))


def take_unit(words: Sequence[str], draft: Draft, units: Units) -> None:
    """Adds the unit said behind the number."""
    shares = draft.readings[0].how in ("fraction", "mixed") or draft.readings[0].value.startswith("0.")
    found = share_unit(words, draft.end, units) if shares else unit_at(words, draft.end, units)
    if found is not None and found[0] == "um" and draft.readings[0].how != "figures":
        found = None  # spoken, it is a hesitation
    last = words[draft.end - 1]
    if found is None:
        if last in _TENTHS and not draft.units:
            draft.unit_said, draft.units = last, ("mm", "thou")
            draft.flags.add("tenths")
        _fraction_or_seconds(words, draft, units)
        return
    name, codes, end = found
    if name in ("thousandth", "thousandths", "thousands"):
        name, codes, end = _thousandths(words, draft, end, units)
    draft.unit_said, draft.units, draft.end = name, codes, end


def _thousandths(
    words: Sequence[str], draft: Draft, end: int, units: Units
) -> tuple[str, tuple[str, ...], int]:
    """Of an inch unless another length is named; "four ten thousandths" asks."""
    said = words[end - 1]
    if said == "thousands":
        draft.flags.add("odd")
    tens = words[draft.end - 1] == "ten" and draft.readings[0].how == "group"
    lead = read_number(words[draft.start : draft.end - 1]) if tens else ()
    if lead and lead[0].words == draft.end - 1 - draft.start:
        share = exact_text(parse_value(lead[0].value) / 10)
        draft.readings = (NumberReading(share, "fraction", 0, draft.end - draft.start), *draft.readings)
        draft.flags.add("odd")
    if end < len(words) and words[end] == "of":
        whole = share_unit(words, end, units)
        if whole and "mm" in whole[1]:
            return f"{said} of {whole[0]}", ("um",), whole[2]
        if whole and "in" in whole[1]:
            return f"{said} of {whole[0]}", ("thou",), whole[2]
    return said, ("thou",), end


def _fraction_or_seconds(words: Sequence[str], draft: Draft, units: Units) -> None:
    """ "Five thirty seconds" is 5/32, or a time; both are kept."""
    last = words[draft.end - 1]
    two_spans = len({reading.words for reading in draft.readings}) > 1
    if last in ("second", "seconds") and two_spans and last in units:
        draft.unit_said, draft.units = last, units[last]
        draft.flags.add("fraction_or_seconds")


def add_share(draft: Draft, share: Fraction, end: int) -> None:
    """Adds a share said behind the unit: "two turns and a quarter"."""
    sums = tuple(
        replace(
            reading,
            value=exact_text(parse_value(reading.value) + share),
            how="mixed",
            words=end - draft.start,
        )
        for reading in draft.readings
        if "." not in reading.value or reading.how == "fraction"
    )
    if not sums:
        draft.flags.add("odd")
    draft.readings, draft.end = sums or draft.readings, end


def is_share_word(word: str) -> bool:
    """True for half, quarter, quarters."""
    return word in DENOMINATORS and DENOMINATORS[word] in (2, 4)
