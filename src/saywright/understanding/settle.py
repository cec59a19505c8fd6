"""Facts → statements: each fact is settled with the sheet and the state of the talk."""

from __future__ import annotations

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component, Stage
from saywright.understanding.again import BackReader
from saywright.understanding.facts import Fact, Told
from saywright.understanding.parts import Part, resolve
from saywright.understanding.readings import ReadingSettler
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Movement,
    PhotoMark,
    Severity,
    Status,
)
from saywright.understanding.subjects import Subject
from saywright.understanding.working import Working

_SEVERITY: tuple[tuple[str, Severity], ...] = (
    ("SEVERE", "severe"),
    ("MODERATE", "moderate"),
    ("SLIGHT", "slight"),
)
_COMMON = frozenset({"id", "stage", "heard", "start_s", "end_s", "line", "utterance", "flags", "kind"})


class Settler:
    """Settles the facts of one utterance in order."""

    def __init__(self, work: Working, told: Told) -> None:
        self.work = work
        self.told = told
        self.readings = ReadingSettler(work, told)
        self.back = BackReader(work)

    def settle(self, fact: Fact) -> None:
        """Make the statements that *fact* tells."""
        match fact.kind:
            case "value":
                self.readings.value(fact, self.stage_of(fact))
            case "restore":
                if any(f.kind == "value" and f.phrase.start > fact.phrase.start for f in self.told.facts):
                    self.work.covered.append((fact.start, fact.end))  # the value itself is said
                else:
                    self.back.restore(fact)
            case "same":
                self.back.same(fact, self.stage_of(fact))
            case "finding":
                self._finding(fact)
            case "doing":
                self._doing(fact)
            case "need_new":
                self._need_new(fact)
            case "off" | "on":
                self._movement(fact)
            case "photo":
                self._photo(fact)

    def stage_of(self, fact: Fact) -> Stage:
        """The stage a fact speaks of by itself, else that of the talk."""
        marks = [m for m in self.told.marks if m.segment == fact.segment]
        if any("BEFORE_WORK" in m.tags for m in marks):
            return "as_found"
        if any("RESTORE" in m.tags and m.start < fact.phrase.start for m in self.told.marks):
            return "as_left"
        if any("AFTER" in m.tags for m in marks) or any(s.age == "new" for s in fact.subjects):
            return "as_left"
        fitted = any(f.kind == "on" and f.segment == fact.segment for f in self.told.facts)
        return "as_left" if fitted else self.work.stage

    def parts(self, fact: Fact, movement: str = "") -> list[Part]:
        """The parts a fact is about, each put in hand; [] where none is known."""
        subjects: list[Subject | None] = [*fact.subjects] or [None]
        found: list[Part] = []
        for subject in subjects:
            part = resolve(
                subject,
                self.work.sheet,
                self.work.hand,
                self.work.now,
                off=self.work.off,
                movement=movement,
                keys=fact.characteristics,
            )
            if part is None:
                continue
            found.append(part)
            self.work.named(part.component, part.single)
        return found

    def _finding(self, fact: Fact) -> None:
        if any(
            f.kind == "photo" and f.segment == fact.segment and f.phrase.end <= fact.phrase.start
            for f in self.told.facts
        ):
            self.work.covered.append((fact.start, fact.end))  # "picture of the scoring" is told by the mark
            return
        before = [
            f
            for f in self.told.facts
            if f.kind == "doing" and f.start <= fact.phrase.start and f.end > fact.phrase.end
        ]
        if any(f.phrase.end <= fact.phrase.start and f.subjects == fact.subjects for f in before):
            self.work.covered.append(
                (fact.start, fact.end)
            )  # "cleaned the varnish off the bowl" tells what was done
            return
        condition = fact.phrase.meaning.conditions[-1]
        if not self._is_finding(fact, condition):
            return
        severity = next((name for tag, name in _SEVERITY if tag in fact.degree), None)
        stage = self.stage_of(fact)
        for component, which, flags in self._targets(fact):
            if self._said_already(component, which, condition, present=not fact.negated):
                self.work.covered.append((fact.start, fact.end))
                continue
            self.work.put(
                self.work.make(
                    ConditionNote,
                    fact.start,
                    fact.end,
                    flags=flags,
                    stage=stage,
                    component=component,
                    which=which,
                    condition=condition,
                    present=not fact.negated,
                    severity=None if fact.negated else severity,
                )
            )

    def _is_finding(self, fact: Fact, condition: str) -> bool:
        """ "good man", "dry today": a word of praise or weather finds nothing on the part in hand."""
        if any(s.components for s in fact.subjects):
            return True
        spec = self.work.sheet.get_condition(condition)
        told = bool(fact.phrase.aux_tags & {"COP", "NEG", "SLIGHT", "MODERATE", "SEVERE"}) or fact.negated
        head = fact.phrase.end
        after = self.work.texts[head : head + 1]
        adjective = (
            bool(after) and after[0].isalpha() and (after[0],) not in self.work.lexicon.table and not told
        )
        alone = not self.told.strays.get(fact.segment)
        if adjective or not (told or alone):
            return False
        if spec is not None and spec.good:
            that = any(self.work.texts[s.start : s.end] == ("that",) for s in fact.subjects)
            if alone and not fact.subjects and fact.phrase.head is not None and not fact.phrase.aux:
                return self._just_named() and len(self.work.texts) <= fact.phrase.end - fact.phrase.start + 1
            return (
                "COP" in fact.phrase.aux_tags and not that and bool(fact.subjects or self._noun_before(fact))
            )
        return True

    def _just_named(self) -> bool:
        hand = self.work.hand
        return hand is not None and self.work.now - hand.utterance <= 1

    def _noun_before(self, fact: Fact) -> bool:
        """ "slot's clean": some noun of the part in hand is the subject."""
        start = fact.phrase.start
        return start > 0 and self.work.texts[start - 1].isalpha()

    def _said_already(
        self, component: str | None, which: str | None, condition: str, *, present: bool
    ) -> bool:
        """ "a ridge worn in it" says one thing in two words."""
        return any(
            isinstance(s, ConditionNote)
            and (s.component, s.which, s.condition, s.present) == (component, which, condition, present)
            for s in self.work.out
        )

    def _targets(self, fact: Fact) -> list[tuple[str | None, str | None, tuple[Flag, ...]]]:
        parts = self.parts(fact)
        if not parts:
            return [(None, None, (flag(FlagKind.PART_AMBIGUOUS, "no part was named"),))]
        return [(part.component, which, part.flags) for part in parts for which in part.whiches]

    def _doing(self, fact: Fact) -> None:
        act = fact.phrase.meaning.acts[0]
        status = action_status(act.form, fact.aux)
        if any(
            m.segment == fact.segment and "SUBORDINATE" in m.tags and m.end <= fact.phrase.start
            for m in self.told.marks
        ):
            if act.form == "ing":
                return
        action = self.work.sheet.get_action(act.id)
        if act.form == "ing" and action is not None and action.order and status == "done":
            status = "proposed"
        self._act(fact, act.id, status)

    def _need_new(self, fact: Fact) -> None:
        known = [action.id for action in self.work.sheet.action if action.id == "replace" or action.order]
        if known:
            self._act(fact, "replace" if "replace" in known else known[0], "proposed")

    def _act(self, fact: Fact, action: str, status: Status) -> None:
        for part in self.parts(fact) or (None,):
            whiches = part.whiches if part is not None and len(part.whiches) == 1 else (None,)
            flags = part.flags if part is not None else (flag(FlagKind.PART_AMBIGUOUS, "no part was named"),)
            self.work.put(
                self.work.make(
                    ActionNote,
                    fact.start,
                    fact.end,
                    flags=flags,
                    stage=self.work.stage,
                    component=part.component if part is not None else None,
                    which=whiches[0],
                    action=action,
                    status=status,
                    quantity=part.count if part is not None else None,
                )
            )

    def _movement(self, fact: Fact) -> None:
        direction = "removed" if fact.kind == "off" else "fitted"
        if not any(s.components for s in fact.subjects) and self._loose_move(fact):
            return
        parts = self.parts(fact, direction)
        for part in parts:
            component = self.work.sheet.get(part.component)
            if component is None:
                continue
            count, flags = self._count(part, component)
            age = part.age
            if direction == "fitted" and component.renew and age == "old":
                flags.append(flag(FlagKind.RENEW_REFITTED, component.label))
            which = part.single
            stage: Stage = "as_left" if direction == "fitted" else self.work.stage
            self.work.put(
                self.work.make(
                    Movement,
                    fact.start,
                    fact.end,
                    flags=(*part.flags, *flags),
                    stage=stage,
                    component=part.component,
                    which=which,
                    count=count,
                    movement=direction,
                    part=age,
                )
            )
            away = self.work.off.get(part.component, 0)
            self.work.off[part.component] = away + count if direction == "removed" else max(0, away - count)

    def again(self, last: Movement | ConditionNote, subjects: list[Subject]) -> None:
        """The same movement or condition of one more part."""
        for subject in subjects:
            work = self.work
            part = resolve(subject, work.sheet, work.hand, work.now, off=work.off)
            component = work.sheet.get(part.component) if part is not None else None
            if part is None or component is None:
                continue
            which = part.single
            changes: dict[str, object] = {"component": part.component, "which": which}
            if isinstance(last, Movement):
                changes["count"] = self._count(part, component)[0]
                changes["part"] = part.age
            fields = {name: value for name, value in last if name not in _COMMON}
            work.put(
                work.make(
                    type(last),
                    subject.start,
                    subject.end,
                    flags=part.flags,
                    stage=last.stage,
                    **{**fields, **changes},
                )
            )
            work.named(part.component, which)

    def _loose_move(self, fact: Fact) -> bool:
        """ "back on it", "hold it in place": words of movement that move no part."""
        after = self.work.texts[fact.phrase.end : fact.phrase.end + 1]
        points_back = bool(after) and after[0] in {"it", "that", "them", "this"}
        return points_back or bool(self.told.strays.get(fact.segment))

    def _count(self, part: Part, component: Component) -> tuple[int, list[Flag]]:
        flags: list[Flag] = []
        count = part.count or 1
        if part.count is None and part.bare_plural and component.count > 1:
            count = component.count
            flags.append(flag(FlagKind.COUNT_FROM_SHEET, f"{count} {component.label}"))
        if count > component.count:
            flags.append(flag(FlagKind.COUNT_TOO_HIGH, f"{count} of {component.count}"))
        return count, flags

    def _photo(self, fact: Fact) -> None:
        if any(m.segment == fact.segment and "PHOTO_NOT" in m.tags for m in self.told.marks):
            return
        parts = self.parts(fact)
        part = parts[0] if parts else None
        same = [
            f for f in self.told.facts if f.kind == "finding" and f.segment == fact.segment and not f.negated
        ]
        self.work.put(
            self.work.make(
                PhotoMark,
                fact.start,
                fact.end,
                flags=part.flags if part else (),
                stage=self.stage_of(fact),
                component=part.component if part else None,
                which=part.single if part else None,
                conditions=tuple(f.phrase.meaning.conditions[-1] for f in same),
            )
        )


def action_status(form: str, aux: frozenset[str]) -> Status:
    """Whether an action is proposed, done or declined, by its verb form and helping words."""
    if aux & {"DECLINE", "NEG"} and not (aux <= {"COP", "DONE"}):
        return "declined"
    if "NEED" in aux:
        return "proposed"
    if form == "base":
        return "proposed"
    return "done"
