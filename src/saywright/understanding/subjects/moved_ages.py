""" "Oil seals in, new ones", "shoes on, the old ones": how old what moved is, told behind it."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk


def aged_apart(walk: Walk, index: int, last: Fact, said: Subject) -> bool:
    """ "left shoes on, new ones": how old they are, behind the comma and alone there; or at which places."""
    bare = not (len(said.which) == 1 or said.selector or said.count) and (said.single or said.many)
    after = walk.after(index)
    alone = after is None or after.kind == "break" or bool(after.tags & {"AND", "BUT"})
    return bare and alone and walk.glue == {"BREAK"} and said.start == last.phrase.end + 1


def how_old(walk: Walk, last: Fact, said: Subject) -> bool:
    """ "oil seals in first, new ones all three"."""
    if said.age is None or any(s.age for s in last.subjects) or last.kind != "on":
        return False
    bare = last.phrase.end == said.start and not (said.which or said.selector or said.count)
    if not (said.single or said.many or bare):  # "valve's on new"
        return False
    last.subjects = [replace(s, age=said.age) for s in last.subjects]
    cover_told(walk, last, said)
    return True


def cover_told(walk: Walk, last: Fact, said: Subject) -> None:
    """Count the words of *said* to *last*; nothing leads from them to what follows."""
    last.cover(said.start, said.end)
    walk.glue = set()
