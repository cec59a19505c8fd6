"""What a counted part did besides: it went in before its turns were counted, or came out at their end."""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.bench_words import COUNT_TALK
from saywright.understanding.discourse import Counting
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.working import Working

_IT_IS_OUT = ("it", "is", "out")


def put_in(work: Working, head: tuple[str, ...], component: Component) -> None:
    """ "new main needle in, counting out half one …": before it was counted, it went in."""
    end = head.index("in") + 1 if "in" in head else 0
    new = "new" in head[:end]
    found = [work.lexicon.match(head, at) for at in range(end - 1)]
    named = any(f is not None and component.id in f[1].parts for f in found)
    if not named or not (new or work.off.get(component.id)) or not COUNT_TALK.issuperset(head[end:]):
        return
    said = replace(subject_of_components((component.id,), 0, end), age="new" if new else None)
    part = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
    if part is not None:
        put_movements(work, Fact("on", NO_PHRASE, 0, [said], start=0, end=end), [part], "fitted")


def comes_out(work: Working, counting: Counting) -> None:
    """ "three and a quarter and it's out": the end of the count; it came off."""
    at = next((i for i in range(len(work.texts)) if work.texts[i : i + 3] == _IT_IS_OUT), None)
    if at is None or counting.component is None or work.stage != "as_found":
        return
    came_off = counting.which is None or (counting.component, counting.which) in work.came_off
    if came_off and work.off.get(counting.component, 0):
        return
    which = (counting.which,) if counting.which is not None else ()
    said = replace(subject_of_components((counting.component,), at, at + 3), which=which)
    part = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="removed")
    if part is not None:
        put_movements(work, Fact("off", NO_PHRASE, 0, [said], start=at, end=at + 3), [part], "removed")
