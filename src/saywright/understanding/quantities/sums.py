"""A length told as a sum: "one and a quarter plus twelve thou", "an inch and a half less two thou". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.quantity import parse_value
from saywright.understanding.numbers.ranked import exact_text

if TYPE_CHECKING:
    from saywright.understanding.quantities.measures import Measure

_MORE_OR_LESS: Final = frozenset({"plus", "less"})
_THOUSANDTHS: Final = 1000  # of an inch


def summed(words: tuple[str, ...], found: list[Measure]) -> list[Measure]:
    """ "one and a quarter plus twelve thou": one length in inches."""
    out: list[Measure] = []
    for measure in found:
        first = out[-1] if out else None
        gap = words[first.end : measure.start] if first is not None else ()
        sign = words[first.end] if first is not None and first.end < len(words) else ""
        if (
            first is None
            or sign not in _MORE_OR_LESS
            or gap not in {(), (sign,)}
            or not _adds_up(first, measure)
        ):
            out.append(measure)
            continue
        more = parse_value(measure.readings[0].value.removeprefix("-")) / _THOUSANDTHS
        value = parse_value(first.readings[0].value) + (more if sign == "plus" else -more)
        said = replace(first.readings[0], value=exact_text(value), how="mixed")
        unit_said = first.unit_said or measure.unit_said
        out[-1] = replace(first, readings=(said,), unit="in", unit_said=unit_said, units=(), end=measure.end)
    return out


def _adds_up(first: Measure, then: Measure) -> bool:
    """True for inches in fractions and an amount in thousandths of one."""
    inches = first.unit in {None, "in"} and not (first.units or first.approximate or first.sign)
    exact = first.readings[0].how in {"fraction", "mixed"} or first.unit == "in"
    return (
        inches
        and exact
        and then.unit == "thou"
        and then.sign in {"", "plus"}
        and not (then.approximate or then.flags)
    )
