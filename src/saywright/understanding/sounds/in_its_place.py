"""A small bare number right behind its part: the sheet may leave nothing else that it could be."""

from __future__ import annotations

from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.plausible import is_inside
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.working import Working
from saywright.units import get_unit

_NOTHING: Final = frozenset({BREAK, "the", "a", "an"})
_ENDS: Final = frozenset({(), (BREAK,)})


def in_its_place(reading: Reading, fact: Fact, work: Working) -> bool:
    """ "governor arm clamp, ten" while it goes back together: the one value that it has, within its limits.

    Not as many as are fitted, for that may be how many; nor the torque of what was not done up yet, for a
    bare number beside a bolt that comes off is the spanner.
    """
    part, spec = work.sheet.get(reading.component), work.sheet.find(reading.component, reading.characteristic)
    value = parse_value(reading.value)
    if part is None or spec is None or spec.limits == (None, None) or not is_inside(spec, value):
        return False
    if len(part.characteristic) > 1 or 1 < part.count >= value:
        return False
    if get_unit(spec.unit).kind == "torque" and reading.stage != "as_left":
        return False
    ends = [s.end for s in fact.subjects if s.components and s.end <= fact.phrase.start]
    if not ends or work.texts[fact.phrase.end :][:1] not in _ENDS:
        return False
    own = {word for name in spec.names for word in spoken_form(name)}
    return all(text in _NOTHING or text in own for text in work.texts[max(ends) : fact.phrase.start])
