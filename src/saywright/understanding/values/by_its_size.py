"""What a value is of by its size alone: "goes up to three thousand four hundred"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.quantities.plausible import is_inside, is_plausible
from saywright.understanding.working import Working
from saywright.units import convert, convertible

_LARGE = 1000  # of which nothing else on a bench is


def by_its_size(
    work: Working, fact: Fact, components: Sequence[str]
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """ "goes up to three thousand four hundred", "pumped it up to six bar": the one it can be; asks.

    With a unit the only one whose limits it is within; a bare one only from a thousand on.
    """
    measure, start = fact.phrase.measure, fact.phrase.start
    if measure is None or measure.approximate or any(s.components for s in fact.subjects):
        return [], []
    if work.texts[max(0, start - 2) : start] != ("up", "to") and not fact.introduced:
        return [], []
    value = parse_value(measure.readings[0].value)
    if not measure.unit and (measure.units or value < _LARGE):
        return [], []
    able = {
        (p.id, c.id): c
        for p, c in work.sheet.characteristics()
        if c.plausible is not None and (measure.unit is None or convertible(measure.unit, c.unit))
    }
    there = {key: convert(value, measure.unit or c.unit, c.unit) for key, c in able.items()}
    near = [key for key, c in able.items() if is_plausible(c, there[key])]
    found = [key for key in near if is_inside(able[key], there[key])] if measure.unit else near
    if len(found) != 1 or any(key[0] in components for key in near):
        return [], []
    return found, [flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, "by its size alone")]
