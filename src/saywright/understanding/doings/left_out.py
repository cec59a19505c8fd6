"""Facts whose words were left out: "the right one isn't", "there's no circlip in there"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_facts import predicate_follows
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_DO = frozenset({"do", "does", "did"})
_NOT = ("not",)
_AROUND_NOTHING = frozenset(
    ["in", "on", "there", "here", "it", "this", "one", "at", "all", "left", "fitted", "either", "side", "now"]
)
_ENDS = frozenset({"break", "mark"})


def put_unlike(walk: Walk, index: int, phrase: Phrase) -> bool:
    """ "left one's worn, right one isn't": the last finding, the other way round; False where it is none."""
    after, subject = walk.after(index), walk.current[-1] if walk.current else None
    ends = after is None or after.kind in _ENDS or (after.kind == "link" and "AND" in after.tags)
    ends = ends and not (after is not None and "READS" in after.tags)  # "is stamped forty"
    if subject is None or walk.used or not ends or not (subject.components or subject.other_words):
        return False
    words = walk.texts[subject.end : phrase.end]
    denied = words[-1:] == _NOT and (words[0] in _DO or "COP" in phrase.aux_tags)
    agreed = len(words) == 1 and "COP" in phrase.aux_tags
    if len(words) > 2 or not (denied or agreed):
        return False
    fact = Fact(
        "unlike", phrase, walk.segment, [subject], negated=denied, start=subject.start, end=phrase.end
    )
    walk.out.facts.append(fact)
    walk.last, walk.used, walk.glue = fact, True, set()
    return True


def put_contrast(walk: Walk, index: int, said: Subject) -> bool:
    """ "it's the shaft that's worn, not the body": the same denied of another; False where it is none."""
    last, phrase, before = walk.last, walk.phrases[index], walk.before(index)
    if last is None or last.kind != "finding" or last.negated or not last.subjects:
        return False
    if before is None or before.end != phrase.start or walk.texts[before.start : before.end] != _NOT:
        return False
    if predicate_follows(walk, index):
        return False
    other = said if said.components else said.standing_for(last.subjects[-1])
    start, end = before.start, phrase.end
    walk.out.facts.append(
        replace(last, subjects=[other], negated=True, degree=frozenset(), start=start, end=end)
    )
    walk.glue = set()
    return True


def put_absent(walk: Walk) -> None:
    """ "there's no latch on it": a part that is not there."""
    subject = walk.denied
    if subject is None or not subject.components or walk.out.facts:
        return
    before = walk.texts[max(0, subject.start - 3) : subject.start]
    if before[:1] != ("there",) or before[-1:] != ("no",):
        return
    rest = walk.texts[subject.end :]
    clause = rest[: rest.index(BREAK)] if BREAK in rest else rest
    if not _AROUND_NOTHING.issuperset(clause):
        return
    phrase = next(p for p in walk.phrases if p.start <= subject.start < p.end)
    start, end = subject.start - len(before), subject.end
    walk.out.facts.append(Fact("absent", phrase, walk.segment, [subject], start=start, end=end))
