"""The parts of a measure: its number, its unit, the upper end of its range."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final, Literal

from saywright.quantity import parse_value
from saywright.understanding.measure_words import (
    AFTER_PRONOUN,
    COUNTED_BY_ARTICLE,
    DESCRIBING,
    DETERMINERS,
    HALF_NOUN,
    MORE_UNITS,
    POINT_NOUN,
    POINTING,
    VALUE_FOLLOWS,
)
from saywright.understanding.number_words import DENOMINATORS, HOMOPHONES
from saywright.understanding.numbers import NumberReading, exact_text, read_number

Sign = Literal["", "plus", "minus", "over", "under"]
Units = Mapping[str, tuple[str, ...]]
Readings = tuple[NumberReading, ...]

_LONGEST_UNIT: Final = 4
_ATTACHED: Final = re.compile(r"(#?\d{1,12}(?:\.\d{1,12})?)([a-z%°]+)")
_BROKEN: Final = re.compile(r"#?(\d{1,12}(?:\.\d{1,12})?)")
_WRITTEN_ORDINAL: Final = re.compile(r"\d+(st|nd|rd|th)s?")
# Shares that are also positions: "a third one".
_POSITIONS: Final = frozenset({"third", "fourth", "fifth", "sixth", "seventh", "ninth", "twelfth", "twentieth"})
_TENTHS: Final = frozenset({"tenth", "tenths"})
_HUNDREDTHS: Final = frozenset({"hundredth", "hundredths"})


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


def unit_at(words: Sequence[str], at: int, units: Units) -> tuple[str, tuple[str, ...], int] | None:
    """(spoken name, codes, index after it) of the longest unit name at word *at*."""
    for length in range(min(_LONGEST_UNIT, len(words) - at), 0, -1):
        name = " ".join(words[at : at + length])
        codes = units.get(name)
        if codes:
            more = MORE_UNITS.get(name, ())
            return name, tuple(dict.fromkeys((*codes, *more))), at + length
    return None


def number_draft(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """The number that begins at word *at*, without what is around it; None where it is none."""
    word = words[at]
    if word in ("a", "an", "couple", "between"):
        special = _special(words, at, units)
        if special is not None:
            return special
    if word == "point" and at > 0 and words[at - 1] in POINT_NOUN:
        return None
    readings = read_number(words, at)
    sounding = _sounding(words, at, readings)
    flags: set[str] = set()
    if sounding:
        readings, flags = _both(sounding, readings), {"homophone"}
    if not readings:
        return _written(words, at, units)
    end = at + readings[0].words
    if readings[0].how == "ordinal" or (readings[0].how == "fraction" and _is_noun(words, at, end, units)):
        return None
    if word == "one" and at > 0:
        return _after_one(words, at, readings, units, flags)
    if readings[0].words == 1 and word == "one" and _subject(words, end, units):
        return None
    if _behind_point(words, at):
        flags.add("odd")
    return Draft(readings, at, end, flags=flags)


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
    for middle in range(at + 2, min(at + 14, len(words) - 1)):
        if words[middle] != "and":
            continue
        low = read_number(words[:middle], at + 1)
        high = read_number(words, middle + 1)
        if not low or not high or "ordinal" in (low[0].how, high[0].how):
            continue
        unit = unit_at(words[:middle], at + 1 + low[0].words, units)
        if (unit[2] if unit else at + 1 + low[0].words) != middle:
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
    if HOMOPHONES.keys().isdisjoint(near):
        return ()
    sounding = read_number(words, at, homophones=True)
    longer = sounding and (not plain or sounding[0].words > plain[0].words)
    return sounding if longer else ()


def _both(sounding: Readings, plain: Readings) -> Readings:
    return (*sounding, *(replace(reading, cost=reading.cost + 3) for reading in plain))


def _written(words: Sequence[str], at: int, units: Units) -> Draft | None:
    """Figures with their unit attached ("18.42mm"), or figures that cannot be read whole ("4.3.64.")."""
    word = words[at]
    if not word or _WRITTEN_ORDINAL.fullmatch(word):
        return None
    attached = _ATTACHED.fullmatch(word)
    if attached and (codes := units.get(attached[2])):
        reading = NumberReading(attached[1].lstrip("#"), "figures", 0, 1, ("figures",))
        return Draft((reading,), at, at + 1, unit_said=attached[2], units=codes)
    broken = _BROKEN.match(word)
    if broken is None:
        return None
    return Draft((NumberReading(broken[1], "figures", 5, 1, ("figures", "odd")),), at, at + 1)


def _is_noun(words: Sequence[str], at: int, end: int, units: Units) -> bool:
    """True for "the other half", "half of them", "a third one"."""
    if share_unit(words, end, units) is not None:
        return False
    word = words[end - 1]
    following = words[end] if end < len(words) else ""
    if words[at] in ("a", "an"):
        return word in _POSITIONS
    if end - at > 1:
        return False
    return (at > 0 and words[at - 1] in HALF_NOUN) or following == "of"


def _after_one(words: Sequence[str], at: int, readings: Readings, units: Units, flags: set[str]) -> Draft | None:
    """A number that begins with "one", which may be the thing spoken of instead."""
    before = words[at - 1]
    end = at + readings[0].words
    if readings[0].words == 1:
        found = unit_at(words, end, units)
        if before in POINTING or (found is None and _is_thing(words, at)) or _subject(words, end, units):
            return None
        return Draft(readings, at, end, flags=flags | ({"odd"} if _behind_point(words, at) else set()))
    if before not in POINTING and before not in DESCRIBING:
        return Draft(readings, at, end, flags=flags)
    without = read_number(words, at + 1)
    if before in POINTING and without and without[0].how != "ordinal":
        return Draft(without, at + 1, at + 1 + without[0].words, flags=flags)
    if without and at + 1 + without[0].words == end:
        readings += tuple(replace(reading, cost=reading.cost + 1) for reading in without)
        readings = tuple(sorted(readings, key=lambda reading: reading.cost))
    return Draft(readings, at, end, flags=flags)


def _is_thing(words: Sequence[str], at: int) -> bool:
    before = words[at - 1]
    if before in DESCRIBING or before in DETERMINERS:
        return True
    return at > 1 and words[at - 2] in DETERMINERS and before not in VALUE_FOLLOWS


def _subject(words: Sequence[str], end: int, units: Units) -> bool:
    """True where a bare "one" goes on as a sentence: "one is bent", "one of them", "one turns freely"."""
    following = words[end] if end < len(words) else ""
    return following in AFTER_PRONOUN or (following in ("turns", "revs") and following in units)


def _behind_point(words: Sequence[str], at: int) -> bool:
    """True where a point was said before this number and did not lead into it."""
    if at > 0 and words[at - 1] == "point":
        return at < 2 or words[at - 2] not in POINT_NOUN
    return at > 1 and words[at - 2] == "point" and words[at - 1] in ("of", "a", "the", "or", "boy")


def share_unit(words: Sequence[str], at: int, units: Units) -> tuple[str, tuple[str, ...], int] | None:
    """The unit behind a share: "half a turn", "three quarters of a turn", "half inch"."""
    direct = unit_at(words, at, units)
    if direct is not None:
        return direct
    skip = at + 1 if at < len(words) and words[at] == "of" else at
    if skip < len(words) and words[skip] in ("a", "an", "one", "the"):
        return unit_at(words, skip + 1, units)
    return None


def take_unit(words: Sequence[str], draft: Draft, units: Units) -> None:
    """Adds the unit said behind the number."""
    shares = draft.readings[0].how in ("fraction", "mixed") or draft.readings[0].value.startswith("0.")
    found = share_unit(words, draft.end, units) if shares else unit_at(words, draft.end, units)
    last = words[draft.end - 1]
    if found is None:
        if last in _TENTHS and not draft.units:
            draft.unit_said, draft.units = last, ("mm", "thou")
            draft.flags.add("tenths")
        elif last in _HUNDREDTHS and not draft.units:
            draft.unit_said, draft.units = last, ("mm", "in")
        _fraction_or_seconds(words, draft, units)
        return
    name, codes, end = found
    if name in ("thousandth", "thousandths", "thousands"):
        name, codes, end = _thousandths(words, draft, end, units)
    draft.unit_said, draft.units, draft.end = name, codes, end


def _thousandths(words: Sequence[str], draft: Draft, end: int, units: Units) -> tuple[str, tuple[str, ...], int]:
    """Of an inch unless another length is named; "four ten thousandths" asks."""
    said = words[end - 1]
    if said == "thousands":
        draft.flags.add("odd")
    lead = read_number(words[: draft.end - 1], draft.start) if words[draft.end - 1] == "ten" else ()
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
    """"Five thirty seconds" is 5/32, or a time; both are kept."""
    last = words[draft.end - 1]
    if last in ("second", "seconds") and len({reading.words for reading in draft.readings}) > 1 and last in units:
        draft.unit_said, draft.units = last, units[last]
        draft.flags.add("fraction_or_seconds")


def add_share(draft: Draft, share: Fraction, end: int) -> None:
    """Adds a share said behind the unit: "two turns and a quarter"."""
    draft.readings = tuple(
        replace(reading, value=exact_text(parse_value(reading.value) + share), how="mixed", words=end - draft.start)
        for reading in draft.readings
        if "." not in reading.value or reading.how == "fraction"
    ) or draft.readings
    draft.end = end


def is_share_word(word: str) -> bool:
    """True for half, quarter, quarters."""
    return word in DENOMINATORS and DENOMINATORS[word] in (2, 4)
