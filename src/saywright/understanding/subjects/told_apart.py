"""A short name of several parts, told apart by what was said before it in the same breath.

"Bed cover first, two screws out": the screws of that cover. "Pump side, new diaphragm": the one of the pump.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import named_most_after
from saywright.understanding.walk import Walk


def told_apart(walk: Walk, index: int, said: Subject) -> Subject:
    """*said* with the one of its parts that goes with what was named before it; unchanged where none does."""
    if len(said.components) == 1:
        return _said_short(walk, index, said)
    if len(said.components) < 2 or said.which or said.selector or walk.glue & {"PREP", "OF"}:
        return said  # "out with the screw": where, or by what
    found = [c for c in map(walk.sheet.get, said.components) if c is not None]
    able = [c for c in found if c.count >= (said.count or 1)]
    if said.many or (said.count or 0) > 1:
        able = [c for c in able if c.count > 1] or able
    one = _of_side(walk, index, able) or _of_part_before(walk, able)
    return replace(said, components=(one.id,)) if one is not None else said


def _said_short(walk: Walk, index: int, said: Subject) -> Subject:
    """ "float needle out, needle's got a ridge": where a jet needle is called needle, still the float's.

    So of what is found only; what is read and what moves keeps its own name.
    """
    named = walk.out.subjects[-1] if walk.out.subjects else None
    if named is None or said.end - said.start > 1 or len(named.components) != 1 or not walk.used:
        return said
    short = walk.texts[said.start] == walk.texts[named.end - 1] and named.end - named.start > 1
    other = named.components != said.components and named.which == said.which and not named.pronoun
    own = any(s.components == said.components for s in walk.out.subjects)
    if not (short and other) or own or not _is_found_so(walk, index):
        return said
    return replace(said, components=named.components)


def _is_found_so(walk: Walk, index: int) -> bool:
    """True where nothing but a state is told of the part at *index*."""
    kinds = (p.kind for p in walk.phrases[index + 1 :] if p.kind not in {"aux", "lead"})
    return next(kinds, "") == "finding"


def _of_part_before(walk: Walk, able: list[Component]) -> Component | None:
    """ "Bed cover first, two screws out": called after the part named last, or inside it."""
    named = [s for s in walk.out.subjects if len(s.components) == 1]
    held = walk.sheet.get(named[-1].components[0]) if named else None
    if held is None or held in able:
        return None
    after = named_most_after(able, held) or [c for c in able if c.inside == held.id]
    return after[0] if len(after) == 1 else None


def _of_side(walk: Walk, index: int, able: list[Component]) -> Component | None:
    """ "Pump side, new diaphragm": the word before "side" stands in the name of one of them alone."""
    before = walk.texts[: walk.phrases[index].start]
    sides = [before[at - 1] for at in range(1, len(before)) if before[at] in {"side", "end"}]
    if not sides:
        return None
    so = [c for c in able if any(sides[-1] in name[:-1] for name, _ in component_names(c))]
    return so[0] if len(so) == 1 else None


def comes_first(walk: Walk, index: int) -> bool:
    """ "air screw first and …": right behind the one part named, and nothing is said of a first one."""
    phrase, named = walk.phrases[index], walk.current[-1:]
    if walk.texts[phrase.start : phrase.end] != ("first",) or not named or named[0].end != phrase.start:
        return False
    after = walk.after(index)
    read = after is not None and after.kind == "char" and "second" not in walk.texts  # "disc first run out …"
    return not named[0].many and (read or after is None or after.kind in {"link", "break", "subject"})
