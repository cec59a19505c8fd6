"""A side that nothing is told of: "front one on the bench", "front end thirteen mil socket".

Who names a side and tells nothing of it is going to work there, unless the words say that it is not now.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.facts import Told
from saywright.understanding.sides.side_turns import NOT_SAID
from saywright.understanding.sides.turning import FEW_PARTS, has_side, the_side
from saywright.understanding.statements import Remark
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_NOT_NOW = frozenset(
    ["like", "same", "than", "as", "not", "never", "always", "usually", "later", "tomorrow", "yesterday",
     "before", "after", "until", "till", "was", "were", "had", "did", "would", "could", "should", "if",
     "when", "who", "why", "what", "where", "how", "leave", "leaving", "wait", "last", "other", "every",
     "each", "both", "or", "he", "she", "they", "customer", "owner"]
)  # fmt: skip
_NOUNS = frozenset({"one", "end", "side", "unit", "half", "corner", "bank"})
_OPENERS = frozenset(
    {BREAK, "right", "now", "and", "at", "on", "the", "to", "up", "in", "this", "is", "then"}
)
_LEADS_AWAY = frozenset({"for", "from", "of", "with"})  # "look at that for the rear"


def spoken_side(told: Told, work: Working, tags: Sequence[Tag]) -> str | None:
    """The one side that is named and that nothing is told of; None where none is, or it is not for now."""
    held = work.hand
    turned = held is not None and held.side_at == work.now and held.side is not None
    said = [tag for tag in tags if tag.kind == "MOD" and tag.meaning.positions]
    if turned or len(said) != 1 or not _NOT_NOW.isdisjoint(work.texts):
        return None
    if any(m.tags & NOT_SAID for m in told.marks) or not _stands_out(tags, said[0], work.texts):
        return None
    side = the_side(said[0].meaning.positions, work.sheet)
    if side is None or sum(has_side(c, side) for c in work.sheet.component) < FEW_PARTS:
        return None
    return None if _is_told_of(said[0], told, work) else side


def _stands_out(tags: Sequence[Tag], place: Tag, texts: Sequence[str]) -> bool:
    """At the head, or with a noun of its own: not "there's a puddle on the offside"."""
    led = (text for text in texts[max(0, place.start - 2) : place.start + 1] if text != "the")
    return _LEADS_AWAY.isdisjoint(led) and (_is_head(tags, place, texts) or _has_noun(place, texts))


def _is_told_of(place: Tag, told: Told, work: Working) -> bool:
    """ "left needle's worn": a part stands there, or a statement is made of it."""
    if any(s.components and s.start <= place.start < s.end for s in told.subjects):
        return True
    known = [work.quoted[s.id] for s in work.out if type(s) is not Remark and s.id in work.quoted]
    first, last = work.word_span(place.start, place.end)
    return any(start < last and first < end for start, end in known)


def _is_head(tags: Sequence[Tag], place: Tag, texts: Sequence[str]) -> bool:
    """ "right, at the front here, thirteen mil"."""
    before = [tag for tag in tags if tag.start < place.start]
    return all("FILLER" in tag.tags or _OPENERS.issuperset(texts[tag.start : tag.end]) for tag in before)


def _has_noun(place: Tag, texts: Sequence[str]) -> bool:
    """ "the rear one", "front end"."""
    return not _NOUNS.isdisjoint(texts[place.start : place.end + 1])
