"""What an utterance tells beside its facts: withdrawals, a stage, a name alone, "leave it"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice, takewhile

from saywright.understanding.back_to_faults import is_fault
from saywright.understanding.corrected_copies import correct_count, correct_part, correct_unit
from saywright.understanding.corrections import Corrector
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.movements import put_again, put_movements
from saywright.understanding.parts import resolve
from saywright.understanding.phrases import Phrase
from saywright.understanding.restated import just_said, not_so
from saywright.understanding.second_thoughts import only_turns, read_turn
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Correction,
    Movement,
    Reading,
    Unclear,
)
from saywright.understanding.subjects import Subject
from saywright.understanding.swapped import swap_two
from saywright.understanding.tokens import BREAK
from saywright.understanding.verbless import settle_verbless, told_before
from saywright.understanding.working import Working

_MAY_TURN = frozenset({Movement, Correction})
_ROW_OF_FITTED = 3  # movements; one or two parts are also put back to try them
_STAGE_REACH = 6  # tokens before talk of a stage that can put it off
_NOT_YET = frozenset(
    ["before", "until", "till", "when", "once", "needs", "need", "not", "if", "unless", "last", "after",
     "ready", "requires", "wants"]
)  # fmt: skip
_A_NEW_ONE = frozenset({"a", "an"})
_AND, _TOO = frozenset({"and", "also", "plus"}), frozenset({"too", "well"})  # "as well"
_JOINERS = frozenset({BREAK, "and", "also", "plus", "too", "as", "well", "then", "uh", "um", "oh", "yeah"})
_NOT_FITTED = frozenset(
    {"QUESTION", "WHATIF", "OTHER_JOB", "PRICE", "LIMIT", "FUTURE", "NOT_MOVED", "BEFORE_WORK"}
)
_WANTS = frozenset(
    ["need", "needs", "want", "wants", "order", "no", "not", "without", "would", "will", "could", "for",
     "than"]
)  # fmt: skip
_WANT_REACH = 5  # tokens before a new part that tell it is not there yet
_BE = frozenset({("is",), ("are",)})
_NO_PHRASE = Phrase("on", 0, 0, None)
_ELSEWHERE = frozenset(
    ["to", "in", "on", "off", "out", "with", "till", "until", "over", "overnight", "there", "here", "at", "a"]
)  # where or how long a part is left
_LEFT_AT_THAT = frozenset({BREAK, "though", "but", "as", "and", "for", "then", "because", "so"})
_NO_STAGE = frozenset({"QUESTION", "WHATIF", "OTHER_JOB", "STAGE_NOT"})


def withdrawals(told: Told) -> list[Mark]:
    """The marks of "scratch that" and the like, in order."""
    return [mark for mark in told.marks if mark.tags & {"SCRATCH", "SCRATCH_MANY"}]


def withdraw_before(position: int, marks: list[Mark], corrector: Corrector) -> None:
    """Act on the withdrawals said before token *position*; those are taken out of *marks*."""
    while marks and marks[0].start < position:
        corrector.scratch(marks.pop(0))


def turn_stage(fact: Fact | None, told: Told, work: Working) -> None:
    """Talk of going back together, before *fact*, turns the stage, unless it is only ahead."""
    if not told.marks or any(m.tags & _NO_STAGE for m in told.marks):
        return
    for mark in told.marks:
        if "STAGE" not in mark.tags or (fact is not None and mark.start > fact.start):
            continue
        around = work.texts[max(0, mark.start - _STAGE_REACH) : mark.start]
        if _NOT_YET.isdisjoint(around):
            work.go_back()


def going_back(work: Working) -> bool:
    """True where one part after the other was fitted: the job is going back together."""
    if not any(type(s) in _MAY_TURN for s in work.out):
        return False
    moves = islice((s for s in work.newest() if type(s) is Movement), _ROW_OF_FITTED)
    fitted = takewhile(lambda move: move.movement == "fitted", moves)
    return sum(1 for _ in fitted) == _ROW_OF_FITTED


def settle_rest(told: Told, work: Working) -> None:
    """What is told without a fact."""
    _unit_alone(told, work)
    swap_two(told, work)
    settle_verbless(told, work)
    put_right = _put_right(told, work)
    for mark in told.marks:
        has_facts = any(fact.kind != "photo" for fact in told.facts)
        if "MAKE_THAT" in mark.tags and not has_facts and not put_right and not _names_before(told, mark):
            named = [s for s in told.subjects if s.start >= mark.start]
            _ = named and correct_part(work, named[-1], work.last_group(), mark.start, mark.end)
        if "LEAVE" in mark.tags:
            _leave(work, mark)
    not_so(work, told)
    _new_in_rebuild(told, work)
    _one_more(told, work)
    _name_alone(told, work)
    if not work.out and only_turns(work.texts):
        work.remark(0, len(work.texts))  # kept: what comes next takes the place of what was said last


def _put_right(told: Told, work: Working) -> bool:
    """The part, the unit or the count of what was said last; False where none is put right."""
    if told.renamed is not None:
        group = just_said(work)
        if group and correct_part(work, told.renamed, group, 0, len(work.texts)):
            return True
    return correct_unit(work, told) or correct_count(work, told)


def _names_before(told: Told, mark: Mark) -> bool:
    """ "one gasket, no, make that two gaskets": of the same breath, not of the one before."""
    return any(s.components and s.end <= mark.start for s in told.subjects)


def _unit_alone(told: Told, work: Working) -> None:
    """ "Air pressure ate tea psi": a characteristic and a unit, but no number that was understood."""
    if not told.named or any(fact.kind == "value" for fact in told.facts):
        return
    units, table = work.lexicon.units, work.lexicon.table
    said = [at for at, text in enumerate(work.texts) if text in units and (text,) not in table]
    if said:
        reason = "a characteristic and a unit, but no number that was understood"
        work.put(work.make(Unclear, 0, said[-1] + 1, component=told.named[0][0], reason=reason))


def _new_in_rebuild(told: Told, work: Working) -> None:
    """ "New o-ring on the back", "input bearing new": while the job goes back together, one was fitted."""
    if work.stage != "as_left" or not told.subjects:
        return
    read = any(fact.kind == "value" for fact in told.facts)
    apart = _NOT_FITTED if read else _NOT_FITTED - {"LIMIT"}  # no number, no limit
    if any(m.tags & apart for m in told.marks):
        return
    told_of = (fact for fact in told.facts if fact.kind not in {"need_new", "value"})
    said_of = {s.start for fact in told_of for s in fact.subjects}
    for subject in told.subjects:
        beside_new = any(s.age == "new" and s.components == subject.components for s in told.subjects)
        row = not told.facts and _goes_on(subject, told, work.texts)
        if (subject.age is None and not row) or subject.start in said_of or not subject.components:
            continue
        put_there = _is_same(subject, work.texts) or _on_it(subject, told) or _in_place(subject, work.texts)
        if not (beside_new or put_there or row):
            continue
        if any(_tells_of(f, subject, work) and not _read_on_it(f, subject, told, work) for f in told.facts):
            continue  # "new pads, both of them eleven point one": measured, and fitted when it is said
        if _wanted(work.texts[max(0, subject.start - _WANT_REACH) : subject.start]):
            continue
        them = {"them", "those", "these"} & {
            *work.texts[subject.start : subject.end]
        }  # "one of them bolts is new"
        part = resolve(
            subject, work.sheet, work.hand, work.now, off=work.off, movement="" if them else "fitted"
        )
        if part is not None:
            work.named(part.component, part.single)
            fitted = Fact("on", _NO_PHRASE, 0, [subject], start=subject.start, end=subject.end)
            put_movements(work, fitted, [part], "fitted")


def _goes_on(subject: Subject, told: Told, texts: Sequence[str]) -> bool:
    """ "new gasket, then the new diaphragm, then the cover": the end of a row of what went in."""
    ends = texts[max(0, subject.start - 1) : subject.start] == ("then",) and subject.end == len(texts)
    return ends and any(s.age is not None and s.end < subject.start for s in told.subjects)


def _is_same(subject: Subject, texts: Sequence[str]) -> bool:
    """ "same fibre washer, I didn't have another": the old one went back on."""
    before = texts[subject.start - 1] if subject.start else BREAK
    return before in {BREAK, "and"} and "same" in texts[subject.start : subject.start + 2]


def _in_place(subject: Subject, texts: Sequence[str]) -> bool:
    """ "old float in the top": where it went is named behind it."""
    return bool(subject.which) and not {"in", "on"}.isdisjoint(texts[subject.start + 1 : subject.end])


def _read_on_it(fact: Fact, subject: Subject, told: Told, work: Working) -> bool:
    """ "new slide, one point one two two": one part, with what was read on it as it went in."""
    if fact.kind != "value" or subject.many or work.texts[subject.end : subject.end + 1] in _BE:
        return False
    ages = {s.age for s in told.subjects if s.age is not None and s.components == subject.components}
    read = any(isinstance(s, Reading) and work.said.get(s.id) is fact for s in work.out)
    return read and (
        len(ages) == 1 or _in_place(subject, work.texts)
    )  # "old spring forty, new one forty two"


def _on_it(subject: Subject, told: Told) -> bool:
    """ "carb on, old gaskets": right behind what was fitted."""
    return any(fact.kind == "on" and fact.phrase.end == subject.start for fact in told.facts)


def _may_be_of(fact: Fact, subject: Subject, work: Working) -> bool:
    """False for a value of a part on which nothing is read: "new seal and the screws torqued to ninety"."""
    parts = [c for c in map(work.sheet.get, subject.components) if c is not None]
    return fact.kind != "value" or not parts or any(c.characteristic for c in parts)


def _tells_of(fact: Fact, subject: Subject, work: Working) -> bool:
    """A value or a state behind *subject* that may be its own."""
    if fact.kind not in {"value", "finding"} or fact.phrase.start < subject.end:
        return False
    if subject.which and all(s.which and s.which != subject.which for s in fact.subjects):
        return not fact.subjects  # "nearside one's new, offside one's fine"
    told = [s for s in fact.subjects if not s.pronoun and _may_be_of(fact, s, work)]
    named = {c for s in told for c in s.components}
    return not named or bool(named & set(subject.components))


def _wanted(before: Sequence[str]) -> bool:
    return not _WANTS.isdisjoint(before)


def _one_more(told: Told, work: Working) -> None:
    """ "And the upper", "other two as well": the last movement or finding goes for one more part."""
    if told.facts or told.named:
        return
    joined = not _AND.isdisjoint(work.texts[:2]) or not _TOO.isdisjoint(work.texts)
    if not joined or any(isinstance(s, ActionNote) for s in work.out):
        return
    last = told_before(work)
    if not isinstance(last, ActionNote) and not _A_NEW_ONE.isdisjoint(work.texts):
        return  # "and a seal": it goes on with a list, not with what was found
    subjects = [s for s in told.subjects if s.components or s.other_words]
    said = {at for s in subjects for at in range(s.start, s.end)}
    rest = {text for at, text in enumerate(work.texts) if at not in said}
    if last is not None and subjects and rest <= _JOINERS:
        put_again(work, last, subjects)


def _leave(work: Working, mark: Mark) -> None:
    """ "Leave it": what was proposed last for the part in hand, or could be for its fault, is declined."""
    hand, rest = work.hand, work.texts[mark.end : mark.end + 1]
    if rest and rest[0] in _ELSEWHERE:
        return  # "leave it to soak"
    for statement in work.newest():
        if not isinstance(statement, ActionNote) or statement.status != "proposed":
            continue
        if hand is not None and statement.component not in {None, hand.component}:
            continue
        declined = _decline(work, mark, statement.component, statement.which, statement.action)
        at, turned = read_turn(work.texts, 0, mark.start)
        if turned and at == mark.start:
            work.supersede([statement.id], declined, 0, mark.end)
        return
    renew = next((a.id for a in work.sheet.action if a.id == "replace"), None)
    last = next((s for s in work.newest() if isinstance(s, ConditionNote) and s.present), None)
    if renew is None or hand is None or (rest and rest[0] not in _LEFT_AT_THAT):
        return
    if last is not None and last.component == hand.component and is_fault(work, last.condition):
        _decline(work, mark, hand.component, last.which, renew)


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


def _name_alone(told: Told, work: Working) -> None:
    """A part or a characteristic named without a value: what comes next may complete it."""
    said_of = {s.start for fact in told.facts for s in fact.subjects}
    if told.subjects and not (said_of if told.subjects[-1].components else told.facts):
        part = resolve(told.subjects[-1], work.sheet, work.hand, work.now, off=work.off, seen=work.seen)
        if part is not None:
            work.named(part.component, part.single)
    if told.named:
        owners = {component for component, _ in told.named}
        held = work.hand.component if work.hand is not None else None
        if held in owners:
            work.awaited = next(key for key in told.named if key[0] == held)
        elif len(owners) == 1:
            work.awaited = told.named[0]
            work.named(told.named[0][0], None)
