"""Numbers beside what is read that are none of it: a fault, where it stayed, how hot it was made."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

FAULTS: Final = frozenset(
    ["lip", "step", "ridge", "groove", "chip", "crack", "pit", "dent", "burr", "nick",
     "notch", "gouge", "dimple", "hole"]
)  # fmt: skip
_BETWEEN: Final = PLACES_ON_IT | frozenset(
    ["on", "in", "at", "the", "of", "it", "its", "there", "here", "worn", "about", "that", "is", "a", "into",
     "round", "all", "by", "say", "good", "right"]
)  # fmt: skip
_BEFORE: Final = frozenset(
    ["a", "the", "this", "that", "small", "little", "slight", "bit", "of", "got", "is"]
)
_I_AM_IN: Final = frozenset(
    {("i", "am", "in"), ("i", "was", "in"), ("had", "it", "in"), ("that", "is", "in")}
)
_WHERE: Final = frozenset({"on", "off", "over", "at", "by", "from"})
_COMES: Final = frozenset(
    {"came", "come", "comes", "got", "get", "reached", "reach", "made", "makes", "happened"}
)
_STAYS: Final = frozenset(
    {"sits", "sat", "stays", "stayed", "sticks", "stuck", "stops", "stopped", "hangs", "hung"}
)
_HEATERS: Final = frozenset({"hotplate", "oven", "stove", "freezer", "microwave", "cooker", "furnace"})
_HEATER_PAIRS: Final = frozenset(
    {("hot", "plate"), ("heat", "gun"), ("induction", "heater"), ("bearing", "heater"), ("boiling", "water")}
)
_HEATED: Final = frozenset({"heated", "warmed", "baked", "heating", "warming", "heat", "warm", "bake"})
HEAT: Final = _HEATERS | _HEATED | {second for _, second in _HEATER_PAIRS}
_READS: Final = frozenset({"measures", "reads", "miked", "mikes", "measured", "shows", "says"})
_TO: Final = frozenset({"to", "at"})
_AN: Final = frozenset({"a", "about", "around", "up"})


def is_heat_for_it(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Had them on the hot plate at a hundred and ten", "warmed it to eighty": to get it on or off."""
    measure, start = fact.phrase.measure, fact.phrase.start
    kinds = {get_unit(code).kind for code in _units(measure)} if measure is not None else {""}
    if kinds and "temperature" not in kinds:
        return False
    if any(not (_HEATERS | {"plate", "heater"}).isdisjoint(texts[s.start : s.end]) for s in fact.subjects):
        return False  # a part of the sheet
    begin = max((i + 1 for i in range(start) if texts[i] == BREAK), default=0)
    clause = texts[begin:start]
    if not _READS.isdisjoint(clause):
        return False  # "out of the oven it measures three point nine"
    if not (_HEATERS.isdisjoint(clause) and _HEATER_PAIRS.isdisjoint(pairwise(clause))):
        return True
    behind = texts[fact.phrase.end : fact.phrase.end + 4]
    if behind[:2] in {("in", "the"), ("on", "the")}:
        return not _HEATERS.isdisjoint(behind[2:3]) or behind[2:4] in _HEATER_PAIRS
    at = len(clause) - 1
    while at >= 0 and clause[at] in _AN:
        at -= 1
    return at >= 0 and clause[at] in _TO and not _HEATED.isdisjoint(clause) and not fact.characteristics


def _units(measure: Measure) -> tuple[str, ...]:
    return (measure.unit,) if measure.unit else tuple(code for code in measure.units if code is not None)


def is_size_of_fault(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Lip on the edge, half a millimetre", "a groove in it point two deep": how large it is."""
    if fact.characteristics or any(s.components and not s.pronoun for s in fact.subjects):
        return False
    at = fact.phrase.start - 1
    while at >= 0 and texts[at] in _BETWEEN - FAULTS:
        at -= 1
    if at < 0 or texts[at] not in FAULTS:
        return False
    before = texts[at - 1] if at else BREAK
    mine = texts[max(0, at - 4) : at - 1] in _I_AM_IN
    if before in {"the", "a"} and at > 1 and (texts[at - 2] in _WHERE or mine):
        return False  # "no, I had it on the burr, one point eight two": where it was held
    return before == BREAK or before in _BEFORE


def never_got_there(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Cut out never came, it sits at two bar": where it stayed, and not at what it should have come to."""
    before = texts[: fact.phrase.start]
    denied = next((i for i, text in enumerate(before) if text in {"never", "not"}), None)
    if denied is None or _COMES.isdisjoint(before[denied + 1 : denied + 2]):
        return False
    return bool(denied) and not _STAYS.isdisjoint(before[denied + 2 :])
