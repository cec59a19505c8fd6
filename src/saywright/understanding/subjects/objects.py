"""What stands around the object of a verb: "order a pair", "replaced the cracked seal", "out with them"."""

from __future__ import annotations

from saywright.understanding.phrases import Phrase
from saywright.understanding.walk import Walk


def a_pair(walk: Walk, at: int) -> bool:
    """ "order a pair", "order all three": of what is in hand, or was told of."""
    phrase = walk.phrases[at]
    if phrase.kind != "lead" or (at + 1 < len(walk.phrases) and walk.phrases[at + 1].kind != "break"):
        return False
    if any("BOTH" in tag.tags for tag in phrase.lead):
        return True
    so_many = next((tag.count for tag in phrase.lead if tag.count is not None), 0)
    every = so_many > 2 and any("ALL" in tag.tags for tag in phrase.lead)
    return every and len({s.components for s in walk.out.subjects if s.components}) == so_many


def describes_object(walk: Walk, index: int) -> bool:
    """ "replaced the cracked seal": how the object is, between its article and its noun."""
    phrase, lead, noun = walk.phrases[index], walk.before(index), walk.after(index)
    if phrase.kind != "finding" or phrase.aux or lead is None or noun is None or lead.kind != "lead":
        return False
    return lead.end == phrase.start and noun.kind == "subject" and noun.start == phrase.end and not noun.lead


def stuff(walk: Walk, index: int) -> bool:
    """ "polished the scratch out of the stanchion": what was done away with, not what was found."""
    after = walk.phrases[index + 1 : index + 3]
    if after and after[0].kind == "word" and walk.texts[after[0].start] in {"off", "out"}:
        return True  # "stoned the burr off the spool"
    if any(p.kind == "link" and p.tags & {"OF", "PREP"} and "AND" not in p.tags for p in after[:1]):
        return True
    return len(after) == 2 and after[0].kind == "word" and after[1].kind == "link" and "OF" in after[1].tags


def object_first(walk: Walk, index: int) -> bool:
    """ "wheel in, skewer I've swapped": what somebody did something to stands before the verb."""
    after, behind = walk.after(index), walk.after(index + 1)
    if after is None or after.kind != "doing" or walk.texts[after.start] not in {"i", "we"}:
        return False
    return behind is None or behind.kind not in {"subject", "lead"}


def out_with(walk: Walk, index: int, link: Phrase) -> bool:
    """ "out with the pair of them": at the head of a clause, what is to come out."""
    head, before = walk.phrases[index], walk.before(index)
    alone = head.end - head.start == 1 and (before is None or before.kind == "break")
    return alone and head.kind == "off" and walk.texts[link.start : link.end][:1] == ("with",)
