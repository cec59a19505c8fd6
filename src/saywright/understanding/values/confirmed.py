"""A number that can be read in more than one way, beside a value of the same kind: that tells which is meant.

"Eleven point five and again eleven four"; "primary one ninety, secondary one seventy".
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Reading
from saywright.understanding.values.fitting import PRONOUN
from saywright.understanding.working import Working

_FEWEST_DIGITS: Final = 3  # "eight five" may as well be the rest of a longer number
_NEAR: Final = Fraction(1, 4)  # of the value beside it, where the limits give no width
_APART: Final = 2  # times as far from it as the one taken the other readings are at least


def confirm_numbers(work: Working) -> None:
    """Take the ask from ambiguous numbers that a value of the same part or of its twins confirms."""
    for reading in [s for s in work.out if type(s) is Reading and s.id in work.said]:
        doubt = next((f for f in reading.flags if f.kind == FlagKind.NUMBER_AMBIGUOUS), None)
        if (
            doubt is None
            or reading.id in work.gone
            or not _is_confirmed(reading, work.said[reading.id], work)
        ):
            continue
        kept = [f for f in reading.flags if f is not doubt]
        if _how(reading, work.said[reading.id]) == "decimal_without_point":
            kept.append(flag(FlagKind.POINT_NOT_SAID, reading.value))
        work.swap(reading, reading.model_copy(update={"flags": tuple(kept)}))


def _is_confirmed(reading: Reading, fact: Fact, work: Working) -> bool:
    spec = work.sheet.find(reading.component, reading.characteristic)
    measure = fact.phrase.measure
    if spec is None or measure is None or spec.unit == "turn" or reading.unit != spec.unit:
        return False
    pointless = _how(reading, fact) == "decimal_without_point"
    if pointless and sum(letter.isdigit() for letter in reading.value) < _FEWEST_DIGITS:
        return False
    said = parse_value(reading.value)
    others = {parse_value(r.value) for r in measure.readings} - {said}
    if not pointless and not any(PRONOUN in r.flags for r in measure.readings):
        return False
    if not pointless and _is_fault(spec):
        return spec.limits[1] is None and _is_like_its_fellow(reading, said, others, work)
    for known in _alike(reading, work):
        beside = parse_value(known.in_sheet_unit or known.value)
        near = _reach(spec, beside)
        off = abs(said - beside)
        fits = off <= near and all(abs(o - beside) > max(near, _APART * off) for o in others)
        if fits and (not pointless or _places(reading.value) == _places(known.in_sheet_unit or "")):
            return True
    return False


def _is_like_its_fellow(reading: Reading, said: Fraction, others: set[Fraction], work: Working) -> bool:
    """ "Outer two point one, inner one point four" of what wears: in one breath, and not half as much."""
    here = {s.id for s in work.out}
    beside = [parse_value(o.in_sheet_unit or o.value) for o in _alike(reading, work) if o.id in here]
    return any(
        value >= 1 and said * 2 >= value and said <= value * 2 and all(o * 2 < value for o in others)
        for value in beside
    )


def _is_fault(spec: Characteristic) -> bool:
    """ "Left one point oh four" of a run out: a bad one may well be twenty times the other."""
    return sum(bound is not None for bound in spec.limits) == 1


def _how(reading: Reading, fact: Fact) -> str:
    """How the number was read that gave the value."""
    measure = fact.phrase.measure
    readings = measure.readings if measure is not None else ()
    return next((r.how for r in readings if r.value == reading.value), "")


def _alike(reading: Reading, work: Working) -> Iterator[Reading]:
    """Values of the same characteristic of the same part or of another of them that do not ask."""
    for other in work.readings():
        same = (other.component, other.characteristic) == (reading.component, reading.characteristic)
        if same and other.id != reading.id and other.in_sheet_unit is not None and not other.asks:
            yield other


def _reach(spec: Characteristic, beside: Fraction) -> Fraction:
    """How far from a value *beside* it another of them may be."""
    lower, upper = spec.limits
    if lower is not None and upper is not None and upper > lower:
        return Fraction(upper) - Fraction(lower)
    return abs(beside) * _NEAR


def _places(value: str) -> int:
    return len(value.partition(".")[2])
