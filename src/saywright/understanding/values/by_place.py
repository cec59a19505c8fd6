"""What a value is of by the place said with it: "rear lining", "leading is two point nine"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.discourse import Hand
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.sides.turning import of_the_side
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.working import Working

_BOTH_NEAR = 5  # times: what is read on both again is nearer to the one before than a fifth of it
_ALIKE = 2  # a value is at most so many times another that was read of its like


def side_said(work: Working, fact: Fact, owners: Sequence[Component]) -> Hand | None:
    """What is in hand, on the side that is said with the value where one of *owners* is called by it."""
    said = " ".join(which for s in fact.subjects for which in s.which)
    names = {word for c in owners for name, _ in component_names(c) for word in name}
    if work.hand is None or names.isdisjoint(said.split()):
        return work.hand
    return replace(work.hand, side=said)


def placed_elsewhere(
    work: Working, fact: Fact, subject: Subject
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """ "leading's two point nine" with the drum in hand: of the one part here that has such a place.

    It asks where nothing was read on that part before.
    """
    if like := _of_its_like(work, fact, subject):
        return like, []
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    said = {word for which in subject.which for word in which.split()}
    if held is None or not said or any(said & set(place.split()) for place in held.whiches):
        return [], []
    placed = [
        c
        for c in work.sheet.component
        if any(said <= set(p.split()) for p in c.positions) and c.characteristic
    ]
    found = of_the_side(placed, side_said(work, fact, placed))
    if len(found) > 1 and fact.phrase.measure is not None:  # "inner's two point one": no piston is so small
        found = [c for c in found if _could_be(fact.phrase.measure, c, work)]
    if len(found) != 1:
        return [], []
    keys = [(found[0].id, c.id) for c in found[0].characteristic]
    best = best_choice(fact.phrase.measure, keys, work.sheet) if fact.phrase.measure is not None else None
    if best is None or not best[0].fits:
        return [], []
    known = any(key[0] == found[0].id for key, _ in work.latest)
    return keys, [] if known else [flag(FlagKind.PART_AMBIGUOUS, f"{found[0].label}, by its place alone")]


def _could_be(measure: Measure, component: Component, work: Working) -> bool:
    best = best_choice(measure, [(component.id, c.id) for c in component.characteristic], work.sheet)
    return best is not None and best[0].fits


def same_doubt(work: Working, fact: Fact, best: Choice) -> list[Flag]:
    """ "lifts five point one on one and four point four on two": the second's part asks as the first's."""
    if any(s.components for s in fact.subjects):
        return []
    before = (s for s in reversed(work.out) if isinstance(s, Reading))
    last = next(before, None)
    if last is None or (last.component, last.characteristic) != best.key:
        return []
    return [f for f in last.flags if f.kind == FlagKind.PART_AMBIGUOUS]


def _is_of_both(subject: Subject | None, last: Reading, value: str) -> bool:
    """ "Left twenty four, right twenty one … now it's twenty three on both": read on both again."""
    if subject is None or subject.selector not in {"both", "all"} or last.which is None:
        return False
    before = parse_value(last.value)
    return abs(parse_value(value) - before) * _BOTH_NEAR <= before


def is_its_fellow(subject: Subject | None, last: Reading, best: Choice) -> bool:
    """ "front opens at one seventy … rear's one sixty": the same of the other one, in the next breath."""
    return _is_of_both(subject, last, best.value) or (
        best.fits
        and subject is not None
        and last.which not in {None, *subject.which}
        and (len(subject.which) == 1 or (subject.selector == "other" and not subject.many))
    )


def _of_its_like(work: Working, fact: Fact, subject: Subject) -> list[CharacteristicKey]:
    """ "left reservoir one eighty four", then "right one eighty five": the same is read of the next one.

    [] where the number is nothing like the value read right before.
    """
    measure, held = fact.phrase.measure, work.hand.component if work.hand is not None else None
    if measure is None or not subject.which or subject.components:
        return []
    before = (s for s in reversed((*work.last_group(), *work.out)) if type(s) is Reading)
    last = next(before, None)
    if last is None or last.component != held or last.which is None or subject.which == (last.which,):
        return []
    key = (last.component or "", last.characteristic)
    best = best_choice(measure, [key], work.sheet)
    if best is None or not best[0].fits or None in {best[0].in_sheet_unit, last.in_sheet_unit}:
        return []
    now, then = parse_value(best[0].in_sheet_unit or "0"), parse_value(last.in_sheet_unit or "0")
    return [key] if then <= _ALIKE * now and now <= _ALIKE * then else []
