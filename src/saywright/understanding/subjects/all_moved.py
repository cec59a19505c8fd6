"""How many of them, told behind: "rails out, both of them", "slides are fine, the pair of them"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import NOT_ITS_NOUN, PARTICLES, WORKSHOP
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_GOES_ON = frozenset({"break", "mark", "subject", "finding"})
_PLACE_REACH = 6  # tokens of "the front valve cover,"


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
    start, moved = walk.phrases[index].start, max(last.phrase.end, object_end)
    if not ends or (start - moved > 1 and not _from_there(walk.texts[moved - 1 : start])):
        return False
    count = said.count if len(last.subjects) == 1 else None  # "in, all four": of a row how many in all
    many = [replace(s, selector=said.selector, count=count or s.count) for s in last.subjects]
    last.subjects = many or [said]
    last.cover(said.start, said.end)
    walk.glue = set()
    return True


def found_on_all(walk: Walk, index: int, said: Subject) -> bool:
    """ "slides are fine, both of them", "they are bent, the pair of them": on how many a state was found."""
    last, after = walk.last, walk.after(index)
    if last is None or last.kind != "finding" or said.selector not in {"both", "all"}:
        return False
    if said.components or said.which or said.age is not None or last.segment != walk.segment:
        return False
    if walk.texts[said.start : said.end] == ("either",):
        return False  # "it's not seized either": that too
    if after is not None and not (after.kind in _GOES_ON or after.tags & {"AND", "BUT", "NOT", "NO"}):
        return False  # "they are fine, both had a clean"
    if walk.phrases[index].start - last.phrase.end > 1 or walk.glue & {"AND", "PREP", "OF", "WITH"}:
        return False
    if not all(_several(s) for s in last.subjects):
        return False
    last.subjects = [replace(s, selector=said.selector) for s in last.subjects] or [said]
    last.cover(said.start, said.end)
    if len(walk.current) == 1 and walk.current[0].components == last.subjects[0].components:
        walk.current = list(last.subjects)  # "… no scoring"
    walk.glue = set()
    return True


def _several(said: Subject) -> bool:
    """True for "slides", "they": more than one, and none of them told apart."""
    return not (said.which or said.selector or said.count or said.single) and (said.many or said.pronoun)


def _from_there(words: Sequence[str]) -> bool:
    """ "bolts off the front cover, all four": where they came off, and a break, stand between."""
    led = words[0] == "the" or words[1:3] == ("of", "the")
    return led and len(words) <= _PLACE_REACH and words[-1] == BREAK and BREAK not in words[:-1]


def _says_no_more(walk: Walk, after: Phrase) -> bool:
    """ "both of them there", "pull them both out"."""
    return walk.texts[after.start] in NOT_ITS_NOUN or (
        "FILLER" in after.tags and walk.texts[after.start] in PARTICLES
    )


def _goes_away(walk: Walk, after: Phrase) -> bool:
    """ "both in the bucket": where what came off went."""
    return after.kind == "link" and not WORKSHOP.isdisjoint(walk.texts[after.end : after.end + 2])
