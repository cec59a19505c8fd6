"""How many of what moved, told behind the movement: "rails out, both of them", "pull them both out"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.bench_words import NOT_ITS_NOUN, PARTICLES, WORKSHOP
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk


def of_all_moved(walk: Walk, index: int, said: Subject) -> bool:
    """ "rails out, both of them": how many of what was moved; no subject of its own."""
    last = walk.last
    if last is None or last.kind not in {"off", "on"} or not said.pronoun or said.components:
        return False
    after = walk.after(index)
    ends = after is None or after.kind in {"break", "mark"} or bool(after.tags & {"AND", "WITH"})
    ends = ends or (after is not None and (_says_no_more(walk, after) or _goes_away(walk, after)))
    ends = ends or (
        after is not None and after.kind == "subject" and walk.phrases[index].kind == "lead"
    )  # "out all four pump off"
    if said.selector not in {"both", "all"} and not (said.count and not said.which):
        return False
    object_end = max((s.end for s in last.subjects if s.pronoun), default=0)  # "wind them out, both of them"
    if not ends or walk.phrases[index].start - max(last.phrase.end, object_end) > 1:
        return False
    count = said.count if len(last.subjects) == 1 else None  # "in, all four": of a row how many in all
    many = [replace(s, selector=said.selector, count=count or s.count) for s in last.subjects]
    last.subjects = many or [said]
    last.cover(said.start, said.end)
    walk.glue = set()
    return True


def _says_no_more(walk: Walk, after: Phrase) -> bool:
    """ "both of them there", "pull them both out"."""
    return walk.texts[after.start] in NOT_ITS_NOUN or (
        "FILLER" in after.tags and walk.texts[after.start] in PARTICLES
    )


def _goes_away(walk: Walk, after: Phrase) -> bool:
    """ "both in the bucket": where what came off went."""
    return after.kind == "link" and not WORKSHOP.isdisjoint(walk.texts[after.end : after.end + 2])
