"""What is decided on a part in few words: it is kept, or it wants doing."""

from __future__ import annotations

from dataclasses import dataclass

from saywright.sheets.model import Sheet
from saywright.understanding.conditions.verdict_words import DO, KEPT
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act
from saywright.understanding.second_thoughts.words import turns
from saywright.understanding.statements import ActionNote, Reading, Status
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

VERDICTS = frozenset({KEPT, DO})
_THAT_WILL = {("that", "will"), ("this", "will")}
_STAYS = frozenset({"stay", "stays", "staying"})
_OTHERS = frozenset({"other", "others", "rest"})
_NEAR = 2  # utterances since the part in hand was named


def is_verdict_on(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """True where *fact* may decide something: of a part named here or just now, and not denied."""
    named = any(s.components for s in fact.subjects)
    near = work.hand is not None and work.now - work.hand.utterance <= _NEAR
    start = fact.phrase.start
    if "not" in work.texts[max(0, start - 2) : start] or not (named or near):
        return False
    if act.form == DO and not fact.subjects and told.strays.get(fact.segment):
        return False  # "back axle wants doing as well": of what the sheet does not name
    vague = any(s.pronoun for s in fact.subjects) and work.texts[start - 1 : start + 1] in _THAT_WILL
    if act.form == KEPT and vague and work.stage == "as_left":
        return False  # "no leaks at the seal that'll do": the job, which is done
    others = [f for f in told.facts if f is not fact and f.kind == "doing"]
    told_better = any(f.aux & {"NEG", "DECLINE"} for f in others)  # "hose stays, I'm not changing that"
    return not (act.form == KEPT and told_better)


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is decided on a part."""

    action: str  # id of the sheet
    status: Status
    declines: ActionNote | None = None  # what was proposed before


def verdict(work: Working, part: Part, act: Act) -> Verdict | None:
    """The action that is decided on *part*, and how; None where nothing is known that could be decided.

    What was proposed last is declined by keeping the part, and meant by "wants doing". Else the part has
    to be known for a state ("that can stay") or a fault ("wants doing").
    """
    last = _last_of(work, part)
    if act.form == DO:
        if last is not None and last.status in {"proposed", "done"}:
            return Verdict(last.action, "proposed")
        return Verdict(act.id, "proposed") if _known(work, part, bad=True) else None
    if _against_others(work, part, last):
        return Verdict("replace", "declined")
    if last is not None and last.status == "proposed":
        again = last.action == act.id  # "reuse it" / "so it'll do": on record already
        return None if again else Verdict(last.action, "declined", last)
    return Verdict(act.id, "proposed") if _known(work, part, bad=False) else None


def _against_others(work: Working, part: Part, last: ActionNote | None) -> bool:
    """ "left one needs replacing, the right one can stay": the one that stays beside those that do not."""
    seen = {which for c, which, _, present in work.seen if c == part.component and present}
    if work.sheet.get_action("replace") is None or None in part.whiches or not seen.isdisjoint(part.whiches):
        return False
    if last is not None and not _OTHERS.intersection(work.texts):
        return False
    renewed = {a.id for a in work.sheet.action if a.order}
    notes = (s for s in work.live() if isinstance(s, ActionNote) and s.component == part.component)
    return any(s.status == "proposed" and s.action in renewed for s in notes)


def take_back(work: Working, fact: Fact, made: ActionNote, said: Verdict) -> None:
    """ "No, leave it": the words of a change of mind before it take back what was proposed."""
    old, head = said.declines, fact.phrase.head
    start = head.start if head is not None else fact.phrase.start
    if old is None or old.id in work.gone or "no" not in work.texts[:start]:
        return
    if old in work.out:
        work.out.remove(old)  # "I'd replace it, no, leave it"
    elif turns(work.texts, 0, start):
        work.supersede([old.id], made.id, 0, fact.end)


def _last_of(work: Working, part: Part) -> ActionNote | None:
    notes = (s for s in reversed(work.live()) if isinstance(s, ActionNote))
    return next((s for s in notes if s.component in {None, part.component} and _is_of(s, part)), None)


def _is_of(note: ActionNote, part: Part) -> bool:
    return note.which is None or None in part.whiches or note.which in part.whiches


def _known(work: Working, part: Part, *, bad: bool) -> bool:
    """True where a state of *part*, or a fault of it, is on record, or anything was read on it."""
    stays = not _STAYS.isdisjoint(work.texts)  # not "limit's twenty, so either one'll do"
    read = (bad or stays) and any(
        isinstance(s, Reading) and s.component == part.component and s.which in part.whiches
        for s in work.live()
    )
    if read:
        return True
    faults = _faults(work.sheet)
    of_it = [what for c, _, what, present in work.seen if c == part.component and (present or not bad)]
    return any(what in faults for what in of_it) if bad else bool(of_it)


def _faults(sheet: Sheet) -> frozenset[str]:
    return frozenset(c.id for c in sheet.condition if not c.good)
