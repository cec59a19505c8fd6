"""Facts → statements: each fact is settled with the sheet and the state of the talk."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from saywright.sheets.model import Stage
from saywright.understanding.aside.photo_talk import told_stage
from saywright.understanding.conditions.findings import is_finding, is_not_yet, put_findings
from saywright.understanding.conditions.of_the_whole import is_of_the_whole, put_on_the_whole
from saywright.understanding.conditions.told_elsewhere import (
    is_done_away,
    is_told_elsewhere,
    of_a_piece,
)
from saywright.understanding.doings.held_so import way_of
from saywright.understanding.doings.loose_moves import is_loose_move
from saywright.understanding.doings.movements import (
    is_announced,
    name_alike,
    put_again,
    put_movements,
)
from saywright.understanding.doings.settle_doings import DoingSettler
from saywright.understanding.doings.with_it import goes_in_too
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING, CharacteristicKey
from saywright.understanding.sides.hand_sides import side_of_several
from saywright.understanding.stages import stage_told
from saywright.understanding.statements import PhotoMark
from saywright.understanding.subjects.named_beside import told_by_mates
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.one_off import fitted_lately, the_one_off
from saywright.understanding.subjects.out_of_there import at_its_place
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.subjects.pieces import owner_of_piece
from saywright.understanding.subjects.suited import suited
from saywright.understanding.subjects.told_together import told_together
from saywright.understanding.subjects.which_one import other_of_two, that_one, the_one_left
from saywright.understanding.subjects.with_its_own import keep_owner
from saywright.understanding.values.again import BackReader
from saywright.understanding.values.models import is_like_a_stranger
from saywright.understanding.values.readings import ReadingSettler
from saywright.understanding.values.same_measure import names_another
from saywright.understanding.values.those_told import those_found_so
from saywright.understanding.working import Working

_OF_THE_KIND = frozenset({"doing", "need_new"})  # "order a spring": on whichever side it will go


class Settler:
    """Settles the facts of one utterance in order."""

    def __init__(self, work: Working, told: Told) -> None:
        self.work = work
        self.told = told
        self.readings = ReadingSettler(work, told)
        self.back = BackReader(work)
        # A method of this object would tie it in a ring that only the garbage collector undoes.
        self.doings = DoingSettler(work, told, partial(_parts, work, told))

    def settle(self, fact: Fact) -> None:
        """Make the statements that *fact* tells."""
        match fact.kind:
            case "value":
                self.readings.value(fact, self.stage_of(fact))
            case "restore" | "same":
                self._back(fact)
            case "finding":
                self._finding(fact)
            case "doing":
                self.doings.doing(fact)
            case "need_new":
                self.doings.need_new(fact)
            case "off" | "on":
                self._movement(fact)
            case "photo":
                self._photo(fact)
            case "unlike":
                self.back.unlike(fact, self.stage_of(fact))
                if fact.subjects:
                    self.parts(fact)  # "right bolt is and …": in hand, whatever was lost behind it
            case "named":
                self.parts(fact)
            case "absent":
                self._absent(fact)

    def stage_of(self, fact: Fact) -> Stage:
        """The stage a fact speaks of by itself, else that of the talk."""
        return stage_told(self.work, self.told, fact)

    def parts(self, fact: Fact, movement: str = "") -> list[Part]:
        """The parts a fact is about, each put in hand; [] where none is known."""
        return _parts(self.work, self.told, fact, movement)

    def _back(self, fact: Fact) -> None:
        if fact.kind == "restore" and any(
            "PHOTO" in m.tags and m.end <= fact.phrase.start for m in self.told.marks
        ):
            self.work.covered.append((fact.start, fact.end))  # "photo of the left side as it was"
            return
        values = [f for f in self.told.facts if f.kind == "value"]
        just_that = fact.kind == "same" and all(s.pronoun and not s.other_words for s in fact.subjects)
        if values and just_that and fact.subjects and values[-1].phrase.end <= fact.phrase.start:
            self.work.covered.append(
                (fact.start, fact.end)
            )  # "twelve point oh six and that's near enough same"
            return
        if fact.kind == "same" and values and names_another(self.work, fact, values):
            self.back.same(fact, self.stage_of(fact))
            return
        later = [f for f in values if f.phrase.start > fact.phrase.start]
        told = {(s.components, s.which) for f in values for s in f.subjects}
        of = {(s.components, s.which) for s in fact.subjects if s.components or s.which or s.selector}
        elsewhere = fact.kind == "same" and bool(of) and told.isdisjoint(of)
        pointed = [s for s in fact.subjects if s.pronoun and not s.which and not s.selector]
        again = bool(values) and fact.kind == "same" and bool(pointed) and pointed == fact.subjects
        moved = [f.subjects for f in self.told.facts if f.kind in {"off", "on"}]
        again = again or (fact.kind == "same" and bool(fact.subjects) and fact.subjects in moved)
        # "right upper same, lower twenty five": what is told behind is of another one by its words.
        apart = elsewhere and all(any(s.which or s.components for s in f.subjects) for f in later)
        if (
            (later and not apart)
            or again
            or (any(f.segment == fact.segment for f in values) and not elsewhere)
        ):
            self.work.covered.append((fact.start, fact.end))  # the value itself is said
        elif fact.kind == "restore":
            self.back.restore(fact)
        elif is_like_a_stranger(self.work.texts, fact.phrase.end, self.work.lexicon):
            self.work.covered.append((fact.start, fact.end))
        else:
            self.back.same(fact, self.stage_of(fact))

    def _finding(self, fact: Fact) -> None:
        condition = of_a_piece(self.work, fact) or fact.phrase.meaning.conditions[-1]
        if is_not_yet(self.work, fact):
            self.work.remark(fact.start, fact.end, "not yet moved")
            self.parts(fact)
        elif (
            condition == "leaking"
            and is_of_the_whole(fact, self.work)
            and not put_on_the_whole(fact, self.work)
        ):
            self.work.remark(fact.start, fact.end, "of the whole")
        elif is_told_elsewhere(self.told, fact, self.work.texts):
            self.work.covered.append((fact.start, fact.end))
        elif is_finding(self.work, self.told, fact, condition):
            hand = self.work.hand
            fact.subjects = owner_of_piece(fact, self.work) or suited(fact, self.work) or fact.subjects
            parts = self.parts(fact)
            if any(self.work.texts[max(0, s.start - 1)] == "where" for s in fact.subjects if s.components):
                self.work.hand = hand  # "pitted where the boot was split": only where it is
            if is_done_away(self.work, self.told, fact, parts):
                self.work.covered.append((fact.start, fact.end))
                return
            put_findings(self.work, self.told, fact, condition, parts, stage=self.stage_of(fact))
        elif any(s.components and s.end <= fact.phrase.start for s in fact.subjects):
            self.parts(fact)  # "the pump they keep running dry": that is in hand

    def _absent(self, fact: Fact) -> None:
        """ "there's no latch on it": missing, where the sheet has a word for it."""
        missing = self.work.lexicon.table.get(("missing",), NOTHING).conditions
        if missing:
            put_findings(self.work, self.told, fact, missing[-1], self.parts(fact), stage=self.stage_of(fact))

    def _movement(self, fact: Fact) -> None:
        direction = way_of(self.work, fact)
        if is_announced(self.work, fact):
            self.work.go_back()
            return
        off = self.work.off
        new = any(s.age == "new" for s in fact.subjects)
        if fact.if_off and not new and not any(off.get(c, 0) for s in fact.subjects for c in s.components):
            return
        if (last := goes_in_too(self.work, fact)) is not None:
            put_again(self.work, last, fact.subjects)
            return
        if not is_loose_move(self.work, self.told, fact):
            if "of" in self.work.texts or "from" in self.work.texts or "behind" in self.work.texts:
                fact.subjects = at_its_place(fact, self.work)
            fact.subjects = _placed_behind(fact, self.told, self.work.texts)
            moved = self.parts(fact, direction)
            if direction == "removed":
                moved = [the_one_left(fact, part, self.work) for part in moved]
            put_movements(self.work, fact, moved, direction)
            name_alike(self.told, fact, moved)
            keep_owner(fact, moved, self.work)

    def _read_on(self, named: tuple[CharacteristicKey, ...]) -> tuple[CharacteristicKey, ...]:
        """ "get a shot of the bore": of the one part that has it, or of which it was read."""
        read = {(key[0], key[2]) for key, _ in self.work.latest}
        known = tuple(key for key in named if key in read) or named
        return known if len({component for component, _ in known}) == 1 else ()

    def _photo(self, fact: Fact) -> None:
        here = [m for m in self.told.marks if m.segment == fact.segment]
        if any("PHOTO_NOT" in m.tags for m in here):
            return
        if not fact.subjects:
            fact.characteristics = self._read_on(self.told.named)
        parts = self.parts(fact)
        part = parts[0] if parts else None
        found = [
            f.phrase.meaning.conditions[-1]
            for f in self.told.facts
            if f.kind == "finding" and f.segment == fact.segment and not f.negated
        ]
        made = self.work.make(
            PhotoMark,
            fact.start,
            fact.end,
            flags=part.flags if part else (),
            stage=told_stage(self.work.texts) or self.stage_of(fact),
            component=part.component if part else None,
            which=part.single if part else None,
            conditions=tuple(found),
        )
        self.work.put(made)


def _placed_behind(fact: Fact, told: Told, texts: Sequence[str]) -> list[Subject]:
    """ "new sleeve in number two, forty five oh three": where it went, which its value has for a subject."""
    end = fact.phrase.end
    one = len(fact.subjects) == 1 and not (fact.subjects[0].which or fact.subjects[0].many)
    bare = one and texts[end - 1] in {"in", "on"}
    values = [s for f in told.facts if f.kind == "value" for s in f.subjects] if bare else []
    there = next((s for s in values if s.start == end and s.which), None)
    if there is None or there.components != fact.subjects[0].components:
        return fact.subjects
    return [replace(fact.subjects[0], which=there.which)]


def _parts(work: Working, told: Told, fact: Fact, movement: str = "") -> list[Part]:
    """The parts a fact is about, each put in hand; [] where none is known."""
    subjects: list[Subject | None] = [*fact.subjects] or [None]
    found: list[Part] = []
    for subject in subjects:
        hand = work.hand
        if hand is not None and not hand.turned and fact.kind in _OF_THE_KIND:
            hand = replace(hand, side=None)
        part = resolve(
            told_by_mates(subject, told, work, movement) if subject is not None else None,
            work.sheet,
            hand,
            work.now,
            off=work.off,
            movement=movement,
            seen=work.seen,
            keys=fact.characteristics,
        )
        if part is None:
            continue
        if subject is not None:
            part = other_of_two(subject, part, work) if subject.selector == "other" else part
            part = that_one(fact, subject, part, work)
            part = told_together(fact, subject, part, work)
            part = those_found_so(work, subject, part) if fact.kind == "finding" else part
        if movement == "fitted" and (part.whiches == (None,) or _is_on_there(part, told, work)):
            part = the_one_off(part, work)
        found.append(part)
        work.named(part.component, part.single)
        if len(part.whiches) > 1 and work.hand is not None:
            work.hand = side_of_several(work.hand, part.whiches, work.sheet)
    return found


def _is_on_there(part: Part, told: Told, work: Working) -> bool:
    """ "The other one goes back with its own diaphragm": that of the side in hand is on again."""
    other = any(s.selector == "other" for s in told.subjects)
    return other and part.single is not None and part.single in fitted_lately(part.component, work)
