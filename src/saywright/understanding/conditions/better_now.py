"""A state after the work: "lapped it and it seals now", "was stuck fast … swings freely now" is as left."""

from __future__ import annotations

from itertools import chain
from typing import Final

from saywright.sheets.model import Stage
from saywright.understanding.facts import Fact
from saywright.understanding.statements import ActionNote, ConditionNote
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

# These make nothing better.
_NO_WORK: Final = frozenset(
    {"measure", "inspect", "order", "photograph", "reuse", "replace", "test", "check"}
)
_BEHIND: Final = 3  # tokens from the state to a "now" behind it
_BEFORE: Final = 7  # tokens from a "now" to the state
_NO_TIME: Final = frozenset({"that", "the", "to"})  # "now that it's out"
_RECENT: Final = 3  # utterances


def stage_now(work: Working, fact: Fact, key: tuple[str | None, str | None, str], stage: Stage) -> Stage:
    """The stage of the state *key*, a part, which one and what it is, found at *stage*."""
    if stage == "as_left" or "now" not in work.texts or key[0] is None:
        return stage
    spec = work.sheet.get_condition(key[2])
    if not (fact.negated if spec is None or not spec.good else not fact.negated):
        return stage  # a fault
    last = work.out[-1] if work.out else None
    told = isinstance(last, ConditionNote) and _is_of(last, key) and last.stage == "as_left"
    if told and not fact.subjects:
        return "as_left"  # "bone dry now not a weep"
    return "as_left" if _says_now(work, fact) and _was_worked_on(work, key) else stage


def _says_now(work: Working, fact: Fact) -> bool:
    """ "now it's free", "it's free now"."""
    texts, start, end = work.texts, fact.phrase.start, fact.phrase.end
    for at in (i for i, text in enumerate(texts) if text == "now"):
        if texts[at + 1 : at + 2] and texts[at + 1] in _NO_TIME:
            continue
        near = start - _BEFORE <= at < end or end <= at < end + _BEHIND
        if near and BREAK not in texts[at:start]:
            return True
    return False


def _was_worked_on(work: Working, key: tuple[str | None, str | None, str]) -> bool:
    """True where something was done to the part a moment ago, or a fault was found on it."""
    recent = chain(work.out, *work.before.recent[-_RECENT:])
    if any(
        isinstance(s, ActionNote) and s.status == "done" and s.action not in _NO_WORK and _is_of(s, key)
        for s in recent
    ):
        return True
    for component, which, condition, present in work.seen:
        spec = work.sheet.get_condition(condition)
        if (
            component == key[0]
            and which in {None, key[1]}
            and present
            and not (spec is not None and spec.good)
        ):
            return True
    return False


def _is_of(note: ActionNote | ConditionNote, key: tuple[str | None, str | None, str]) -> bool:
    return note.component == key[0] and (note.which in {None, key[1]} or key[1] is None)
