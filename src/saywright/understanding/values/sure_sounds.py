"""Whether a number that ends in what sounds like a digit can be anything else: "nineteen point six too".

The limits want two decimals, so that the short one is no reading; behind "twenty to" stands a unit, so that
nothing but a digit makes sense there. "Lower sixty for" may be sixty, "two eighty to mil short" two eighty
and two millimetres short: they ask.
"""

from __future__ import annotations

from saywright.sheets.model import Characteristic
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.quantities.plausible import is_as_expected
from saywright.units import get_unit

_PREPOSITIONS = frozenset({"in"})  # units whose name is one: "twenty to in"


def is_surely_heard(measure: Measure, reading: NumberReading, unit: str, of: Characteristic) -> bool:
    """True where *reading*, whose words sound like digits, is the only way that the number makes sense."""
    if reading is not measure.readings[0] or unit != of.unit or not is_as_expected(of, reading.value):
        return False
    others = [r for r in measure.readings if r is not reading]
    if (
        "by_so_much" not in measure.flags
        and measure.unit_said not in {None, *_PREPOSITIONS}
        and get_unit(unit).kind != "turn"
    ):
        others = [r for r in others if r.words == reading.words]  # nothing but a digit stands before its unit
    return not any(is_as_expected(of, other.value) for other in others)
