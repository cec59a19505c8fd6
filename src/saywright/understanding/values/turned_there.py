"""Turns told with a place alone: "low one and a half", "front carb port side two and a quarter".

Where of all that has such a place one part alone is turned, they are of that.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Characteristic, Component
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.working import Working
from saywright.units import get_unit


def turned_there(work: Working, fact: Fact) -> None:
    """Give turns the part that they are of, where nothing but its place was said, or what holds it too.

    A number is of turns by its unit or by its share of one; nothing that is in hand or named has turns or
    could have such a value, and nothing else at that place.
    """
    measure = fact.phrase.measure
    if measure is None or fact.characteristics or len(fact.subjects) != 1 or not _are_turns(measure):
        return
    subject = fact.subjects[0]
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    if len(subject.which) != 1 or (named and not subject.pronoun and any(c.characteristic for c in named)):
        return
    said = set(subject.which[0].split())
    placed = [c for c in (*named, held) if c is not None and c.characteristic and _has_place(c, said)]
    turned = [(c, t) for c in work.sheet.component if _has_place(c, said) and (t := _turns(c)) is not None]
    if placed or len(turned) != 1 or (held is not None and _turns(held) is not None):
        return
    owner, turns = turned[0]
    there = [(c.id, one.id) for c in work.sheet.component if _has_place(c, said) for one in c.characteristic]
    fitting = [key for key in there if (best := best_choice(measure, [key], work.sheet)) and best[0].fits]
    if fitting == [(owner.id, turns.id)]:
        fact.subjects = [replace(subject, components=(owner.id,))]
        fact.characteristics = ((owner.id, turns.id),)


def _are_turns(measure: Measure) -> bool:
    if measure.unit is not None:
        return get_unit(measure.unit).kind == "turn"
    return not measure.units and measure.readings[0].how in {"fraction", "mixed"}


def _has_place(component: Component, said: set[str]) -> bool:
    return any(said <= set(place.split()) for place in component.positions)


def _turns(component: Component) -> Characteristic | None:
    return next((c for c in component.characteristic if get_unit(c.unit).kind == "turn"), None)
