"""Words of movement that tell how a part is held or set, and values told to be as they were found."""

from __future__ import annotations

from itertools import pairwise

from saywright.quantity import parse_value
from saywright.sheets.model import Stage
from saywright.understanding.discourse import ReadingKey
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Reading
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working

_AS_FOUND = ("as", "found")
_BE = frozenset({"is", "are"})
_IS_NOW = {("is", "now"), ("are", "now")}
_HUNG = frozenset({"hung", "hang", "hanging"})
_HOME = frozenset({"in", "on"})


def is_held_so(work: Working, fact: Fact) -> bool:
    """ "it's pressed in", while the job comes apart: nothing was off that could have been fitted."""
    said = work.texts[fact.phrase.start : fact.phrase.end]
    if fact.kind == "on" and work.stage == "as_found" and not _HUNG.isdisjoint(said):
        return True  # "caliper off, hung on a bit of wire"
    words = [text for text in work.texts[fact.phrase.start : fact.phrase.end] if text not in _BE]
    if fact.kind != "on" or work.stage != "as_found" or len(words) != 2 or any(s.age for s in fact.subjects):
        return False
    told = "COP" in fact.aux or work.texts[fact.phrase.start] in _BE
    if not told or not is_past(words[0]) or words[1] not in _HOME:
        return False
    hand = (work.hand.component,) if work.hand is not None else ()
    named = {c for s in fact.subjects for c in s.components} or set(hand)
    return bool(named) and not any(work.off.get(c, 0) for c in named)


def is_off_its_stop(work: Working, fact: Fact) -> bool:
    """ "two and a half turns and it's off the lever": turned so far, not taken off."""
    end = fact.phrase.end
    if fact.kind != "off" or work.texts[end : end + 1] != ("the",) or end + 1 >= len(work.texts):
        return False
    if any(not s.pronoun for s in fact.subjects) or work.lexicon.names(work.texts, end + 1).parts:
        return False
    return any(isinstance(s, Reading) and s.unit == "turn" for s in work.out)


def stage_by_value(work: Working, fact: Fact, key: ReadingKey, value: str, stage: Stage) -> Stage:
    """ "two and a half, as found", while the job goes back together: set to what was found, and left so."""
    end = fact.phrase.end
    ends = work.texts[end:] == _AS_FOUND and not {"was", "were"} & set(work.texts)
    first = work.first.get((key, "as_found"))
    if not ends or work.stage != "as_left" or first is None:
        return stage
    return "as_left" if parse_value(first.value) == parse_value(value) else stage


def stage_by_now(work: Working, fact: Fact, key: ReadingKey, value: str, stage: Stage) -> Stage:
    """ "The run out is now point oh four", where another was found: read after the work, and left so."""
    before = work.texts[: fact.phrase.start]
    first = work.first.get((key, "as_found"))
    if first is None or not any(pair in _IS_NOW for pair in pairwise(before)):
        return stage
    return stage if parse_value(first.value) == parse_value(value) else "as_left"
