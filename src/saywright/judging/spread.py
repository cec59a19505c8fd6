"""Do repeats differ by more than the measuring explains?

A repeat that is far from the first may have been misheard, or the part may have been changed in
between. Their mean would then stand for nothing, so it asks.
"""

from __future__ import annotations

from fractions import Fraction

from saywright.judging.repeats import Group
from saywright.judging.uncertainty import Budget, budget
from saywright.judging.wording import thing, with_unit
from saywright.sheets.model import Sheet

U_FACTOR = 4  # of u without the spread: 2·U
STEPS = 5  # last digits; hands on a caliper differ by a few


def differ(group: Group, sheet: Sheet) -> bool:
    """True where the largest and smallest are further apart than 4·u and than five steps. Exact."""
    characteristic = sheet.find(group.component, group.characteristic)
    if characteristic is None or len(group.values) < 2:
        return False
    width = max(group.values) - min(group.values)
    # The finest of the values said counts for the steps: "eight point three" beside 8.09 is no excuse.
    step_squared = min(_step_squared(budget(characteristic, (said,), sheet)) for said in group.said)
    together = budget(characteristic, group.said, sheet)
    return width * width > max(U_FACTOR**2 * together.variance, STEPS**2 * step_squared)


def _step_squared(found: Budget) -> Fraction:
    """d² of the resolution step; u² of a step d is d²/12."""
    parts = (part.variance for part in found.parts if part.kind == "resolution")
    return 12 * sum(parts, Fraction(0))


def waits_for_spread(group: Group, sheet: Sheet) -> bool:
    """True while repeats differ and no person has accepted the last of them."""
    return group.readings[-1].accepted_by is None and differ(group, sheet)


def spread_question(group: Group, sheet: Sheet) -> str:
    """What is asked of repeats that differ."""
    name = thing(sheet, group.component, group.which, group.characteristic)
    values = [with_unit(reading.value, reading.unit) for reading in group.readings]
    said = f"{', '.join(values[:-1])} and {values[-1]}"
    return (
        f"The {name} was said as {said}: further apart than the measuring explains. "
        "Do all of them hold, or was one misheard or taken before a change?"
    )
