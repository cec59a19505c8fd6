"""How many of several something is said of: "two of the four are sticking", "a couple are rounded"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.counting.counts import small_count
from saywright.understanding.tags import Tag

_OUT_OF = {
    ("of", "the"), ("of", "these"), ("of", "those"), ("out", "of"), ("out", "of", "the"),
    ("out", "of", "these"),
}  # fmt: skip


def join_shares(tags: Sequence[Tag], texts: Sequence[str]) -> tuple[Tag, ...]:
    """The same tags, with such numbers as how many they are."""
    if "of" not in texts and "couple" not in texts:
        return tuple(tags)
    out: list[Tag] = []
    at = 0
    while at < len(tags):
        tag = tags[at]
        if end := _share_ends(tags, at, texts) if tag.measure is not None else 0:
            count = small_count(tag.measure)
            out.append(replace(tag, kind="MOD", measure=None, count=count, end=tags[end - 1].end))
            at = end
            continue
        out.append(replace(tag, kind="MOD", measure=None, count=2) if _few_are(tags[at : at + 2]) else tag)
        at += 1
    return tuple(out)


def _share_ends(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> int:
    """Index of the tag behind "two of the four", "three out of four" that begins at tag *at*; 0 for none."""
    some = small_count(tags[at].measure)
    if some is None or texts[tags[at].end : tags[at].end + 1] not in {("of",), ("out",)}:
        return 0
    to = next((i for i in range(at + 1, min(at + 5, len(tags))) if tags[i].measure is not None), 0)
    if not to or tuple(texts[tags[at].end : tags[to].start]) not in _OUT_OF:
        return 0
    if texts[tags[at].end] == "out" and to + 1 == len(tags):
        return 0  # "four out of five": how good it is
    every = small_count(tags[to].measure)
    return to + 1 if every is not None and some < every else 0


def _few_are(two: Sequence[Tag]) -> bool:
    """ "a couple are rounded": how many are so, no value."""
    if len(two) < 2 or two[0].measure is None or "couple" not in (two[0].measure.hedge or "").split():
        return False
    return two[1].kind == "AUX" and "COP" in two[1].tags
