"""Measures of one part between which a value alone cannot choose: by what it was read with, by its size.

"Mike on the front disc, one point six eight": its thickness, since the run out is read with the dial gauge.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.tokens import spoken_form
from saywright.understanding.values.fitting import Choice
from saywright.understanding.working import Working
from saywright.units import get_unit

# Words of how something is measured that give a length.
_AS_LENGTH: Final = frozenset(
    ["level", "upside", "inverted", "across", "long", "high", "tall", "deep", "wide", "thick", "parallel",
     "caliper", "calipers", "vernier", "verniers", "rule", "ruler", "mike", "miked"]
)  # fmt: skip
_HARDLY_ANOTHER: Final = 5  # times: nearer to the one before than a fifth of it
_NO_FAULT: Final = 5  # times its upper limit is no run out or play, where it is right for another measure


def told_apart(work: Working, best: Choice, rivals: Sequence[Choice]) -> tuple[Choice, Sequence[Choice]]:
    """The choice that was meant, and the others that it may still be."""
    if not rivals:
        return best, rivals
    best, rivals = _by_instrument(work, best, rivals)
    rivals = [r for r in rivals if not (_is_no_fault(work, best, r) or _was_read_so(work, best, r))]
    return best, _of_length(work, best, rivals)


def _by_instrument(work: Working, best: Choice, rivals: Sequence[Choice]) -> tuple[Choice, Sequence[Choice]]:
    """ "and the disc, mike on it, one point six eight": of those, what the one instrument named is for."""
    said = f" {' '.join(work.texts)} "
    used = {
        i.id for i in work.sheet.instrument for name in i.names if f" {' '.join(spoken_form(name))} " in said
    }
    if len(used) != 1:
        return best, rivals
    able = [c for c in (best, *rivals) if (s := _spec(work, c)) is not None and s.instrument in used]
    return (able[0], able[1:]) if able else (best, rivals)


def _is_no_fault(work: Working, best: Choice, rival: Choice) -> bool:
    """ "disc one point seven two" is no run out: many times its limit, and a good thickness of the disc."""
    spec, other = _spec(work, best), _spec(work, rival)
    if spec is None or other is None or rival.in_sheet_unit is None or best.key[0] != rival.key[0]:
        return False
    lower, upper = other.exact_limits
    if lower is not None or upper is None or spec.exact_limits == (None, None) or not best.inside:
        return False
    return get_unit(spec.unit).kind == get_unit(other.unit).kind and (
        parse_value(rival.in_sheet_unit) > _NO_FAULT * upper > 0
    )


def _was_read_so(work: Working, best: Choice, rival: Choice) -> bool:
    """ "Left volume one eighty five" … "right one eighty seven": once more what was read last."""
    last = work.last_reading()
    if last is None or (last.component, last.characteristic) != best.key or best.key[0] != rival.key[0]:
        return False
    if best.in_sheet_unit is None or last.in_sheet_unit is None or best.key == rival.key:
        return False
    before = parse_value(last.in_sheet_unit)
    return abs(parse_value(best.in_sheet_unit) - before) * _HARDLY_ANOTHER <= before


def _of_length(work: Working, best: Choice, rivals: Sequence[Choice]) -> Sequence[Choice]:
    """ "float upside down, level with the rim, eleven point four": how high it is, not what it weighs."""
    spec = _spec(work, best)
    if spec is None or get_unit(spec.unit).kind != "length" or _AS_LENGTH.isdisjoint(work.texts):
        return rivals
    return [r for r in rivals if (s := _spec(work, r)) is not None and get_unit(s.unit).kind == "length"]


def _spec(work: Working, choice: Choice) -> Characteristic | None:
    return work.sheet.find(*choice.key)
