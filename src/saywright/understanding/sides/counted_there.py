"""The side that a row of fasteners turns to: "six bolts out of the blind end", "four off the acid head"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Sheet
from saywright.understanding.sides.turning import has_side
from saywright.understanding.statements import Movement, Remark, Statement
from saywright.understanding.tags import Tag


def counted_there(tags: Sequence[Tag], said: Sequence[Statement], sheet: Sheet) -> str | None:
    """ "six bolts out of the blind end": the side that the last of what the sheet only counts moved at.

    Also by a part that is there: "four screws off the acid head".
    """
    last = next((one for one in reversed(said) if type(one) is not Remark), None)
    spec = sheet.get(last.component) if type(last) is Movement and last.which is None else None
    if spec is None or spec.positions or spec.count < 2:
        return None
    for at in range(2, len(tags)):
        sides = (p for p in tags[at].meaning.positions if any(has_side(c, p) for c in sheet.component))
        side = next(sides, None)
        if tags[at].kind != "MOD" or side is None:
            continue
        before = at - 1 - ("DET" in tags[at - 1].tags)
        linked = tags[before].kind == "LINK" and bool(tags[before].tags & {"OF", "PREP"})
        before -= linked and "AND" not in tags[before].tags
        held = at + 1 < len(tags) and (tags[at + 1].kind == "PART" or "PLACE" in tags[at + 1].tags)
        behind = tags[at + 1 + held] if at + 1 + held < len(tags) else None
        counted = behind is not None and (behind.kind == "MEASURE" or behind.count is not None)
        ends = behind is None or behind.kind in {"BREAK", "LINK"} or "FILLER" in behind.tags
        if (tags[before].kind in {"OFF", "ON"} and ends) or (tags[before].kind == "PART" and counted):
            return side
    return None
