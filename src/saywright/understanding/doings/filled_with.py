""" "Filled it with a hundred mil of fresh oil": the oil is filled up, whatever it is in."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import FLUIDS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_FILLED: Final = frozenset({"filled", "fill", "refilled", "refill", "topped", "top"})
_OBJECT: Final = 3  # tokens from the verb to "with"
_REACH: Final = 12  # tokens from "with" to the fluid


def filled_with(fact: Fact, told: Told, work: Working) -> list[Subject]:
    """What was filled in, where the sheet has it; [] where nothing is, or what is filled is named."""
    texts, end = work.texts, fact.phrase.end
    if texts[fact.phrase.start] not in _FILLED or any(s.components and not s.pronoun for s in fact.subjects):
        return []
    at = next((i for i in range(end, min(len(texts), end + _OBJECT)) if texts[i] == "with"), None)
    if at is None:
        return []
    fluids = [s for s in told.subjects if s.components and at < s.start < at + _REACH]
    last = next((s for s in fluids if texts[s.end - 1] in FLUIDS), None)
    return [replace(last, age=None)] if last is not None else []
