"""Values of which only the end is said: "top forty eight point oh two, middle point oh three"."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.bench_words import HOLDERS, NO_NAME, PARTICLES, PLAIN
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.plausible import is_inside, is_plausible
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_BEGINS: Final = frozenset({"point", "oh", "o"})
_BETWEEN: Final = (
    NO_NAME
    | PLAIN
    | HOLDERS
    | PARTICLES
    | {BREAK, "the", "a", "an", "of", "it", "is", "for", "from", "worst", "widest", "narrowest", "tightest"}
)
_FEWEST: Final = 2  # decimals


def share_head(work: Working, fact: Fact) -> None:
    """Put the whole number of the value right before it in front of a value that begins with its point.

    Where the number alone makes no sense as another such value, and with the head is within the limits. Where
    something else of the part could be so small, it asks.
    """
    measure = fact.phrase.measure
    last = work.out[-1] if work.out else None
    if measure is None or not isinstance(last, Reading) or last.id not in work.said or measure.unit_said:
        return
    if work.texts[fact.phrase.start] not in _BEGINS or (last.unit_said or last.value.startswith("0")):
        return
    spec = work.sheet.find(last.component, last.characteristic)
    part = work.sheet.get(last.component)
    key = (last.component, last.characteristic)
    end = measure.readings[0].value.removeprefix("0.")
    whole, _, places = last.value.partition(".")
    if spec is None or part is None or len(places) < _FEWEST or len(end) != len(places) or not end.isdigit():
        return
    if fact.characteristics and key not in fact.characteristics:
        return
    if any(c != last.component for s in fact.subjects for c in s.components) or _names_else(work, last, fact):
        return
    value = f"{whole}.{end}"
    if is_plausible(spec, parse_value(f"0.{end}")) or not is_inside(spec, parse_value(value)):
        return
    other = any(
        c.id != spec.id and is_plausible(c, parse_value(f"0.{end}")) and c.formula is None
        for c in part.characteristic
    )
    if last.asks or (other and not fact.characteristics):  # in doubt itself, it clears nothing
        doubt = flag(FlagKind.NUMBER_AMBIGUOUS, f"{value} if only its end was said")
        fact.doubts = (*fact.doubts, doubt)
    words = measure.readings[0].words
    said = replace(measure, readings=(NumberReading(value, "decimal", 0, words, ()),))
    head = fact.phrase.head
    fact.phrase = replace(fact.phrase, head=head and replace(head, measure=said))
    fact.characteristics = (key,)


def _names_else(work: Working, last: Reading, fact: Fact) -> bool:
    """ "Bore thirty two point oh six, clearance point oh eight": what is no place, and not on the sheet."""
    between = work.texts[work.said[last.id].phrase.end : fact.phrase.start]
    return any(
        text not in _BETWEEN and text not in work.lexicon.words and text not in work.lexicon.positions
        for text in between
    )
