"""The other side, turned to by the last words: "mind the tray, other side", "now over to the other side"."""

from __future__ import annotations

from saywright.understanding.sides.turning import other_side, side_of
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_TALK = frozenset({BREAK, "now", "then", "next", "first", "while", "i", "am", "at", "it"})
_LEADS = frozenset({"to", "onto", "round", "over", "now", "then", "next", "do"})
_NO_TURN = frozenset(  # "same other side", "on other side": of what is told
    {"same", "as", "like", "on", "at", "from", "of", "and", "than", "this", "that", "each", "no", "again"}
)


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
