"""Values that other words of their utterance speak against, or that begin with what may be a position.

"Nine thou, no, left" of the right one; "two one point oh six" with knife one in hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.quantities.plausible import is_inside, is_plausible
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_TURNS: Final = frozenset({"no", "sorry"})  # "… nine thou, no, left"
_BETWEEN: Final = frozenset({"the", "that", "is", "it", "i", "mean", "a"})  # before the position

_LEFT_IN_IT: Final = frozenset({("left", "in"), ("left", "on"), ("left", "there"), ("of", "life")})


def doubt_beside(work: Working) -> None:
    """Readings of this utterance that other words of it speak against ask."""
    made = [s for s in work.out if type(s) is Reading and s.id in work.said and s.id not in work.gone]
    for reading in made:
        found = [
            *_put_elsewhere(reading, work.said[reading.id], work),
            *_which_first(reading, work.said[reading.id], work),
            *_fits_another(reading, work.said[reading.id], work),
            *_is_left_over(reading, work.said[reading.id], work),
        ]
        known = {f.kind for f in reading.flags}
        more = tuple(f for f in found if f.kind not in known)
        if more:
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, *more)}))


def _put_elsewhere(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """A position behind a "no", where the reading stands at another."""
    component = work.sheet.get(reading.component)
    behind = work.texts[fact.phrase.end :]
    if component is None or reading.which is None or _TURNS.isdisjoint(behind):
        return
    at = next(i for i, text in enumerate(behind) if text in _TURNS)
    said = next((text for text in behind[at + 1 :] if text not in _BETWEEN), "")
    others = {word for position in component.positions for word in position.split()} - set(
        reading.which.split()
    )
    if said in others and not _is_read_there(reading, said, work):
        yield flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: {said}?")


def _is_left_over(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """ "There's a tenth left in it", where only a run out is read: what wears down has so much left."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    behind = work.texts[fact.phrase.end : fact.phrase.end + 2]
    if spec is None or fact.characteristics or behind not in _LEFT_IN_IT:
        return
    low, high = spec.limits
    if low is None and high is not None:
        yield flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, " ".join(behind))


def _is_read_there(reading: Reading, said: str, work: Working) -> bool:
    """ "six all four, no, the rear two are seven": what was read at the place *said* has its own value."""
    key = (reading.component, reading.characteristic)
    told = [s for s in work.out if type(s) is Reading and s.id not in work.gone and s.value != reading.value]
    return any((s.component, s.characteristic) == key and said in (s.which or "").split() for s in told)


def _fits_another(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """ "Left five point oh" with the left inner pad in hand, where the left disc is so thick."""
    said = {which for s in fact.subjects if s.pronoun or not s.components for which in s.which}
    spec = work.sheet.find(reading.component, reading.characteristic)
    if len(said) != 1 or spec is None or reading.which is None or reading.in_sheet_unit is None:
        return
    value = parse_value(reading.in_sheet_unit)
    if reading.which in said or not said <= set(reading.which.split()) or is_inside(spec, value):
        return
    named = {key[0] for key in fact.characteristics}
    for part in work.sheet.component:
        if (
            part.id == reading.component
            or not said <= set(part.positions)
            or (named and part.id not in named)
        ):
            continue
        alike = [c for c in part.characteristic if c.unit == spec.unit and c.limits != (None, None)]
        if any(is_inside(c, value) for c in alike):
            yield flag(FlagKind.PART_AMBIGUOUS, f"{part.label}, {min(said)}?")
            return


def _which_first(reading: Reading, fact: Fact, work: Working) -> Iterator[Flag]:
    """A number at the head of a value may tell which of the part in hand it is of."""
    component = work.sheet.get(reading.component)
    start, end = fact.phrase.start, fact.phrase.end
    words = work.texts[start:end]
    if component is None or not _is_numbered(component) or words[:1] == () or words[0] not in CARDINALS:
        return
    if (
        any(s.components and not s.pronoun for s in fact.subjects)
        or CARDINALS.index(words[0]) >= component.count
    ):
        return
    rest = find_measures(words[1:], work.lexicon.units)
    whole = len(rest) == 1 and rest[0].start == 0 and rest[0].end == len(words) - 1 and "point" in words[2:]
    if whole and any(
        is_plausible(c, parse_value(rest[0].readings[0].value)) for c in component.characteristic
    ):
        yield flag(FlagKind.NUMBER_AMBIGUOUS, f"or number {words[0]}: {rest[0].readings[0].value}")


def _is_numbered(component: Component) -> bool:
    return component.count > 1 and not any(not p.isdigit() for p in component.positions)
