"""A tool said in passing: "two carb nuts, ten mil spanner, and the carb's off"."""

from __future__ import annotations

from saywright.understanding.phrases import Phrase
from saywright.understanding.walk import Walk
from saywright.units import get_unit


def is_tool_with_size(size: Phrase | None, tool: Phrase | None) -> bool:
    """True for a length with its unit and a tool right behind it."""
    if size is None or tool is None or size.measure is None or size.end != tool.start:
        return False
    codes = [size.measure.unit] if size.measure.unit else size.measure.units
    sized = size.measure.unit_said is not None and any(get_unit(code).kind == "length" for code in codes)
    return sized and tool.kind == "mark" and "TOOL" in tool.tags


def put_tool_aside(walk: Walk, index: int) -> bool:
    """Pass over the size and the tool at phrase *index*; False where they are no aside.

    What was named before them waits for what is said of it, as if they had not been said.
    """
    size, tool = walk.phrases[index], walk.after(index)
    if not is_tool_with_size(size, tool) or not walk.current or walk.used or walk.characteristic:
        return False
    assert tool is not None  # is_tool_with_size
    behind = walk.after(index + 1)
    walk.taken.add(index + 1)
    walk.put_mark(tool.tags, tool)
    if behind is not None and behind.kind in {"subject", "lead"}:
        walk.hold(walk.current, used=True)  # "two nuts ten mil spanner float's cracked"
    return True


def is_done_with_tool(walk: Walk, index: int) -> bool:
    """ "bolts cracked with a thirteen socket": what was done to them, and no fault that was found."""
    phrase, link = walk.phrases[index], walk.after(index)
    if phrase.kind != "finding" or phrase.aux or link is None or "WITH" not in link.tags:
        return False
    behind = [p for p in walk.phrases[index + 2 : index + 5] if p.kind not in {"lead", "measure"}][:1]
    return phrase.end == link.start and bool(behind) and behind[0].kind == "mark" and "TOOL" in behind[0].tags
