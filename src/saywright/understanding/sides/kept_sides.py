""" "He always does the offside first", "leave the left one": talk of another place that turns to none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.understanding.statements import ActionNote, Remark, Statement
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_NAMES = frozenset({"MOD", "PART", "CHAR", "ONE", "BREAK", "LINK", "PRON"})  # of an utterance that only names
_LEAVES = frozenset({"leave", "leaving"})
_FOR_BOTH = frozenset({("for", "both"), ("for", "each"), ("for", "either")})


def keep_turned(work: Working, tags: Sequence[Tag]) -> None:
    """ "boss always does the offside first": talk that tells nothing turns to no other side."""
    before, held = work.before.hand, work.hand
    if before is None or held is None or held.side == before.side:
        return
    if before.side and _is_declined_there(work):
        here = before if before.component == held.component else held
        work.hand = replace(here, side=before.side, side_at=before.side_at, turned_to=before.turned_to)
        return
    if not before.turned:
        return
    if held.turned or work.stage != work.before.stage or not all(map(_is_for_later, work.out)):
        return
    placed = any(tag.meaning.positions or "ORD" in tag.tags for tag in tags)
    if not placed and not any(pair in _FOR_BOTH for pair in pairwise(work.texts)):
        return  # "now the …": which side was not heard
    if any(tag.kind not in _NAMES and "FILLER" not in tag.tags for tag in tags):
        side = before.side
        work.hand = replace(held, side=side, side_at=before.side_at, turned_to=side)


def _is_declined_there(work: Working) -> bool:
    """ "Leave the left one" while the right is worked on: nothing is done there."""
    told = [s for s in work.out if not isinstance(s, Remark)]
    if _LEAVES.isdisjoint(work.texts):
        return False
    return bool(told) and all(isinstance(s, ActionNote) and s.status == "declined" for s in told)


def _is_for_later(said: Statement) -> bool:
    """ "seals I want for both sides" while the left is worked on: talk, or what is to be bought."""
    return isinstance(said, Remark) or (isinstance(said, ActionNote) and said.status == "proposed")
