"""What holds a part went on with it: "wheel on, nut to twenty two"; a screw that is seated and set is in."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from itertools import pairwise
from typing import Final, Literal

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact, Told
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.statements import ActionNote, Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.working import Working

TORQUES: Final = frozenset({"N.m", "lbf.in", "lbf.ft"})
_BE: Final = frozenset({("is",), ("are",)})
_NOT_YET: Final = frozenset({"was", "were", "still", "before"})
_NEAR: Final = 4  # tokens from what holds it to its torque
_SEATED: Final = frozenset(
    [("in", word) for word in ("till", "until", "softly", "gently", "lightly", "easy", "soft", "light")]
)


def fit_fasteners(told: Told, work: Working) -> None:
    """ "bowl on new gasket all four screws twenty five inch pounds": what holds it went on with it.

    So did those that were off and are torqued: "carb back, both nuts nine newton metres".
    """
    on = {s.component for s in work.out if type(s) is Movement and s.movement == "fitted"}
    for fact in told.facts if on or work.stage == "as_left" else ():
        said = fact.subjects[-1] if fact.subjects else None
        if said is None or not said.components:
            continue
        held = _held_by(fact, work)
        if held is None or held in on:
            continue
        counted = said.count is not None or said.selector in {"both", "all"}
        along = _goes_on_with(fact, said, on, told, work)
        if not along and not (counted and work.texts[said.end - 1] in FASTENERS):
            continue
        needs_off = (along and not counted) or fact.kind == "doing" or not on
        if needs_off and not work.off.get(held):
            continue
        one = replace(said, components=(held,))
        part = resolve(one, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
        if part is not None:
            end = max(said.end, fact.phrase.end) if fact.kind == "doing" else said.end
            moved = Fact("on", NO_PHRASE, 0, [one], start=said.start, end=end)
            put_movements(work, moved, [part], "fitted")


def _goes_on_with(fact: Fact, said: Subject, on: AbstractSet[str], told: Told, work: Working) -> bool:
    """ "wheel on, nut to twenty two", "disc new, bolts one ten": torqued behind what it holds."""
    between = work.texts[said.end : fact.phrase.start]
    if fact.kind != "value" or len(between) > _NEAR or between[:1] in _BE or "and" in between:
        return False  # "and the drain screw's one newton metre"
    last = work.texts[said.end - 1].removesuffix("s")
    parts = [part for part in map(work.sheet.get, said.components) if part is not None]
    own = last not in FASTENERS or any(last in name for part in parts for name in part.names)
    if not own or not FASTENERS.isdisjoint(between):
        return False  # "on the piston nut, seventy": the nut of it
    read = (s for s in work.out if type(s) is Reading and work.said.get(s.id) is fact)
    if not any(s.unit in TORQUES for s in read):
        return False
    if any(f.kind == "off" for f in told.facts) or not _NOT_YET.isdisjoint(work.texts[said.end :]):
        return False  # "… were twenty four coming off", "… still to do"
    part = work.sheet.get(said.components[0])
    if said.count is None and part is not None and work.off.get(part.id, 0) != part.count:
        return False  # how many is open
    return any(s.start < said.start and not on.isdisjoint(s.components) for s in told.subjects)


def _held_by(fact: Fact, work: Working) -> str | None:
    """The part that a torque was read on, or that was tightened; None where it is none or several."""
    read = {s.component for s in work.out if type(s) is Reading and work.said.get(s.id) is fact}
    done = {s.component for s in work.out if type(s) is ActionNote and s.action == "tighten"}
    found = read or (done if fact.kind == "doing" and done <= set(fact.subjects[-1].components) else set())
    return next(iter(found)) if len(found) == 1 else None


def fit_seated(work: Working) -> None:
    """ "mixture screw in till it touches and back out one and a half": it was off, and is in."""
    if not work.out or work.stage != "as_left" or not work.off:
        return
    read = [s for s in work.out if type(s) is Reading and s.unit == "turn" and s.stage == "as_left"]
    off = [s for s in read if work.off.get(s.component or "")]
    before = work.before.recent[-1] if work.before.recent else ()
    if not off or not any(
        _is_seated(one) for one in (work.texts, *(s.heard.lower().split() for s in before))
    ):
        return
    age: Literal["new"] | None = "new" if "new" in work.texts and len(off) == 1 else None
    for one in off:
        part = Part(one.component or "", (one.which,), None, False, age, ())
        put_movements(work, Fact("on", NO_PHRASE, 0, [], start=0, end=1), [part], "fitted")


def _is_seated(texts: Sequence[str]) -> bool:
    return not _SEATED.isdisjoint(pairwise(texts))
