""" "Fourteen point one" / "thirteen point eight, leave it at that": the last of a setting holds."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.discourse import reading_key
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_ENDS: Final = frozenset(
    {
        ("will", "do"),
        ("at", "that"),
        ("we", "are"),
        ("we", "go"),
        ("is", "it"),
        ("spot", "on"),
        ("bang", "on"),
    }
)
_CUES: Final = frozenset({"do", "that", "are", "go", "it", "on"})
_READ: Final = frozenset({"should", "limit", "other", "not", "nearly"})
_REACH: Final = 2  # utterances back in which the earlier value stands


def drop_before_the_last(work: Working) -> None:
    """What was read of the same a moment ago, at the same stage, no longer holds."""
    if work.stage != "as_left" or _CUES.isdisjoint(work.texts):
        return
    told = [
        s
        for s in work.out
        if type(s) is Reading and s.stage == "as_left" and not s.asks and s.id in work.said
    ]
    if len(told) != 1 or not _is_last(work.texts[work.said[told[0].id].phrase.end :]):
        return
    last = told[0]
    near = [
        s
        for group in work.before.recent[-_REACH:]
        for s in group
        if type(s) is Reading and s.id not in work.gone
    ]
    same = [s for s in near if s.stage == "as_left" and reading_key(s) == reading_key(last)]
    gone = [s.id for s in same if parse_value(s.value) != parse_value(last.value)]
    if gone and same[-1] is near[-1]:
        fact = work.said[last.id]
        work.supersede(gone, last.id, fact.start, fact.end)


def _is_last(behind: Sequence[str]) -> bool:
    """ "… that'll do", "… there we are, leave it at that", "… spot on"."""
    return not _ENDS.isdisjoint(pairwise(behind)) and _READ.isdisjoint(behind)
