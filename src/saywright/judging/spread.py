"""Do repeats differ by more than the measuring explains?

A repeat that is far from the first may have been misheard, or the part may have been changed in
between. Their mean would then stand for nothing, so it asks. A single value that stands apart from
others that agree asks too, where it does so by more than a few digits.
"""

from __future__ import annotations

from fractions import Fraction

from saywright.judging.outlier import Outlier, outlier
from saywright.judging.repeats import Group, mean
from saywright.judging.uncertainty import budget, read_step
from saywright.judging.wording import thing, with_unit
from saywright.sheets.model import Characteristic, Sheet

U_FACTOR = 4  # of u without the spread: 2·U
STEPS = 5  # last digits; hands on a caliper differ by a few
STEPS_APART = 2  # last digits by which one value must stand apart from the mean of the others to ask


def differ(group: Group, sheet: Sheet) -> bool:
    """True where the largest and smallest are further apart than 4·u and than five steps. Exact."""
    characteristic, width = group.limits, group.range
    if characteristic is None or not width or _hands(group, characteristic, width):
        return False
    # The finest of the values said counts for the steps: "eight point three" beside 8.09 is no excuse.
    together = budget(characteristic, group.said, sheet)
    if width * width <= U_FACTOR**2 * together.variance:
        return False
    return width * width > STEPS**2 * _finest_squared(group, characteristic, sheet)


def _hands(group: Group, characteristic: Characteristic, width: Fraction) -> bool:
    """True where *width* is within five steps of the finest digit said. No step counts as finer than that."""
    unit = characteristic.unit
    if any(said.unit != unit or said.u is not None or "/" in said.text for said in group.said):
        return False
    decimals = max(len(said.text.partition(".")[2]) for said in group.said)
    return width <= Fraction(STEPS, 10**decimals)


def apart(group: Group, sheet: Sheet) -> Outlier | None:
    """The reading that stands apart from the others by Grubbs' test and by more than two last digits."""
    characteristic = group.limits
    found = outlier(group.values) if characteristic is not None else None
    if found is None or characteristic is None:
        return None
    away = group.values[found.index] - mean(group.values[: found.index] + group.values[found.index + 1 :])
    steps = STEPS_APART**2 * _finest_squared(group, characteristic, sheet)
    return found if away * away > steps else None


def _finest_squared(group: Group, characteristic: Characteristic, sheet: Sheet) -> Fraction:
    """d² of the finest step that one of the values was read to."""
    unlike = {(read_step(said.text), said.unit, said.u): said for said in group.said}
    return min(budget(characteristic, (said,), sheet).step_squared for said in unlike.values())


def waits_for_spread(group: Group, sheet: Sheet) -> bool:
    """True while repeats differ or one stands apart, and no person has accepted the last of them."""
    if len(group.readings) < 2 or group.readings[-1].accepted_by is not None:
        return False
    return differ(group, sheet) or apart(group, sheet) is not None


def unsettled(group: Group, sheet: Sheet) -> bool:
    """True while a person has to say something of a reading, or of the spread of several."""
    return group.provisional or waits_for_spread(group, sheet)


def spread_question(group: Group, sheet: Sheet) -> str:
    """What is asked of repeats that differ."""
    name = thing(sheet, *group.thing)
    values = [with_unit(reading.value, reading.unit) for reading in group.readings]
    said = f"{', '.join(values[:-1])} and {values[-1]}"
    found = apart(group, sheet)
    if found is not None:
        test = f"Grubbs' test at 5 %: {found.g:.2f} against {found.critical:.2f}"
        return (
            f"The {name} was said as {said}: {values[found.index]} stands apart from the others ({test}). "
            "Was it misheard or taken before a change?"
        )
    return (
        f"The {name} was said as {said}: further apart than the measuring explains. "
        "Do all of them hold, or was one misheard or taken before a change?"
    )
