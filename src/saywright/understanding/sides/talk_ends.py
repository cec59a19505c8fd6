"""A side at the end of talk that tells nothing of any part: "parts here tuesday, left side"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Sheet
from saywright.understanding.sides.turning import has_side
from saywright.understanding.tags import MOVES, Tag

_SIDED = frozenset({"side", "end"})
_TALK = frozenset({"WORD", "BREAK", "MOD"})
_DAYS = frozenset({"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "today", "tomorrow"})
_NO_TURN = frozenset(
    ["the", "on", "at", "of", "from", "to", "for", "my", "your", "not", "was", "had", "did", "last", "is",
     "one", "done", "finished", "forgot", "check"]
)  # fmt: skip


def closes_talk(tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet) -> bool:
    """ "parts here tuesday, left side": behind talk that tells nothing of any part, a side is turned to."""
    last = tags[-1]
    if len(tags) < 2 or len(last.meaning.positions) != 1 or texts[-1] not in _SIDED:
        return False
    if not _NO_TURN.isdisjoint(texts) or not any(
        has_side(c, last.meaning.positions[0]) for c in sheet.component
    ):
        return False
    return all(_is_talk(tag, texts) for tag in tags[:-1])


def _is_talk(tag: Tag, texts: Sequence[str]) -> bool:
    if tag.kind == "MARK":
        return "STAGE" in tag.tags or _DAYS.issuperset(texts[tag.start : tag.end])
    return (tag.kind in _TALK or "FILLER" in tag.tags) and not tag.tags & MOVES
