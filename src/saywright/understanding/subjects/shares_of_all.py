"""How many of several something is said of: "two of the four are sticking", "a couple are rounded"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.counting.counts import small_count
from saywright.understanding.tags import Tag


def join_shares(tags: Sequence[Tag], texts: Sequence[str]) -> tuple[Tag, ...]:
    """The same tags, with such numbers as how many they are."""
    if "of" not in texts and "couple" not in texts:
        return tuple(tags)
    out: list[Tag] = []
    at = 0
    while at < len(tags):
        tag = tags[at]
        if _of_all(tags[at : at + 3], texts):
            count = small_count(tag.measure)
            out.append(replace(tag, kind="MOD", measure=None, count=count, end=tags[at + 2].end))
            at += 3
            continue
        out.append(replace(tag, kind="MOD", measure=None, count=2) if _few_are(tags[at : at + 2]) else tag)
        at += 1
    return tuple(out)


def _of_all(three: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "two of the four"."""
    if len(three) < 3 or tuple(texts[three[1].start : three[1].end]) != ("of", "the"):
        return False
    some, every = small_count(three[0].measure), small_count(three[2].measure)
    return some is not None and every is not None and some < every


def _few_are(two: Sequence[Tag]) -> bool:
    """ "a couple are rounded": how many are so, no value."""
    if len(two) < 2 or two[0].measure is None or "couple" not in (two[0].measure.hedge or "").split():
        return False
    return two[1].kind == "AUX" and "COP" in two[1].tags
