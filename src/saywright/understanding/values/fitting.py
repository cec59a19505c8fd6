"""A measure and what it could be a value of → the one reading that fits best, with its doubts.

The sheet decides: a number that can be read several ways is read the way that is plausible
for the characteristic; where two ways are, it asks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from saywright.errors import InputError
from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import decimal_text, parse_value
from saywright.sheets.model import Characteristic, Sheet
from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.quantities.plausible import (
    is_far_out,
    is_inside,
    is_no_excess,
    is_plausible,
    is_told_in_thou,
)
from saywright.understanding.quantities.value_units import units_of
from saywright.understanding.values.sure_sounds import is_surely_heard
from saywright.units import convert, convertible, get_unit

PRONOUN = "pronoun"  # of a number behind a "one" that may stand for the part
_IMPLAUSIBLE = 20
_ODD_FORM = 4
_NOT_PERMITTED = 1
_FINEST = 300  # steps of the last digit within the limits
_NO_TURNS = frozenset({"group", "digits", "decimal_without_point"})  # how turns are not said
_WHOLE_ONES = frozenset({"clicks", "click", "notches", "notch", "teeth", "grooves", "groove", "clip"})
_HALVES = 2
_TOO_CLOSE = 0  # a second choice at most this much dearer is as good


@fixed
class Choice:
    """One way to read a measure as a value of a characteristic."""

    key: CharacteristicKey
    value: str
    unit: str
    in_sheet_unit: str | None
    cost: int
    flags: tuple[Flag, ...]
    fits: bool  # plausible, and in a unit of the right kind
    pronoun: bool  # the "one" before it is taken for the part
    inside: bool  # within the limits, or there are none


def best_choice(
    measure: Measure, keys: Sequence[CharacteristicKey], sheet: Sheet
) -> tuple[Choice, tuple[Choice, ...]] | None:
    """The best choice and the others that are as good; None where *keys* holds no characteristic."""
    choices: list[Choice] = []
    for key in keys:
        characteristic = sheet.find(*key)
        if characteristic is not None:
            choices.extend(_choices(measure, key, characteristic))
    if not choices:
        return None
    ranked = sorted(choices, key=lambda choice: (choice.cost, not choice.inside))
    best = ranked[0]
    rivals = tuple(
        choice
        for choice in ranked[1:]
        if choice.fits == best.fits
        and choice.cost - best.cost <= _TOO_CLOSE
        and (choice.key, _exact(choice.value)) != (best.key, _exact(best.value))
        and not (choice.key == best.key and best.inside and not choice.inside)
        and not (choice.key != best.key and _is_told_apart(best, choice, sheet))
    )
    literal = any(c.fits and c.key == best.key and not c.pronoun for c in choices)
    if best.pronoun and not literal:
        best = replace(best, flags=tuple(f for f in best.flags if f.kind != FlagKind.NUMBER_AMBIGUOUS))
    return best, rivals


def _is_told_apart(best: Choice, other: Choice, sheet: Sheet) -> bool:
    """ "top gear is twenty four": its permitted number of teeth, and a backlash far outside the limits."""
    spec, rival = sheet.find(*best.key), sheet.find(*other.key)
    if spec is None or rival is None or other.in_sheet_unit is None:
        return False
    permitted = _exact(best.value) in spec.exact_sizes
    return permitted and is_far_out(rival, _exact(other.in_sheet_unit))


def _clicks(characteristic: Characteristic) -> bool:
    """True for what is counted in whole ones, and halves between two: two point eight are no clicks."""
    return characteristic.unit == "1" and any(
        _WHOLE_ONES.intersection(n.split()) for n in characteristic.names
    )


def _exact(text: str) -> Fraction:
    return parse_value(text)


def _choices(measure: Measure, key: CharacteristicKey, characteristic: Characteristic) -> Iterable[Choice]:
    for reading in _with_point_misheard(measure.readings, characteristic):
        for unit, unit_flags, unit_cost in units_of(measure, reading, characteristic):
            value = reading.value
            try:
                exact = (
                    convert(parse_value(value), unit, characteristic.unit)
                    if convertible(unit, characteristic.unit)
                    else None
                )
            except InputError:
                continue
            fits = exact is not None and is_plausible(characteristic, exact)
            fits = fits and not (
                exact is not None and exact.denominator > _HALVES and _clicks(characteristic)
            )
            cost = reading.cost + unit_cost + _form_cost(reading, characteristic, exact)
            cost += 0 if exact is None or fits else _IMPLAUSIBLE
            flags = [*unit_flags, *_number_flags(measure, reading, unit, characteristic)]
            if exact is not None and not fits:
                flags.append(flag(FlagKind.OUTSIDE_PLAUSIBLE, _told(value, unit)))
            yield Choice(
                key=key,
                value=value,
                unit=unit,
                in_sheet_unit=_in_sheet_unit(value, unit, exact, characteristic),
                cost=cost,
                flags=tuple(flags),
                fits=fits,
                pronoun=PRONOUN in reading.flags,
                inside=exact is not None and is_inside(characteristic, exact),
            )


def _told(value: str, unit: str) -> str:
    symbol = get_unit(unit).symbol
    return f"{value} {symbol}".strip()


def _in_sheet_unit(
    value: str, unit: str, exact: Fraction | None, characteristic: Characteristic
) -> str | None:
    if exact is None:
        return None
    if unit == characteristic.unit and "/" not in value:
        return value
    return decimal_text(exact)


def _form_cost(reading: NumberReading, characteristic: Characteristic, exact: Fraction | None) -> int:
    cost = 0
    if characteristic.allowed:
        if exact is not None and exact not in characteristic.exact_sizes:
            cost += _NOT_PERMITTED
        if "." in reading.value and _are_whole(characteristic.allowed):
            cost += _ODD_FORM
    elif characteristic.unit == "1" and "." in reading.value and reading.how == "decimal_without_point":
        cost += _ODD_FORM
    if _too_fine(reading.value, characteristic):
        cost += _ODD_FORM
    if reading.how in _NO_TURNS and get_unit(characteristic.unit).kind == "turn":
        cost += _ODD_FORM
    return cost


def _too_fine(value: str, characteristic: Characteristic) -> bool:
    """True where the last digit said is beyond anything that the limits could ask for."""
    lower, upper = characteristic.exact_limits
    bound = upper if upper is not None else lower
    if bound is None or "." not in value:
        return False
    places = len(value.partition(".")[2])
    if places <= characteristic.limit_places:  # a value said as finely as the limits is none too fine
        return False
    width = upper - lower if upper is not None and lower is not None else abs(bound)
    number, by = width.as_integer_ratio()
    return bool(number * 10**places > _FINEST * by)


def _are_whole(sizes: Sequence[Decimal]) -> bool:
    return all(size == size.to_integral_value() for size in sizes)


def _with_point_misheard(
    readings: Sequence[NumberReading], characteristic: Characteristic
) -> tuple[NumberReading, ...]:
    """ "2.67" for a size stamped in whole numbers is 267 as some recognisers write it."""
    if not characteristic.allowed and characteristic.unit != "in":
        return tuple(readings)
    out = list(readings)
    for reading in readings:
        if (
            reading.how == "figures"
            and characteristic.allowed
            and re.fullmatch(r"\d\.\d\d", reading.value)
            and _are_whole(characteristic.allowed)
        ):
            out.append(
                NumberReading(
                    reading.value.replace(".", ""),
                    "figures",
                    reading.cost + 1,
                    reading.words,
                    (*reading.flags, "odd"),
                )
            )
        if characteristic.unit == "in" and reading.value.isdigit() and len(reading.value) in {3, 4}:
            unsaid = NumberReading(
                f"0.{reading.value}", "decimal_without_point", reading.cost + 2, reading.words, reading.flags
            )
            out.append(unsaid)
    return tuple(out)


def is_approximate(measure: Measure, characteristic: Characteristic) -> bool:
    """True for a value that is no exact one; not for a pressure that "is up to one point two".

    Nor for "both nuts up to ten newton metres": how tight they were done up.
    """
    if not measure.approximate:
        return False
    kind = get_unit(characteristic.unit).kind
    stands = "stands_at" in measure.flags and kind != "length"
    return not (stands or (measure.hedge == "up to" and kind == "torque"))


def _may_be_excess(measure: Measure, value: str, of: Characteristic) -> bool:
    """ "Two over the limit", "forty under": a value, or by how much it is past one."""
    if measure.sign not in {"over", "under"}:
        return False
    told = "past_a_limit" in measure.flags and measure.unit in {None, of.unit}
    return not (told and is_no_excess(parse_value(value), of, measure.sign))


def _number_flags(measure: Measure, reading: NumberReading, unit: str, of: Characteristic) -> list[Flag]:
    flags: list[Flag] = []
    value = reading.value
    of_best = set() if reading is measure.readings[0] else set(measure.readings[0].flags)
    marks = {*measure.flags} - of_best | {*reading.flags}
    if is_approximate(measure, of) or "hedged" in marks:
        flags.append(flag(FlagKind.APPROXIMATE, measure.hedge or ""))
    if PRONOUN in reading.flags:
        flags.append(flag(FlagKind.NUMBER_AMBIGUOUS, f"{value} if 'one' is the part"))
    if reading.how == "decimal_without_point":
        told = is_told_in_thou(value, of, grouped=measure.readings[0].how == "group")
        unsure = flag(FlagKind.NUMBER_AMBIGUOUS, f"{value} if a point was left out")
        flags.append(flag(FlagKind.POINT_NOT_SAID, value) if told else unsure)
    cut = "homophone" in measure.flags and reading.words < measure.readings[0].words
    if cut or ("homophone" in marks and not is_surely_heard(measure, reading, unit, of)):
        flags.append(flag(FlagKind.HOMOPHONE))
    if marks & {"odd", "plus_minus"} or _may_be_excess(measure, value, of):
        flags.append(flag(FlagKind.NUMBER_ODD))
    if reading.how == "figures":
        flags.append(flag(FlagKind.FIGURES, value))
    return flags
