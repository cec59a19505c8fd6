"""The other side, turned to by the last words: "mind the tray, other side", "that is bled, now the other".

Or the next one of those worked along, by its name alone: "and the bypass".
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Component, Sheet
from saywright.understanding.sides.turning import has_side, other_side, side_of, the_side
from saywright.understanding.statements import Remark
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_TALK = frozenset({BREAK, "now", "then", "next", "first", "while", "i", "am", "at", "it"})
_LEADS = frozenset({"to", "onto", "round", "over", "now", "then", "next", "do"})
_NO_TURN = frozenset(  # "same other side", "on other side": of what is told
    {"same", "as", "like", "on", "at", "from", "of", "and", "than", "this", "that", "each", "no", "again"}
)
_NOW_THE_OTHER = frozenset({("now", "the", "other", "one"), ("then", "the", "other", "one")})
_NEXT = 4  # tokens of these
_PLAIN = frozenset({"AND", "DET"})
_BY_THE_WAY = frozenset({"AND", "DET", "FILLER"})
_PLACE_AND_PART = 2  # tags
_HEADING = 6  # tags at most


def named_alone(work: Working, tags: Sequence[Tag]) -> str | None:
    """ "and the bypass", where the delivery was turned to and nothing was told right before: it is next."""
    held, before = work.hand, work.before.hand
    if not 1 < len(tags) < 4 or held is None or before is None or not before.turned:
        return None
    if not ("AND" in tags[0].tags and tags[-1].kind == "MOD" and len(tags[-1].meaning.positions) == 1):
        return None
    if any(tag.tags.isdisjoint(_PLAIN) for tag in tags[:-1]) or any(type(s) is not Remark for s in work.out):
        return None
    side = the_side(tags[-1].meaning.positions, work.sheet)
    return side if side != before.side else None


def headed_by_part(work: Working, tags: Sequence[Tag]) -> str | None:
    """ "Left carb", and nothing else: of what the job is, or what others sit in; they are what follows."""
    if not 1 < len(tags) <= _HEADING or tags[-1].kind != "PART":
        return None
    told = [tag for tag in tags if tag.kind != "BREAK" and not tag.tags & _BY_THE_WAY]
    if len(told) != _PLACE_AND_PART or [tag.kind for tag in told] != ["MOD", "PART"]:
        return None
    place, part = told[0].meaning.positions, told[1].meaning.parts or told[1].meaning.aliases
    if len(place) != 1 or not part or any(type(s) is not Remark for s in work.out):
        return None
    side = the_side(place, work.sheet)
    named = [c for p in part if (c := work.sheet.get(p)) is not None]
    houses = side is not None and all(has_side(c, side) and _houses(c, work.sheet) for c in named)
    return side if houses else None


def _houses(part: Component, sheet: Sheet) -> bool:
    """True for what other parts sit in, and for what the sheet is named for."""
    title = sheet.title.lower()
    return any(c.inside == part.id for c in sheet.component) or any(n.lower() in title for n in part.names)


def across_at_end(work: Working) -> str | None:
    """The side that the last words turn to; None where they turn to none, or the first ones did."""
    texts, held, before = work.texts, work.hand, work.before.hand
    if held is not None and held.side and held.which == held.side and tuple(texts[-_NEXT:]) in _NOW_THE_OTHER:
        part = work.sheet.get(held.component)
        other = [p for p in part.positions if p != held.which] if part is not None else []
        return other[0] if len(other) == 1 else None
    if "other" not in texts or held is None or before is None or held.turned_to != before.turned_to:
        return None
    end = len(texts)
    while end and texts[end - 1] in _TALK:
        end -= 1
    if end < 2 or texts[end - 2] != "other" or texts[end - 1] not in {"side", "end"}:
        return None
    led = texts[end - 3] if end > 2 else ""
    if led == "the":
        led = texts[end - 4] if end > 3 and texts[end - 4] in _LEADS else "on"
    side = before.side or side_of(work.sheet, before.which)
    return other_side(work.sheet, side, texts[end - 1]) if side and led not in _NO_TURN else None
