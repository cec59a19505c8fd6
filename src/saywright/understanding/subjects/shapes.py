""" "Scored in a ring", "has a ring worn in it": a shape of what was found, where a part is called so."""

from __future__ import annotations

from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.holders import belongs
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk

_OWNS = frozenset({"has", "have", "had", "got"})
_ONE = frozenset({"a", "an", "some"})


def is_shape(walk: Walk, index: int, said: Subject) -> bool:
    """ "the left one has a ring worn in it": behind "has a", the short name of a part of another place."""
    before, phrase, after = walk.before(index), walk.phrases[index], walk.after(index)
    if _so_shaped(walk, phrase, before):
        return True
    if not said.alias or walk.used or after is None or after.kind != "finding":
        return False
    owns = before is not None and walk.texts[before.end - 1] in _OWNS
    if not owns or walk.texts[phrase.start] not in _ONE or after.start != phrase.end:
        return False
    if not walk.current:  # "tip's got a ring worn in it": of the part in hand
        return before is not None and _place_on_it(walk, before)
    holder = walk.current[-1]
    return not any(belongs(walk.sheet, c, holder) for c in said.components)


def _so_shaped(walk: Walk, phrase: Phrase, before: Phrase | None) -> bool:
    """ "its face is scored in a ring": the shape of what was found."""
    last = walk.last
    if last is None or last.kind != "finding" or before is None or before.start != last.phrase.end:
        return False
    return walk.texts[before.start : phrase.start + 1] == ("in", "a")


def _place_on_it(walk: Walk, verb: Phrase) -> bool:
    """True where a place that every part has stands before *verb*."""
    return not PLACES_ON_IT.isdisjoint(walk.texts[max(0, verb.start - 1) : verb.end])
