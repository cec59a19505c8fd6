""" "Three same as one, forty four point nine one": a value said of one of several, like that of another."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.quantities.plausible import is_plausible

_SAME_AS = ("same", "as")


def said_as_another(texts: Sequence[str], at: int, part: Component, lexicon: Lexicon) -> bool:
    """True where the number at *at* begins "three same as one", and a value of *part* stands behind.

    Not where "one" may belong to the value: "three same as one forty".
    """
    other = texts[at + 3 : at + 4]
    if tuple(texts[at + 1 : at + 3]) != _SAME_AS or not other or other[0] not in CARDINALS:
        return False
    behind = find_measures(tuple(texts[at + 4 :]), lexicon.units)[:1]
    whole = find_measures(tuple(texts[at + 3 :]), lexicon.units)[:1]
    alone = bool(behind) and behind[0].start == 0 and _may_be(behind[0], part)
    return alone and not any(_may_be(m, part) for m in whole)


def _may_be(measure: Measure, part: Component) -> bool:
    """True where such a value can be read on *part*."""
    value = parse_value(measure.readings[0].value)
    return any(is_plausible(c, value) for c in part.characteristic)
