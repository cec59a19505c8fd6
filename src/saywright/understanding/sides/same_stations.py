"""Stations that are as the one told of: "two's the same", "so is three", "on four it's seventeen"."""

from __future__ import annotations

from saywright.understanding.tokens import BREAK

_BE = frozenset({"is", "was"})
_IDLE = frozenset({"on", "the", "all", "just", "off", "out", "in"})
_ENDS = frozenset({"", BREAK, "and", "then", "too"})
_ON = frozenset({"on", "for", "with", "in", "at"})
_HEADS = frozenset({BREAK, "and", "but", "then"})


def is_same(texts: tuple[str, ...], lead: int | None, begin: int, end: int) -> bool:
    """ "two's on the same", "same again on three": what was told of one is told of this."""
    tail = texts[end] if end < len(texts) else ""
    if lead == begin and tail in _BE:
        behind = end + 1
        while behind < len(texts) and texts[behind] in _IDLE:
            behind += 1
        return texts[behind : behind + 1] == ("same",)
    before = texts[max(0, begin - 3) : begin]
    return tail in _ENDS and "same" in before and before[-1] in _ON


def is_so_too(texts: tuple[str, ...], begin: int) -> bool:
    """ "so is two", "so are two and four": what was said of one is said of those from *begin* on; no turn."""
    return texts[max(0, begin - 2) : begin] in {("so", "is"), ("so", "are")}


def it_is_there(texts: tuple[str, ...], begin: int, end: int) -> bool:
    """ "on four it's seventeen": of what was told of last, at the head."""
    heads = begin == 1 or (begin > 1 and texts[begin - 2] in _HEADS)
    return heads and texts[begin - 1] in {"on", "in"} and texts[end : end + 2] == ("it", "is")
