"""A side that nothing is told of: "front one on the bench", "front end thirteen mil socket".

Who names a side and tells nothing of it is going to work there, unless the words say that it is not now.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import SOMEBODY, WORKSHOP
from saywright.understanding.facts import Told
from saywright.understanding.sides.going_words import KIND_OF
from saywright.understanding.sides.place_roles import is_gone_to, is_told_about, names_place
from saywright.understanding.sides.side_turns import NOT_SAID
from saywright.understanding.sides.turning import FEW_PARTS, has_side, the_side
from saywright.understanding.sides.turns import Turn
from saywright.understanding.statements import Remark, Unclear
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_NOT_NOW = frozenset(
    ["not", "never", "yet", "rather", "always", "usually", "later", "minute", "tomorrow", "yesterday",
     "before", "after", "until", "till", "was", "were", "had", "did", "would", "could", "should",
     "if", "when", "who", "why", "where", "last", "other", "every", "each", "both", "or", "he", "she",
     "they", "customer", "owner", "probably", "maybe", "might", "may", "guess", "bet", "suppose"]
) | SOMEBODY  # fmt: skip
_ASKED = frozenset({"what", "how"})  # but for "let's see how the rear one looks"
_SEEN = frozenset({"see", "look", "looking", "about"})
_OPENING = frozenset({"like", "got", "in", "inside"})
_LIKENED = frozenset({"same", "like", "as", "than"})
_THE_WORK = frozenset({"thing", "job", "again", "drill", "procedure", "routine", "story"})
_DOERS = frozenset({"i", "we", "you"})
_REACH = 4  # tokens before the place
_LEFT = frozenset(
    ["leave", "leaving", "wait", "back", "keep", "keeping", "wants", "spare", "lamp", "torch", "light"]
)  # "I'll come back to the right", "keep the right one handy", "lamp on the right one"
_WAITS = frozenset({"will", "can", "stays"})  # "right one can stay on the bike"
_NOUNS = frozenset({"one", "end", "side", "unit", "half", "corner", "bank"})
_OPENERS = frozenset(
    {
        BREAK,
        "right",
        "now",
        "and",
        "at",
        "on",
        "the",
        "to",
        "up",
        "in",
        "this",
        "is",
        "then",
        "here",
        "what",
        "how",
    }
)
# What "goes", "looks" or "came" there is the thing, not who works on it.
_THINGS_GO = {word for word in KIND_OF if word[-1:] == "s" and word[-2:] != "ss"} | {"came"}
_GOES = {word for word, kind in KIND_OF.items() if kind in "GLO"} - _THINGS_GO
_GOES |= {"finally", "lastly", "open", "round"}
_BEGINS = frozenset({"start", "starting", "begin", "beginning", "carry", "continue"})
_TELLS_NOTHING = frozenset({"WORD", "BREAK", "LINK"})
_LEADS_AWAY = frozenset({"for", "from", "of", "with"})  # "look at that for the rear"


def spoken_side(told: Told, work: Working, tags: Sequence[Tag]) -> str | None:
    """The one side that is named and that nothing is told of; None where none is, or it is not for now."""
    held = work.hand
    if (held is not None and held.side_at == work.now and held.side is not None) or _is_not_now(work.texts):
        return None
    place = _last_place(tags, work)
    if place is None or _is_not_said(told, work.texts) or _is_told_of(place, told, work):
        return None
    side = the_side(place.meaning.positions, work.sheet)
    if side is None or not _stands_out(tags, place, work.texts):
        return None
    return side if sum(has_side(c, side) for c in work.sheet.component) >= FEW_PARTS else None


def open_turn(tags: Sequence[Tag], work: Working) -> Turn | None:
    """The turn to a side with a noun of its own, of which nothing is told: "get the front one's bowl off"."""
    at = next((i for i, tag in enumerate(tags) if tag.kind == "MOD" and tag.meaning.positions), None)
    if at is None or _is_not_now(work.texts) or not _has_noun(tags[at], work.texts):
        return None
    if _last_place(tags, work) is not tags[at] or not _stands_out(tags, tags[at], work.texts):
        return None
    if any(tag.kind == "MARK" and tag.tags & NOT_SAID for tag in tags):
        return None
    behind = [tag for tag in tags[at + 1 : at + 4] if tag.kind != "ONE"]
    if not behind and "AND" in tags[0].tags:
        return None  # "and the right one": one more of what was told
    owns = [tag.kind for tag in behind[:2]] == ["AUX", "PART"]
    if behind and not owns and (behind[0].kind not in _TELLS_NOTHING or "POS" in behind[0].tags):
        return None
    side = the_side(tags[at].meaning.positions, work.sheet)
    wide = side is not None and sum(has_side(c, side) for c in work.sheet.component) >= FEW_PARTS
    return Turn(side, at, at) if side is not None and wide else None


def _is_not_now(texts: Sequence[str]) -> bool:
    asked = not _ASKED.isdisjoint(texts) and _SEEN.isdisjoint(texts) and _OPENING.isdisjoint(texts)
    likened = next(
        (i for i in range(1, len(texts) - 1) if texts[i] == "like" and texts[i + 1] in _DOERS), None
    )
    return asked or not _NOT_NOW.isdisjoint(texts[:likened])  # "do the left like I did the right"


def _is_not_said(told: Told, texts: Sequence[str]) -> bool:
    """A mark of what is not said as it is; not in "what's the rear one like", which opens what comes."""
    marks = [m for m in told.marks if m.tags & NOT_SAID]
    opens = not _OPENING.isdisjoint(texts) and "what" in texts
    return any("QUESTION" not in m.tags or not opens for m in marks)


def _last_place(tags: Sequence[Tag], work: Working) -> Tag | None:
    """The one place that is named, or the last of two, where the first is the one worked on so far.

    Not so in "front first, then the rear".
    """
    said = [tag for tag in tags if tag.meaning.positions and names_place(tag, work.texts)]
    before = work.before.hand.side if work.before.hand is not None else None
    if len(said) == 2 and before is not None and said[0].meaning.positions == (before,):
        return said[0] if "first" in work.texts[said[0].start : said[1].start] else said[1]
    if len(said) == 2 and before is not None and said[1].meaning.positions == (before,):
        return said[0] if "like" in work.texts[said[0].end : said[1].start] else None
    return said[0] if len(said) == 1 else None


def _stands_out(tags: Sequence[Tag], place: Tag, texts: tuple[str, ...]) -> bool:
    """At the head, or with a noun of its own: not "there's a puddle on the offside".

    Nor "the left side of the bench".
    """
    end = place.end + (not _NOUNS.isdisjoint(texts[place.end : place.end + 1]))
    if texts[end : end + 1] == ("of",) and not WORKSHOP.isdisjoint(texts[end + 1 : end + _REACH]):
        return False
    if not _WAITS.isdisjoint(texts[end : end + 1]):
        return False
    led = [text for text in texts[max(0, place.start - _REACH) : place.start + 1] if text != "the"]
    away = led[-2:] if led[-3:-1] != ["on", "with"] else ()  # "I'll get on with the right"
    if not _LEADS_AWAY.isdisjoint(away) or not _LEFT.isdisjoint(led[-3:]):
        return False
    if not _LIKENED.isdisjoint(led) and _THE_WORK.isdisjoint(led):
        return False
    if not _BEGINS.isdisjoint(led) and texts[end : end + 1] != ("way",):
        return True  # "I'll start on the left, nearest the window"
    if place.end == len(texts) and not _GOES.isdisjoint(texts[: place.start]):
        return True  # "crawl round to the left", "finally the front"
    at = next(i for i, tag in enumerate(tags) if tag is place)
    if is_told_about(tags, at, texts):
        return False
    two = sum(tag.kind == "MOD" and bool(tag.meaning.positions) for tag in tags) > 1
    return two or _is_head(tags, place, texts) or _has_noun(place, texts) or is_gone_to(tags, at, texts)


def _is_told_of(place: Tag, told: Told, work: Working) -> bool:
    """ "left needle's worn": a statement is made of it, or of what stands there with a part."""
    if any(s.components and s.start <= place.start < s.end for s in told.subjects):
        return any(type(s) is not Remark for s in work.out)
    known = [work.quoted[s.id] for s in work.out if type(s) not in {Remark, Unclear} and s.id in work.quoted]
    first, last = work.word_span(place.start, place.end)
    return any(start < last and first < end for start, end in known)


def _is_head(tags: Sequence[Tag], place: Tag, texts: Sequence[str]) -> bool:
    """ "right, at the front here, thirteen mil"."""
    before = [tag for tag in tags if tag.start < place.start]
    return all("FILLER" in tag.tags or _OPENERS.issuperset(texts[tag.start : tag.end]) for tag in before)


def _has_noun(place: Tag, texts: Sequence[str]) -> bool:
    """ "the rear one", "front end"."""
    return not _NOUNS.isdisjoint(texts[place.start : place.end + 1])
