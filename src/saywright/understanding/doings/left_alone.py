""" "Leave it": what was proposed last, or could be for a fault, is declined; not "the phone, leave it"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import ELSEWHERE
from saywright.understanding.conditions.back_to_faults import is_fault
from saywright.understanding.facts import Mark
from saywright.understanding.second_thoughts.words import read_turn
from saywright.understanding.statements import ActionNote, ConditionNote
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_ELSEWHERE = frozenset(
    ["to", "in", "on", "off", "out", "with", "till", "until", "over", "overnight", "there", "here", "at", "a"]
)  # where or how long a part is left
_LEFT_AT_THAT = frozenset(
    [BREAK, "though", "but", "as", "and", "for", "then", "because", "so", "he", "she", "they", "it",
     "that", "too"]
)  # fmt: skip
_RINGS: Final = 4  # tokens of "phone's going"
_FOR_NOW: Final = frozenset({("for", "now"), ("for", "later"), ("till", "later"), ("for", "tomorrow")})
_GOES: Final = frozenset({"go", "get", "move", "come", "crack", "carry", "do"})


def leave(work: Working, mark: Mark, *, named: bool) -> None:
    """ "Leave it": what was proposed last for the part in hand, or could be for its fault, is declined."""
    hand, rest = work.hand, work.texts[mark.end : mark.end + 1]
    if rest and (rest[0] in _ELSEWHERE or rest[0] in {"soak", "soaking"}):
        return  # "leave it to soak"
    if _is_left_for_now(mark, work):
        return
    for statement in work.newest():
        if not isinstance(statement, ActionNote) or statement.status != "proposed":
            continue
        if work.stage == "as_left" != statement.stage and _is_buying(statement, work):
            continue  # "came out at eighteen, I'm leaving it": it is bought and fitted
        if hand is not None and statement.component not in {None, hand.component}:
            continue
        if named and hand is not None and hand.which and statement.which not in {None, hand.which}:
            continue
        declined = _decline(work, mark, statement.component, statement.which, statement.action)
        at, turned = read_turn(work.texts, 0, mark.start)
        if turned and at == mark.start:
            work.supersede([statement.id], declined, 0, mark.end)
        return
    renew = next((a.id for a in work.sheet.action if a.id == "replace"), None)
    notes = (s for s in work.newest() if isinstance(s, ConditionNote) and s.present)
    held = hand.component if hand is not None else None
    last = next((s for s in notes if not named or s.component == held), None)
    if renew is None or hand is None or (rest and rest[0] not in _LEFT_AT_THAT):
        return
    faulty = last is not None and last.component == hand.component and is_fault(work, last.condition)
    if named and last is not None and last.which != hand.which:
        _decline(work, mark, hand.component, hand.which, renew)  # "blind end bearing, leave it"
    elif last is not None and (faulty or last in work.out):  # "seal's dry, leave it alone"
        _decline(work, mark, hand.component, last.which, renew)


def _is_left_for_now(mark: Mark, work: Working) -> bool:
    """ "Phone's going, leave it", "leave that and go round the back", "leave it for now": no part is kept."""
    if not ELSEWHERE.isdisjoint(work.texts[max(0, mark.start - _RINGS) : mark.start]):
        return True
    behind = work.texts[mark.end : mark.end + 2]
    return behind in _FOR_NOW or (behind[:1] == ("and",) and not _GOES.isdisjoint(behind[1:]))


def _is_buying(told: ActionNote, work: Working) -> bool:
    action = work.sheet.get_action(told.action)
    return action is not None and action.order


def _decline(work: Working, mark: Mark, component: str | None, which: str | None, action: str) -> str:
    made = work.make(
        ActionNote,
        mark.start,
        mark.end,
        component=component,
        which=which,
        action=action,
        status="declined",
    )
    work.put(made)
    return made.id
