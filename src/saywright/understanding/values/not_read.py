"""Values that are none for the record by what they would be of: a time it took, turns made, the limits."""

from __future__ import annotations

from typing import Final

from saywright.flags import FlagKind
from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.beside_doings import is_on_top
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.values.fitting import Choice
from saywright.understanding.working import Working
from saywright.units import get_unit

_CAME: Final = {("out",), ("off",)}
MAY_BE_SEVERAL: Final = "counted, or several values"  # not "one two three four, hold it"


_TURNED = frozenset({"on", "back", "in", "out", "down", "up"})


def why_not_read(fact: Fact, best: Choice, work: Working) -> str:
    """Why the value of *fact* is no reading of what *best* says; "" where it is one."""
    measure, behind = fact.phrase.measure, work.texts[fact.phrase.end : fact.phrase.end + 1]
    assert measure is not None
    if _is_duration(measure, best):
        return "how long it took"
    if behind and behind[0] in _TURNED and _is_how_far(measure, best):
        return "how far it was turned"
    if _counted_for_nothing(measure, best, work.sheet):
        said = bool(fact.characteristics) or work.texts[fact.phrase.start] != "one"
        return MAY_BE_SEVERAL if said else "counted aloud"
    return "limit" if _is_limits(measure, best, work.sheet) else ""


def _is_duration(measure: Measure, best: Choice) -> bool:
    """ "Taking twenty minutes to fill": a time, where what it would be of has another unit."""
    codes = [measure.unit] if measure.unit else list(measure.units)
    if not codes or any(get_unit(code).kind != "time" for code in codes):
        return False
    return any(f.kind == FlagKind.UNIT_MISMATCH for f in best.flags)


def _is_how_far(measure: Measure, best: Choice) -> bool:
    """ "Quarter of a turn on the balance screw, and now …": what was done to get there."""
    if measure.unit is None or get_unit(measure.unit).kind != "turn":
        return False
    return any(f.kind == FlagKind.UNIT_MISMATCH for f in best.flags)


def _is_limits(measure: Measure, best: Choice, sheet: Sheet) -> bool:
    """ "That's in there, two to eight": both limits of something that is read on the part, as a range."""
    component = sheet.get(best.key[0])
    if not measure.second or component is None:
        return False
    said = (parse_value(best.value), parse_value(measure.second[0].value))
    return any(c.unit == best.unit and c.exact_limits == said for c in component.characteristic)


def is_spanner(work: Working, fact: Fact, best: Choice) -> bool:
    """ "pulley nut off, that's a nineteen": what fits it; nobody says "a nineteen" of a torque."""
    spec, measure = work.sheet.find(*best.key), fact.phrase.measure
    torque = spec is not None and get_unit(spec.unit).kind == "torque" and not fact.characteristics
    plain = measure is not None and measure.unit_said is None and measure.readings[0].value.isdigit()
    return torque and plain and work.texts[fact.phrase.start - 1 : fact.phrase.start] in {("a",), ("an",)}


def is_so_many_out(work: Working, fact: Fact, best: Choice) -> bool:
    """ "cover bolts, I have seven out": how many came off; of turns it is a setting ("two out")."""
    if best.unit == "turn" or fact.characteristics or work.texts[fact.phrase.end :][:1] not in _CAME:
        return False
    measure = fact.phrase.measure
    return measure is not None and measure.unit_said is None and (small_count(measure) or 0) > 1


def _counted_for_nothing(measure: Measure, best: Choice, sheet: Sheet) -> bool:
    """ "I'll open, one two three four, hold it": counted aloud, and nothing that is counted is read."""
    spec = sheet.find(*best.key)
    return "counted" in measure.flags and measure.unit is None and spec is not None and not is_counted(spec)


def is_turned_on(work: Working, fact: Fact, best: Choice) -> bool:
    """ "another quarter turn", "back a quarter": no setting, where the sum is not told."""
    return best.unit == "turn" and not fact.characteristics and is_on_top(work.texts, fact.phrase.start)
