"""The rest of where a part is, behind its name: "the drive bush outlet end is worn"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.sides.split_places import one_place
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk


def places_it(walk: Walk, index: int, said: Subject) -> bool:
    """ "the drive bush outlet end is worn", "inner pad front": the rest of where the part named before is."""
    before, after = walk.before(index), walk.after(index)
    if walk.used or not walk.current or before is None or before.end != walk.phrases[index].start:
        return False
    held = walk.current[-1]
    if before.kind != "subject" or not held.which or len(held.components) != 1 or not said.which:
        return False
    if said.selector or said.age or said.count or (after is not None and after.tags & {"AND", "OR"}):
        return False
    if after is not None and after.kind == "subject" and after.start == said.end:
        return False  # "inner pad front caliper …": of what follows
    part = walk.sheet.get(held.components[0])
    whole = one_place(part, held.which, said.which) if part is not None else None
    if whole is None:
        return False
    placed = replace(held, which=(whole,), end=said.end)
    walk.current[-1] = placed
    walk.out.subjects[:] = [placed if s is held else s for s in walk.out.subjects]
    return True
