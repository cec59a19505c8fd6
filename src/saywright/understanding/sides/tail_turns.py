"""The other side, turned to by the last words: "mind the tray, other side", "now over to the other side".

Or the next one of those worked along, by its name alone: "and the bypass".
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.sides.turning import other_side, side_of, the_side
from saywright.understanding.statements import Remark
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_TALK = frozenset({BREAK, "now", "then", "next", "first", "while", "i", "am", "at", "it"})
_LEADS = frozenset({"to", "onto", "round", "over", "now", "then", "next", "do"})
_NO_TURN = frozenset(  # "same other side", "on other side": of what is told
    {"same", "as", "like", "on", "at", "from", "of", "and", "than", "this", "that", "each", "no", "again"}
)
_PLAIN = frozenset({"AND", "DET"})


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


def across_at_end(work: Working) -> str | None:
    """The side that the last words turn to; None where they turn to none, or the first ones did."""
    texts, held, before = work.texts, work.hand, work.before.hand
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
