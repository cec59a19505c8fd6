"""A change of mind over lines: "main jet's blocked" … "no, it's clear", "hang on, it isn't"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.corrected_copies import AboutAPart, own_fields
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts import IS, IT, PAUSES, only_turns, read_turn, turns
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Correction,
    Movement,
    Reading,
    Remark,
    Statement,
    Unclear,
)
from saywright.understanding.working import Working

_REACH = 3  # utterances of mere talk that a change of mind reaches back over
_DO = frozenset({"do", "does", "did", "will", "would"})
_HAVE = frozenset({"has", "have"})
_DOUBT = frozenset({"actually", "hang", "hold", "wait", "no", "nope"})
_LEADS_DOING = IS | {"i", "we", "will", "would", "am", "going", "to", "better", "might", "as", "well"}


def just_said(work: Working) -> list[Statement]:
    """What still holds of the last utterance, over such as only change a mind; [] where it told nothing."""
    for group in reversed(work.before.recent[-_REACH:]):
        holding: list[Statement] = [
            s for s in group if s.id not in work.gone and not isinstance(s, Remark | Correction)
        ]
        if holding or not all(isinstance(s, Remark) and _is_turn(s) for s in group):
            return holding
    return []


def turned_before(work: Working) -> bool:
    """ "no that's wrong" … "twelve point six": the last utterance only took back the one before it."""
    last = work.before.recent[-1] if work.before.recent else ()
    return bool(last) and all(isinstance(s, Remark) and _is_turn(s) for s in last)


def _is_turn(remark: Remark) -> bool:
    return only_turns(remark.heard.lower().replace("'s", " is").replace("n't", " not").split())


def opens_with_doubt(work: Working, begin: int) -> bool:
    """ "actually, I'll replace it", "hang on, I'll …": weaker than a no."""
    at, _ = read_turn(work.texts, 0, begin)
    return not _DOUBT.isdisjoint(work.texts[:at]) and _LEADS_DOING.issuperset(work.texts[at:begin])


def turned_at_head(work: Working, fact: Fact) -> bool:
    """ "no, it's clear", "sorry, the seat's out": a change of mind opens the talk, or was all of the last."""
    begin = min([fact.phrase.start, *(s.start for s in fact.subjects)])
    return turns(work.texts, 0, begin) or (turned_before(work) and begin <= 1)


def paused_at_head(work: Working, fact: Fact) -> bool:
    """ "hang on, it's free"."""
    at, _ = read_turn(work.texts, 0, fact.phrase.start)
    return at > 0 and (IT | IS).issuperset(work.texts[at : fact.phrase.start])


def restate(
    work: Working, fact: Fact, before: Sequence[Statement], made: Sequence[Statement], *, marked: bool
) -> None:
    """What was *made* of *fact* takes the place of what it is told instead of.

    *before* is what was told of it in the same utterance; *marked* where a correction was announced.
    """
    turned = turned_at_head(work, fact)
    if fact.kind == "doing":
        turned = turned or opens_with_doubt(work, min([fact.phrase.start, *(s.start for s in fact.subjects)]))
    moved = marked and fact.kind == "finding"  # "no sorry, it's the trailing one that's pitted"
    if not turned and not moved and not (fact.kind == "finding" and paused_at_head(work, fact)):
        return
    near = [s for s in before if not isinstance(s, Remark | Correction)] or just_said(work)
    for new in made:
        old = [s for s in near if s.id not in work.gone and _gives_way(work, s, new, (turned, moved))]
        if old:
            work.supersede([s.id for s in old], new.id, 0, fact.phrase.end)
            if isinstance(new, ConditionNote):
                _decline(work, [s for s in old if isinstance(s, ActionNote)])


def _gives_way(work: Working, old: Statement, new: Statement, how: tuple[bool, bool]) -> bool:
    """True where *old* cannot hold beside *new*, said with a change of mind or as a correction."""
    turned, moved = how
    if not isinstance(old, AboutAPart) or not isinstance(new, AboutAPart):
        return False
    same = old.component == new.component and (old.which == new.which or None in (old.which, new.which))
    match old, new:
        case ConditionNote(), ConditionNote():
            alike = old.condition == new.condition
            if not same:
                return (turned or moved) and alike and old.present == new.present
            if alike:
                return old.present != new.present or turned
            other = _is_good(work, old) != _is_good(work, new)
            return old.present and new.present and (turned or other)
        case ActionNote(), ConditionNote():
            return same and turned and old.status == "proposed" and new.present and _is_good(work, new)
        case ActionNote(), ActionNote():
            alike = old.action == new.action
            return turned and (alike != same or old.status != new.status) and (same or alike)
        case Movement(), Movement():
            return turned and (old.movement == new.movement) != same
    return False


def _is_good(work: Working, note: ConditionNote) -> bool:
    spec = work.sheet.get_condition(note.condition)
    return spec is not None and spec.good


def _decline(work: Working, actions: Sequence[ActionNote]) -> None:
    """ "needs replacing" … "no, it's fine"."""
    for old in actions:
        fields = {**own_fields(old), "status": "declined"}
        work.put(work.make(ActionNote, 0, len(work.texts), flags=old.flags, stage=old.stage, **fields))


def not_so(work: Working, told: Told) -> None:
    """ "No it isn't", "hang on, it doesn't": what was said last is denied, declined or withdrawn."""
    at, turned = read_turn(work.texts, 0, len(work.texts))
    said = work.texts[at : at + 3]
    short = at and len(said) == 3 and said[0] in IT and said[2] == "not"
    rest = not PAUSES.issuperset(work.texts[at + 3 :])
    if not short or (rest and (told.facts or said[1] in _DO)):
        return
    near = [s for s in just_said(work) if isinstance(s, AboutAPart | Unclear)]
    if not near:
        return
    last, verb = near[-1], said[1]
    if isinstance(last, ConditionNote) and last.present and (verb in IS or verb in _HAVE):
        changed = {"present": False, "severity": None}
        fresh: Statement = work.make(
            ConditionNote, 0, at + 3, flags=last.flags, stage=last.stage, **{**own_fields(last), **changed}
        )
    elif isinstance(last, ActionNote) and last.status == "proposed" and verb in _DO | IS:
        fields = {**own_fields(last), "status": "declined"}
        fresh = work.make(ActionNote, 0, at + 3, flags=last.flags, stage=last.stage, **fields)
    elif isinstance(last, Movement | Reading | Unclear) and verb in IS | _HAVE and turned:
        work.supersede([last.id], None, 0, at + 3)
        return
    else:
        return
    work.put(fresh)
    work.supersede([last.id], fresh.id, 0, at + 3)
