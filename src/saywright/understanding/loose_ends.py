"""What an utterance tells beside its facts: withdrawals, a stage, a name alone, "leave it"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import TOO
from saywright.understanding.counting.new_among_all import count_apart
from saywright.understanding.doings.fasteners_along import move_fasteners
from saywright.understanding.doings.fasteners_on import fit_fasteners
from saywright.understanding.doings.fitted_new import fit_new
from saywright.understanding.doings.left_alone import leave
from saywright.understanding.doings.movements import put_again
from saywright.understanding.doings.verbless import settle_verbless, told_before
from saywright.understanding.doings.with_it import is_some_stuff
from saywright.understanding.doings.with_stuff import BY_KIND, STUFFS, tell_by_stuff
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.second_thoughts.all_but_that import ALL_BUT, all_but_that
from saywright.understanding.second_thoughts.corrected_copies import correct_count, correct_part, correct_unit
from saywright.understanding.second_thoughts.corrector import Corrector
from saywright.understanding.second_thoughts.left_open import doubt_last, put_in_doubt
from saywright.understanding.second_thoughts.restated import just_said, not_so
from saywright.understanding.second_thoughts.swapped import SWAPPED, swap_two
from saywright.understanding.second_thoughts.words import BEGIN, TURNING, only_turns
from saywright.understanding.statements import (
    ActionNote,
    Movement,
    Reading,
    Statement,
    Unclear,
)
from saywright.understanding.steps import CUES, cued
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_STAGE_REACH = 6  # tokens before talk of a stage that can put it off
_NOT_YET = frozenset(
    ["before", "until", "till", "when", "once", "needs", "need", "not", "if", "unless", "last", "after",
     "ready", "requires", "wants"]
)  # fmt: skip
_A_NEW_ONE = frozenset({"a", "an"})
_AND, _TOO = frozenset({"and", "also", "plus"}), frozenset({"too", "well"})  # "as well"
_JOINERS = frozenset({BREAK, "and", "also", "plus", "too", "as", "well", "then", "uh", "um", "oh", "yeah"})
_ONLY = frozenset({"just", "only"})
_OF_PLACE = frozenset({"the", "one", "side"})
_MORE: Final = CUES.bit({word for said in TOO for word in said} | _AND | _TOO)
_UNITS: Final = CUES.bit(TURNING | {"that", "it"})
_STUFF: Final = CUES.bit(STUFFS | BY_KIND)
_NO_STAGE = frozenset({"QUESTION", "WHATIF", "OTHER_JOB", "STAGE_NOT"})


def withdrawals(told: Told) -> list[Mark]:
    """The marks of "scratch that" and the like, in order."""
    return [mark for mark in told.marks if mark.tags & {"SCRATCH", "SCRATCH_MANY", "SCRATCH_OF"}]


def withdraw_before(position: int, marks: list[Mark], corrector: Corrector) -> None:
    """Act on the withdrawals said before token *position*; those are taken out of *marks*."""
    while marks and marks[0].start < position:
        corrector.scratch(marks.pop(0))


def turn_stage(fact: Fact | None, told: Told, work: Working) -> None:
    """Talk of going back together, before *fact*, turns the stage, unless it is only ahead."""
    if not told.marks or any(m.tags & _NO_STAGE for m in told.marks):
        return
    for mark in told.marks:
        if fact is None and _side_goes_back(mark, told, work):
            work.go_back()
        if "STAGE" not in mark.tags or (fact is not None and mark.start > fact.start):
            continue
        around = work.texts[max(0, mark.start - _STAGE_REACH) : mark.start]
        if _NOT_YET.isdisjoint(around):
            work.go_back()


def _side_goes_back(mark: Mark, told: Told, work: Working) -> bool:
    """ "left side going back", "going back with the left": no more is said of it, so it is what comes now."""
    if "GO_BACK" not in mark.tags or told.facts:
        return False
    behind = work.texts[mark.end :]
    side = behind if "with" in behind[:2] else () if behind else work.texts[: mark.start]
    return not any(s.components for s in told.subjects) and not work.lexicon.positions.isdisjoint(side)


def settle_rest(told: Told, work: Working) -> None:
    """What is told without a fact."""
    turns = bool(work.texts) and work.texts[0] in BEGIN  # a change of mind may begin here
    for rule, cue in _BY_WORDS:
        if cue & work.cues and rule(told, work):
            return
    put_right = _put_right(told, work, turns=turns)
    if told.marks:
        _settle_marks(told, work, put_right=put_right)
    if turns:
        not_so(work, told)
    if told.subjects:
        fit_new(told, work)
    if work.cues & _STUFF:
        tell_by_stuff(told, work)
    if told.facts and (work.stage == "as_left" or Movement in map(type, work.out)):
        fit_fasteners(told, work)
        move_fasteners(told, work)
    if len(work.out) > 1:
        count_apart(work)
    if work.cues & _MORE:
        _one_more(told, work)
    _name_alone(told, work)
    if turns:
        doubt_last(work)
    if turns and not work.out and only_turns(work.texts):
        work.remark(0, len(work.texts))  # kept: what comes next takes the place of what was said last


def _settle_marks(told: Told, work: Working, *, put_right: bool) -> None:
    """ "make that the left one", "leave it"; not where that was *put_right* already."""
    for mark in told.marks:
        has_facts = any(fact.kind != "photo" for fact in told.facts)
        if "MAKE_THAT" in mark.tags and not has_facts and not put_right and not _names_before(told, mark):
            named = [s for s in told.subjects if s.start >= mark.start]
            _ = named and correct_part(work, named[-1], work.last_group(), mark.start, mark.end)
        if "LEAVE" in mark.tags:
            alone = not has_facts and any(s.components and s.end <= mark.start for s in told.subjects)
            if alone:
                _name_alone(told, work)  # "shield, no, leave it"
            leave(work, mark, named=alone)


def _put_right(told: Told, work: Working, *, turns: bool) -> bool:
    """The part, the unit or the count of what was said last; False where none is put right."""
    if told.renamed is not None:
        group = just_said(work)
        if group and correct_part(work, told.renamed, group, 0, len(work.texts)):
            return True
        if turns and told.renamed.components and len(group) == 1 and not told.facts:
            _doubt_of_another(told.renamed, group[0], work)
    if work.cues & _UNITS and correct_unit(work, told):
        return True
    return turns and correct_count(work, told)


def _doubt_of_another(meant: Subject, old: Statement, work: Working) -> None:
    """ "No, that was the idle stop": it has no such value, and of the first it does not hold either."""
    if isinstance(old, Reading) and old.component not in meant.components and not old.asks:
        put_in_doubt(work, old)


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


def _one_more(told: Told, work: Working) -> None:
    """ "And the upper", "other two as well": the last movement or finding goes for one more part."""
    if told.facts:
        _one_more_first(told, work)
    if told.facts or told.named:
        return
    joined = not _AND.isdisjoint(work.texts[:2]) or not _TOO.isdisjoint(work.texts)
    if not joined or any(isinstance(s, ActionNote | Movement) for s in work.out):
        return
    last = told_before(work)
    if not isinstance(last, ActionNote) and not _A_NEW_ONE.isdisjoint(work.texts):
        return  # "and a seal": it goes on with a list, not with what was found
    subjects = _narrowed([s for s in told.subjects if s.components or s.other_words], work)
    said = {at for s in subjects for at in range(s.start, s.end)}
    rest = {text for at, text in enumerate(work.texts) if at not in said}
    if last is not None and subjects and rest <= _JOINERS:
        put_again(work, last, subjects)


def _narrowed(subjects: list[Subject], work: Working) -> list[Subject]:
    """ "hose too, just the left": one part, and which one behind it."""
    only = next((at for at, text in enumerate(work.texts) if text in _ONLY), len(work.texts))
    place = tuple(text for text in work.texts[only + 1 :] if text not in _OF_PLACE)
    if len(subjects) != 1 or not place or subjects[0].end > only or subjects[0].which:
        return subjects
    if not work.lexicon.positions.issuperset(place):
        return subjects
    return [replace(subjects[0], which=(" ".join(place),), end=len(work.texts))]


def _one_more_first(told: Told, work: Working) -> None:
    """ "pilot jets too, left one needed soaking": first of all, what was told last goes for one more part."""
    first = told.subjects[0] if told.subjects else None
    if first is None or not first.components or not _JOINERS.issuperset(work.texts[: first.start]):
        return
    behind = work.texts[first.end : first.end + 2]
    if not (behind[:1] in TOO or behind in TOO) or any(first in f.subjects for f in told.facts):
        return
    last, hand = told_before(work), work.hand
    if last is not None and last.component not in first.components:
        put_again(work, last, [first])
        work.hand = hand


def _name_alone(told: Told, work: Working) -> None:
    """A part or a characteristic named without a value: what comes next may complete it."""
    said_of = {s.start for fact in told.facts for s in fact.subjects}
    last = told.subjects[-1] if told.subjects else None
    if last is not None and is_some_stuff(work.texts, last.start):
        return  # "with a drop of oil"
    if last is not None and not (said_of if last.components else told.facts):
        part = resolve(last, work.sheet, work.hand, work.now, off=work.off, seen=work.seen)
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


# Told without a fact, each with the words that call it; nothing else is where one gives True.
_BY_WORDS: Final[tuple[tuple[Callable[[Told, Working], bool | None], int], ...]] = cued(
    (_unit_alone, None),
    (swap_two, SWAPPED),
    (all_but_that, ALL_BUT),
    (settle_verbless, None),
)
