""" "Taking twenty minutes to fill", "nothing in five minutes": how long, of what is measured in no time."""

from __future__ import annotations

from saywright.flags import FlagKind
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.values.fitting import Choice
from saywright.units import get_unit


def is_duration(measure: Measure, best: Choice) -> bool:
    """True for a time where *best*, what it would be a value of, has another unit."""
    codes = [measure.unit] if measure.unit else list(measure.units)
    if not codes or any(get_unit(code).kind != "time" for code in codes):
        return False
    return any(f.kind == FlagKind.UNIT_MISMATCH for f in best.flags)
