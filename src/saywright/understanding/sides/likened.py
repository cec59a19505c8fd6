"""Whom something is like: "clip moved to match the right" sets nothing on the right. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.sides.turning import MODEL
from saywright.understanding.tags import DEGREES, Tag

_LIKE = frozenset({"same", "like", "than"})


def cut_model(tags: tuple[Tag, ...], texts: Sequence[str]) -> tuple[Tag, ...]:
    """ "clip moved to the second groove to match the right": whom it is like is not what was set.

    Nor is it what a state was found on, or what came off: "back plate's rusty same as the nearside".
    """
    if MODEL.isdisjoint(texts) and _LIKE.isdisjoint(texts):
        return tags
    at = next((i for i, text in enumerate(texts) if text in MODEL), None)
    if at is None:
        at = _likened(tags, texts)
    behind = [tag for tag in tags if at is None or tag.start > at]
    if at is None or any(tag.kind in {"PART", "CHAR", "MEASURE"} for tag in behind):
        return tags
    return tuple(tag for tag in tags if tag.start < at or not _places_it(tag, like=texts[at] in _LIKE))


def _places_it(tag: Tag, *, like: bool) -> bool:
    """True for what tells which one; behind "same as" for "same" and "the other" too."""
    placed = tag.kind == "MOD" and bool(tag.meaning.positions)
    return placed or (like and bool(tag.tags & {"SAME", "OTHER"}))


def _likened(tags: tuple[Tag, ...], texts: Sequence[str]) -> int | None:
    """Where a likeness begins right behind what was told; None where nothing is likened so."""
    for before, tag in pairwise(tags):
        said = texts[tag.start]
        if said in _LIKE and (said != "same" or "as" in texts[tag.start + 1 : tag.end + 1]):
            told = before.kind in {"COND", "OFF", "ON"} or before.tags & DEGREES
            return tag.start if told else None
    return None
