"""Places that turn to none: "to match the right", "same as the nearside", "on this side". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.counting.counted_things import SAYS_NOTHING
from saywright.understanding.meanings import NOTHING
from saywright.understanding.sides.turning import MODEL
from saywright.understanding.tags import DEGREES, Tag
from saywright.understanding.working import Working

ENDS = frozenset({"side", "end"})
LIKE = frozenset({"same", "like", "than"})
_GO_ON = frozenset({"MEASURE", "OFF", "ON"})  # said of what stands before "on this side"
_OTHER = ("the", "other")


def cut_model(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """ "clip moved to the second groove to match the right": whom it is like is not what was set.

    Nor is it what a state was found on, or what came off: "back plate's rusty same as the nearside".
    """
    texts = work.texts
    at = next((i for i, text in enumerate(texts) if text in MODEL), None)
    if at is None:
        at = _likened(tags, texts)
    behind = [tag for tag in tags if at is None or tag.start > at]
    if at is not None and _is_value_of_both(tags, texts, at, behind):
        return tags
    if at is None or any(tag.kind in {"PART", "CHAR", "MEASURE"} for tag in behind):
        return tags
    return tuple(tag for tag in tags if tag.start < at or not _places_it(tag, like=texts[at] in LIKE))


def _is_value_of_both(tags: Sequence[Tag], texts: Sequence[str], at: int, behind: Sequence[Tag]) -> bool:
    """ "Inner pad four point one same as the outer": what was measured there too, and no more is told."""
    before = [tag for tag in tags if tag.end <= at]
    measured = bool(before) and before[-1].kind == "MEASURE" and texts[at] == "same"
    return measured and not any(tag.kind in {"COND", "OFF", "ON"} for tag in behind)


def _places_it(tag: Tag, *, like: bool) -> bool:
    """True for what tells which one; behind "same as" for "same" and "the other" too."""
    placed = tag.kind == "MOD" and bool(tag.meaning.positions)
    return placed or (like and bool(tag.tags & {"SAME", "OTHER"}))


def _likened(tags: tuple[Tag, ...], texts: Sequence[str]) -> int | None:
    """Where a likeness begins right behind what was told; None where nothing is likened so."""
    for before, tag in pairwise(tags):
        said = texts[tag.start]
        if said in LIKE and (said != "same" or "as" in texts[tag.start + 1 : tag.end + 1]):
            told = before.kind in {"COND", "OFF", "ON", "MEASURE"} or before.tags & DEGREES
            return tag.start if told else None
    return None


def cut_here(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """ "clip's in the third groove on this side": the side in hand, and no subject of its own.

    "On the other side" tells no more where no side is worked on.
    """
    texts = work.texts
    worked_on = work.hand.side if work.hand is not None else None
    here = next((i for i in range(2, len(texts)) if texts[i - 1] == "this" and texts[i] in ENDS), 0)
    at = here if here or worked_on is not None else _other_end(texts)
    begin = at - 2 - (not here)
    if not at or texts[begin] not in {"on", "at"} or any("SAME" in tag.tags for tag in tags):
        return tags
    behind = next((tag for tag in tags if tag.start > at and "FILLER" not in tag.tags), None)
    goes_on = behind is not None and (behind.kind in _GO_ON or "COP" in behind.tags)
    if not (here or goes_on):
        return tags
    said = Tag("WORD", begin, at + 1, SAYS_NOTHING) if goes_on else Tag("BREAK", begin, at + 1, NOTHING)
    return (*(t for t in tags if t.end <= begin), said, *(t for t in tags if t.start > at))


def _other_end(texts: Sequence[str]) -> int:
    """The noun of "on the other side"; 0 where it is not said."""
    return next((i for i in range(3, len(texts)) if texts[i] in ENDS and texts[i - 2 : i] == _OTHER), 0)
