"""A value behind what went on with a part is of the part: "caliper on with new pads, nine newton metres"."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from saywright.understanding.facts import Fact, Told
from saywright.understanding.working import Working
from saywright.units import convertible, get_unit


def of_what_moved(told: Told, work: Working) -> None:
    """Give a value to the part that moved, where what came with it has no such value."""
    moved: Fact | None = None
    for fact in told.facts:
        if fact.kind in {"off", "on"} and any(s.components for s in fact.subjects):
            moved = fact if moved is None or "with" not in work.texts[: fact.start] else moved
            continue
        measure = fact.phrase.measure
        if fact.kind != "value" or moved is None or measure is None or measure.unit is None:
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


def _parts(fact: Fact) -> set[str]:
    return {c for s in fact.subjects for c in s.components}


def _has(work: Working, components: Iterable[str], unit: str) -> bool:
    """True where something is read on one of *components* in such a unit."""
    parts = map(work.sheet.get, components)
    return any(convertible(unit, c.unit) for p in parts if p is not None for c in p.characteristic)
