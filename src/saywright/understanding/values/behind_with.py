"""A value behind what went on with a part is of the part: "caliper on with new pads, nine newton metres"."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from saywright.understanding.facts import Fact, Told
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.working import Working
from saywright.units import convertible, get_unit

_PUT_INTO = frozenset({"in", "into", "inside", "to"})


def of_what_moved(told: Told, work: Working) -> None:
    """Give a value to the part that moved, where what came with it has no such value."""
    moved: Fact | None = None
    for fact in told.facts:
        if fact.kind in {"off", "on"} and any(s.components for s in fact.subjects):
            moved = fact if moved is None or "with" not in work.texts[: fact.start] else moved
            continue
        measure = fact.phrase.measure
        if fact.kind != "value" or moved is None or measure is None:
            continue
        if _put_there(moved, fact, work):
            place = fact.subjects[0]
            fact.subjects = [replace(s, selector=place.selector, which=place.which) for s in moved.subjects]
            continue
        if measure.unit is None:
            continue
        between = work.texts[moved.phrase.end : fact.phrase.start]
        rare = get_unit(measure.unit).kind == "turn"  # "screws all in, new o-rings, two turns out each"
        if not (rare or "with" in between) or fact.characteristics:
            continue
        here, there = _parts(fact), _parts(moved)
        if here and not _has(work, here, measure.unit) and _has(work, there, measure.unit):
            each = work.texts[fact.phrase.end : fact.phrase.end + 1] == ("each",)
            fact.subjects = [replace(s, selector="all", many=True) if each else s for s in moved.subjects]
            fact.start = fact.phrase.start


def _put_there(moved: Fact, value: Fact, work: Working) -> bool:
    """ "New main jets in both carbs one oh sevens": read on what went in, where it could be."""
    place, measure = value.subjects[-1] if value.subjects else None, value.phrase.measure
    if (
        place is None
        or measure is None
        or value.characteristics
        or not len(moved.subjects) == len(value.subjects) == 1
    ):
        return False
    if not place.components or set(place.components) & set(moved.subjects[0].components):
        return False
    if value.introduced or place.end != value.phrase.start or work.texts[place.start - 1] not in _PUT_INTO:
        return False
    if moved.subjects[0].end > place.start or moved.subjects[0].which:
        return False
    parts = [work.sheet.get(c) for c in moved.subjects[0].components]
    keys = [(p.id, c.id) for p in parts if p is not None for c in p.characteristic]
    found = best_choice(measure, keys, work.sheet)
    return found is not None and found[0].fits


def _parts(fact: Fact) -> set[str]:
    return {c for s in fact.subjects for c in s.components}


def _has(work: Working, components: Iterable[str], unit: str) -> bool:
    """True where something is read on one of *components* in such a unit."""
    parts = map(work.sheet.get, components)
    return any(convertible(unit, c.unit) for p in parts if p is not None for c in p.characteristic)
