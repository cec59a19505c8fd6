"""What a value is of by its verb: "primed in forty seconds", "started it, eighteen hundred revs"."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.tokens import spoken_form
from saywright.understanding.working import Working
from saywright.units import convert, convertible, get_unit

_TAKES = frozenset({"in", "took", "takes"})
_RUNS = frozenset(["started", "starts", "start", "fired", "run", "runs", "ran", "running", "idles", "idling"])
_PURPOSES = frozenset({("to",), ("for",), ("while",), ("until",), ("till",)})  # behind how it was run
_SHORTEST_STEM = 2  # letters


def by_verb(work: Working, fact: Fact, codes: Sequence[str]) -> list[CharacteristicKey]:
    """ "primed in forty seconds": of the priming time; "started it, eighteen hundred revs": how fast it runs.

    The only one that the sheet has, and the last that is said.
    """
    start, kinds = fact.phrase.start, {get_unit(code).kind for code in codes}
    if kinds == {"time"} and start > 1 and work.texts[start - 1] in _TAKES:
        verb = _stem(work.texts[start - 2])
        named = {
            (p.id, c.id): {_stem(word) for name in c.names for word in spoken_form(name)}
            for p, c in work.sheet.characteristics()
            if could_be(fact, codes, c)
        }
        found = [key for key, words in named.items() if len(verb) > _SHORTEST_STEM and verb in words]
    elif kinds == {"speed"} and not _RUNS.isdisjoint(work.texts[:start]):
        rest = work.texts[fact.phrase.end :]
        found = [(p.id, c.id) for p, c in work.sheet.characteristics() if could_be(fact, codes, c)]
        last = (CLASSES.keys() - {"dot"}).isdisjoint(rest)  # "on the dot"
        found = found if last and rest[:1] not in _PURPOSES else []  # "… revs to warm it up"
    else:
        return []
    return found if len(found) == 1 else []


def _stem(word: str) -> str:
    """What the forms of a verb have in common: "prim-" of prime, primed, priming."""
    for ending in ("ing", "ed", "es", "s", "e"):
        if word.endswith(ending):
            return word.removesuffix(ending)
    return word


def could_be(fact: Fact, codes: Sequence[str], characteristic: Characteristic) -> bool:
    """True where the value of *fact* in one of *codes* is one that the sheet thinks possible."""
    measure = fact.phrase.measure
    value = parse_value(measure.readings[0].value) if measure is not None else Fraction(0)
    return any(
        convertible(code, characteristic.unit)
        and is_plausible(characteristic, convert(value, code, characteristic.unit))
        for code in codes
    )
