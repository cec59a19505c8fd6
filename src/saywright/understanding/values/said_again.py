"""Values that are no new reading: "twelve is too much", "one two oh, it's a one two oh"."""

from __future__ import annotations

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_ECHOES = PAUSES | {BREAK, "it", "that", "is", "a", "yes", "i", "said", "right"}


def is_judged_again(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "twelve is too much", "one two oh, it's a one two oh": what was read before, not read again."""
    if _is_echo(work, fact, measure):
        return True
    behind = work.texts[fact.end : fact.end + 3]
    if behind[:1] not in {("is",), ("was",)} or not {"too", "not"} & set(behind[1:]):
        return False
    values = {parse_value(r.value) for r in measure.readings}
    return any(isinstance(s, Reading) and parse_value(s.value) in values for s in work.live())


def _is_echo(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "one two oh, it's a one two oh": the value said right before, once more."""
    last = next((s for s in reversed(work.out) if type(s) is Reading), None)
    before = work.said.get(last.id) if last is not None else None
    if last is None or before is None or fact.characteristics not in {(), before.characteristics}:
        return False
    if any(s.start >= fact.phrase.end for s in fact.subjects):
        return False  # of another part
    gap = work.texts[before.phrase.end : fact.phrase.start]
    alike = parse_value(measure.readings[0].value) == parse_value(last.value)
    return alike and not {"is", "said"}.isdisjoint(gap) and _ECHOES.issuperset(gap)
