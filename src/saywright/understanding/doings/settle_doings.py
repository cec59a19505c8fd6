"""What was done or is to be done → action notes: of which part, how far along, and how many."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Stage
from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.conditions.back_to_faults import (
    has_fault,
    of_that_fault,
    the_faulty_one,
    the_sound_one,
)
from saywright.understanding.conditions.verdicts import VERDICTS, is_verdict_on, take_back, verdict
from saywright.understanding.doings.act_status import status_of
from saywright.understanding.doings.bad_ones import any_beyond, the_bad_one
from saywright.understanding.doings.bled import bled_at
from saywright.understanding.doings.buying import goes_on_buying, put_order
from saywright.understanding.doings.filled_with import filled_with
from saywright.understanding.doings.idle_acts import is_idle
from saywright.understanding.doings.movements import (
    is_new_pressed_in,
    is_pressed_out,
    is_scraped_off,
    put_movements,
)
from saywright.understanding.doings.needs import is_to_be_fitted
from saywright.understanding.doings.planned import as_planned, the_planned_one, the_planned_ones
from saywright.understanding.doings.short_doings import meant_by_it
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.stages import stage_of_part, stage_told
from saywright.understanding.statements import ActionNote, ConditionNote, Reading, Status
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.working import Working

_SET_REACH = 4  # tokens of "a full new set"
_WHOLE_SET = frozenset({"a", "an", "full", "new", "whole", "complete", "the", "another"})
_GETS = frozenset({"gets", "get", "got", "has"})


class DoingSettler:
    """Settles the doings of one utterance; *parts* finds what a fact is about and puts it in hand."""

    def __init__(self, work: Working, told: Told, parts: Callable[[Fact], list[Part]]) -> None:
        self.work = work
        self.told = told
        self._parts = parts
        self._planned: tuple[list[tuple[int, int]], list[Part]] | None = None  # subjects, what they were

    def doing(self, fact: Fact) -> None:
        """ "cleaned it", "order a seal", "that can stay"."""
        act = fact.phrase.meaning.acts[0]
        self._end_list(fact)
        if act.form in VERDICTS:
            self._decide(fact, act)
            return
        meant = meant_by_it(self.work, fact, act.id)
        if meant is None or is_idle(self.work, self.told, fact, act):
            if any(s.components for s in fact.subjects):
                self._parts(fact)  # "let me measure those": in hand, with nothing done to it
            return
        action = self.work.sheet.get_action(meant)
        order = action is not None and action.order
        status = status_of(fact, act.form, self.work.texts, order=order)
        if status == "done" and is_pressed_out(self.work, fact):
            put_movements(self.work, fact, self._parts(fact), "removed")
            return
        if status == "done" and is_new_pressed_in(self.work, fact):
            put_movements(self.work, fact, self._parts(fact), "fitted")
        if meant == "tighten" and len(fact.subjects) > 1:
            screws = [s for s in fact.subjects if self.work.texts[s.end - 1] in FASTENERS]
            fact.subjects = screws or fact.subjects  # "the gasket and the four screws are in and tightened"
        self._act(fact, meant, status)
        if status == "done" and is_scraped_off(self.work, fact):
            put_movements(self.work, fact, self._parts(fact), "removed")

    def _decide(self, fact: Fact, act: Act) -> None:
        """ "That can stay", "it'll do", "wants doing"."""
        for part in self._parts(fact) if is_verdict_on(self.work, self.told, fact, act) else ():
            if (said := verdict(self.work, part, act)) is not None:
                made = self._put_act(fact, part, said.action, said.status, part.flags)
                take_back(self.work, fact, made, said)

    def _end_list(self, fact: Fact) -> None:
        """ "and a set of front springs rear springs can go again": the last alone, the rest are listed."""
        said, texts = fact.subjects, self.work.texts
        if len(said) < 2 or not all(s.components for s in said) or not goes_on_buying(self.work):
            return
        if texts[:1] != ("and",) or {"and", "or"} & {*texts[said[0].start : said[-1].start]}:
            return
        fact.subjects = said[-1:]
        for one in said[:-1]:
            part = resolve(one, self.work.sheet, self.work.hand, self.work.now, off=self.work.off)
            if part is not None:
                self.work.named(part.component, part.single)
                put_order(self.work, one, part)

    def need_new(self, fact: Fact) -> None:
        """ "it wants a new one"."""
        known = [action.id for action in self.work.sheet.action if action.id == "replace" or action.order]
        at = fact.phrase.start
        bad = any("LIMIT" in m.tags and m.end <= at for m in self.told.marks)  # "… is the limit so a new one"
        bad = bad or has_fault(self.work, fact.subjects) or any_beyond(fact.subjects, self.work)
        already = self.work.stage == "as_left" or not bad
        if any(f.kind == "doing" and _orders_it(f, fact, self.work) for f in self.told.facts):
            return  # "so a new one on the list", "a new one of those to order"
        if self.work.stage == "as_left" and self.work.texts[max(0, at - 2) : at] == ("for", "the"):
            return  # "seven old bolts and a new one for the bent one, all in"
        if self.work.stage == "as_left" and not _GETS.isdisjoint(self.work.texts[:at]):
            return  # "and the right gets a new seal": it went in
        so = self.work.texts[max(0, at - 1) : at + 1]
        decided = so in {("so", "a"), ("so", "an")} and self.work.stage != "as_left"
        if decided and already and all(s.age is None for s in fact.subjects):
            return  # "so a spring": where nothing is wrong with it
        if already and (so[:1] in {("is",), ("so",)} or fact.if_bad) and not decided:
            return  # "that's a new one", "new hose then" where nothing is wrong with it
        if known:
            status: Status = "declined" if fact.aux else "proposed"
            self._act(fact, "replace" if "replace" in known else known[0], status)

    def fits_later(self, fact: Fact) -> bool:
        """ "so I'll put a new one in", while it is stripped: what is decided; False where it is not."""
        action = next((a.id for a in self.work.sheet.action if a.id == "replace"), None)
        if action is None or self.work.stage == "as_left" or not is_to_be_fitted(fact, self.work.texts):
            return False
        parts = self._parts(fact)
        told = [s.component for s in self.work.out if isinstance(s, ConditionNote)]
        if told and all(part.component != told[-1] for part in parts):
            return False  # said of another part than the one whose state was told right before
        elsewhere = of_that_fault(fact, self.told, self.work) is not fact.subjects
        if (
            elsewhere
            or not parts
            or parts != [the_faulty_one(part, fact.subjects, self.work) for part in parts]
        ):
            return False  # of another than the one in hand: not made out
        self._act(fact, action, "proposed")
        return True

    def _act(self, fact: Fact, action: str, status: Status) -> None:
        said = fact.subjects = filled_with(fact, self.told, self.work) or fact.subjects
        fact.subjects = bled_at(fact, action, self.work) or of_that_fault(fact, self.told, self.work)
        inferred = () if fact.subjects is said else (flag(FlagKind.PART_FROM_CONTEXT, "by its fault"),)
        if any(s.components and s.count for s in fact.subjects):
            # "order for this: two seals", but "order one of them and a seal"
            fact.subjects = [s for s in fact.subjects if s.components or (s.pronoun and (s.count or s.age))]
        nobody = (flag(FlagKind.PART_AMBIGUOUS, "no part was named"),)
        parts = self._acted_on(fact, action, status)
        if status == "done" and (self.work.planned or self._planned):
            parts = self._as_planned(fact, action, parts)
        for part in parts or (None,):
            if self._done_already(part, action, status):
                self.work.covered.append((fact.start, fact.end))
                continue
            flags = (*inferred, *part.flags, *self._doubted(part)) if part is not None else nobody
            self._put_act(fact, part, action, status, flags)

    def _as_planned(self, fact: Fact, action: str, parts: list[Part]) -> list[Part]:
        """The parts that a doing was planned for; what is done in the same breath is done to them, too."""
        said = [(s.start, s.end) for s in fact.subjects]
        if self._planned and said and self._planned[0] == said:
            return self._planned[1]
        made = [the_planned_one(part, action, self.work) for part in parts]
        made = the_planned_ones(made, fact.subjects, action, self.work)
        made = [as_planned(part, fact.subjects, action, self.work) for part in made]
        self._planned = (said, made) if made != parts else None
        return made

    def _put_act(
        self, fact: Fact, part: Part | None, action: str, status: Status, flags: tuple[Flag, ...]
    ) -> ActionNote:
        made = self.work.make(
            ActionNote,
            fact.start,
            fact.end,
            flags=flags,
            stage=self._stage(fact, part, status),
            component=part.component if part is not None else None,
            which=part.single if part is not None else None,
            action=action,
            status=status,
            quantity=_quantity(fact, part, status, self.work.texts),
        )
        self.work.put(made)
        return made

    def _stage(self, fact: Fact, part: Part | None, status: Status) -> Stage:
        """Of what was done: as the part is; a new part fitted in the same breath tells it, too."""
        if status != "done" or part is None:
            return self.work.stage
        fits = [f for f in self.told.facts if f.kind == "on" and any(s.age == "new" for s in f.subjects)]
        stage: Stage = "as_left" if fits else stage_told(self.work, self.told, fact)
        return stage_of_part(self.work, self.told, part.component, part.single, stage)

    def _doubted(self, part: Part) -> tuple[Flag, ...]:
        """ "one thirty five in the primary, both nipped up": not named, and its value asks."""
        if all(f.kind != FlagKind.PART_FROM_CONTEXT for f in part.flags):
            return ()
        doubts = {FlagKind.STAMP_DIFFERS, FlagKind.PART_AMBIGUOUS}
        told = (s for s in self.work.out if isinstance(s, Reading | ConditionNote))
        asks = any(f.kind in doubts for s in told if s.component == part.component for f in s.flags)
        return (flag(FlagKind.PART_AMBIGUOUS, "what was told of it asks"),) if asks else ()

    def _acted_on(self, fact: Fact, action: str, status: Status) -> list[Part]:
        """The parts of a doing; what is to be replaced is not the one that was found good.

        What need not be is not the faulty one: "don't need to change that seal".
        """
        known = self.work.sheet.get_action(action)
        if known is not None and known.order and not _a_set(fact, self.work.texts):
            fact.subjects = [the_bad_one(one, self.work, bought=action != "replace") for one in fact.subjects]
        parts = self._parts(fact)
        if status == "declined" and "leave" in self.work.texts:
            return [the_sound_one(part, fact.subjects, self.work) for part in parts]
        order = known is not None and known.order
        if status == "declined" or not (action == "replace" or order):
            return parts
        if order and any(s.which for s in fact.subjects):  # "two for the front"
            parts = [_of_the_kind(part) for part in parts]
        if order and _a_set(fact, self.work.texts):
            return [_all_of_it(part) for part in parts]
        meant = [the_faulty_one(part, fact.subjects, self.work) for part in parts]
        for part in meant:
            if part not in parts:
                self.work.named(part.component, part.single)
        return meant

    def _done_already(self, part: Part | None, action: str, status: Status) -> bool:
        """ "cleaned and dried": one doing in two words."""
        said = (part.component, part.single, action, status) if part is not None else None
        return any(
            isinstance(s, ActionNote) and (s.component, s.which, s.action, s.status) == said
            for s in self.work.out
        )


def _a_set(fact: Fact, texts: Sequence[str]) -> bool:
    """ "I change two so order a set", "order four": of all of them, and not of the one in hand."""
    if any(s.which or (s.components and not s.pronoun) for s in fact.subjects):
        return False
    behind = [t for t in texts[fact.phrase.end : fact.phrase.end + _SET_REACH] if t not in _WHOLE_SET]
    return behind[:1] == ["set"] or (behind[:1] != [] and behind[0] in CARDINALS[1:])


def _all_of_it(part: Part) -> Part:
    return replace(part, whiches=(None,), flags=())


def _of_the_kind(part: Part) -> Part:
    """ "two sets for the front": what is bought for several places needs no single one."""
    return replace(part, flags=tuple(f for f in part.flags if f.kind is not FlagKind.WHICH_UNCLEAR))


def _quantity(fact: Fact, part: Part | None, status: Status, texts: Sequence[str]) -> int | None:
    """How many are to be had or done; "nipped them up" says nothing of how many."""
    bare = status == "done" and all(s.pronoun and not s.count for s in fact.subjects)
    bare = bare and not any("pair" in texts[s.start : s.end] for s in fact.subjects)  # "greased the pair"
    if (
        part is not None
        and len(part.whiches) > 1
        and any(s.pronoun and len(s.which) > 1 for s in fact.subjects)
    ):
        return part.count or len(part.whiches)  # "left and right need replacing"
    return None if part is None or bare else part.count


def _orders_it(doing: Fact, need: Fact, work: Working) -> bool:
    """ "so a new one on the list", "a new one of those to order": bought, and so renewed."""
    action = work.sheet.get_action(doing.phrase.meaning.acts[0].id)
    order = action is not None and action.order and doing.phrase.start > need.phrase.start
    if work.texts[doing.phrase.start] in {"i", "we"}:
        return False  # "we'll want a new hose, I'm not changing the disc"
    return doing.phrase.start == need.end or (order and doing.subjects == need.subjects)
