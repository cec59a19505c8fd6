"""Sizes told before the parts that they are stamped on: "one sixty main twenty five pilot". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.quantity import parse_value
from saywright.understanding.phrases import Phrase
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.walk import Walk

_PAIR = 2  # phrases: a size and its part
_BETWEEN = frozenset({"link", "break"})


def is_size_of(walk: Walk, index: int) -> bool:
    """True for a size that belongs to the part behind it: behind an article, or in a row of such pairs.

    "A one eighty main jet"; "reads one sixty main twenty five pilot", where no part before the row has such
    a size.
    """
    after = walk.after(index)
    if after is None or not _stamped_on(walk, walk.phrases[index], after):
        return False
    before = walk.before(index)
    if before is not None and before.kind == "lead" and before.lead_tags & {"DET", "NEW"}:
        return before.end == walk.phrases[index].start
    return _in_row(walk, index)


def _stamped_on(walk: Walk, size: Phrase, part: Phrase) -> bool:
    """True where the sheet reads such a number on the part named right behind it."""
    measure = size.measure
    if measure is None or part.start != size.end or part.lead:
        return False
    named = [walk.sheet.get(c) for c in part.meaning.parts]
    value = parse_value(measure.readings[0].value) if measure.readings else None
    return value is not None and any(
        c.is_count and is_plausible(c, value) for p in named if p is not None for c in p.characteristic
    )


def _in_row(walk: Walk, index: int) -> bool:
    """True within two such pairs or more, of which the first has no part before it to be a size of."""
    phrases = walk.phrases
    begin, end = index, index + _PAIR
    while (at := _pair_before(walk, begin)) is not None:
        begin = at
    while (at := _pair_behind(walk, end)) is not None:
        end = at
    if end - begin <= _PAIR or (end < len(phrases) and phrases[end].kind == "measure"):
        return False
    return not _has_size(walk, phrases[:begin])


def _pair_before(walk: Walk, begin: int) -> int | None:
    at = begin - _PAIR - (begin > 0 and walk.phrases[begin - 1].kind in _BETWEEN)
    return at if at >= 0 and _is_pair(walk, at) else None


def _pair_behind(walk: Walk, end: int) -> int | None:
    at = end + (end < len(walk.phrases) and walk.phrases[end].kind in _BETWEEN)
    return at + _PAIR if _is_pair(walk, at) else None


def _is_pair(walk: Walk, at: int) -> bool:
    if at + 1 >= len(walk.phrases) or walk.phrases[at].kind != "measure":
        return False
    return _stamped_on(walk, walk.phrases[at], walk.phrases[at + 1])


def _has_size(walk: Walk, before: Sequence[Phrase]) -> bool:
    """True where the part named last before the row has a size of its own: "pilot jet forty main …"."""
    named = next((p for p in reversed(before) if p.meaning.parts), None)
    parts = [walk.sheet.get(c) for c in named.meaning.parts] if named is not None else []
    return any(c.is_count for p in parts if p is not None for c in p.characteristic)
