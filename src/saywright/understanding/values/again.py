"""Readings that point back: "back where it was", "the same on the other side"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Characteristic, Component, Stage
from saywright.understanding.discourse import reading_key
from saywright.understanding.doings.movements import put_again, put_movements
from saywright.understanding.facts import Fact
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading, Unclear
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.values.alike import (
    REPEATABLE,
    Repeated,
    as_the_other,
    copy_doubts,
    held_like,
    how_bad,
    left_out,
    like_which,
    likens_no_fault,
    read_like,
    told_now,
    told_of,
    told_with,
)
from saywright.understanding.values.same_measure import same_measure
from saywright.understanding.working import Working

_PUTS = frozenset({"put", "goes", "went", "going", "puts", "putting"})


class BackReader:
    """Settles what is said by pointing back."""

    def __init__(self, work: Working) -> None:
        self.work = work

    def restore(self, fact: Fact) -> None:
        """ "Back where it was": the value found before, as left, with a note."""
        for subject in fact.subjects or (None,):
            part = resolve(
                subject,
                self.work.sheet,
                self.work.hand,
                self.work.now,
                off=self.work.off,
                keys=fact.characteristics,
            )
            component = self.work.sheet.get(part.component) if part else None
            if part is None or component is None:
                self._nothing_to_restore(fact, None)
                continue
            settings = self._settings(component, fact)
            if not settings:
                verb = set(self.work.texts[: fact.phrase.start]) & _PUTS
                if self.work.off.get(component.id, 0) or verb:
                    put_movements(self.work, fact, [part], "fitted")  # "cover back where it came from"
                continue
            self.work.named(component.id, part.single)
            for which in self._found(part, component, settings):
                for characteristic in settings:
                    self._restore_one(fact, part, component, which, characteristic)

    def _found(
        self, part: Part, component: Component, settings: list[Characteristic]
    ) -> tuple[str | None, ...]:
        """Those to restore; "the screws": all of them where a value was found of any, those without ask."""
        if not part.bare_plural or part.whiches != (None,):
            return part.whiches
        latest, every = self.work.latest, component.whiches
        known = any(((component.id, w, c.id), "as_found") in latest for w in every for c in settings)
        return every if known else part.whiches

    @staticmethod
    def _settings(component: Component, fact: Fact) -> list[Characteristic]:
        named = {key[1] for key in fact.characteristics if key[0] == component.id}
        return [c for c in component.characteristic if (c.id in named if named else c.restore)]

    def _restore_one(
        self, fact: Fact, part: Part, component: Component, which: str | None, characteristic: Characteristic
    ) -> None:
        key = (component.id, which, characteristic.id)
        if self._counted_here(fact, key):
            return
        found = self.work.latest.get((key, "as_found"))
        if found is None:
            self._nothing_to_restore(fact, component.id)
            return
        repeat_of, more = self.work.repeat(key, "as_left", found.value, exact=False)
        flags = [
            flag(FlagKind.RESTORED, f"{found.value} as found"),
            *part.flags,
            *more,
            *[f for f in found.flags if f.level == "ask"],
        ]
        unsaid = found.model_copy(update={"unit_said": None, "repeat_of": repeat_of})
        self._put_copy(fact, unsaid, "as_left", (component.id, which), flags)

    def _counted_here(self, fact: Fact, key: tuple[str, str | None, str]) -> bool:
        """ "one, one and a half, that's it, same as before": counted, and told to be as it was.

        Where it is not what it was, the value asks.
        """
        made = next((s for s in self.work.out if isinstance(s, Reading) and reading_key(s) == key), None)
        if made is None:
            return False
        self.work.covered.append((fact.start, fact.end))
        found = self.work.before.latest.get((key, "as_found"))
        if found is None or found.in_sheet_unit != made.in_sheet_unit:
            before = f"{found.value} as found" if found is not None else "nothing as found"
            doubt = flag(FlagKind.NUMBER_AMBIGUOUS, f"{made.value} now, {before}")
            self.work.swap(made, made.model_copy(update={"flags": (*made.flags, doubt)}))
        return True

    def _nothing_to_restore(self, fact: Fact, component: str | None) -> None:
        self.work.put(
            self.work.make(
                Unclear,
                fact.start,
                fact.end,
                flags=[flag(FlagKind.NOTHING_TO_RESTORE)],
                component=component,
                reason="said to be as it was, but nothing was found on record",
            )
        )

    def same(self, fact: Fact, stage: Stage) -> None:
        """ "Same on the other side", "so is the pilot": what was said last, of another part."""
        if same_measure(self.work, fact, partial(self._same_value, fact, stage, mixed=False)):
            return
        last = next((s for s in self.work.newest() if isinstance(s, REPEATABLE)), None)
        if last is None or last.component is None or not fact.subjects or as_the_other(self.work, fact):
            return
        if any(isinstance(s, Unclear) for s in self.work.out):
            return  # what was the same is what was not understood
        if likens_no_fault(self.work, fact, last):
            return  # "inner two point one, outer's worse"
        if isinstance(last, Reading | ConditionNote) and any(f.kind == FlagKind.RESTORED for f in last.flags):
            self.restore(fact)  # "back where it was … same for compression"
            return
        if last.stage == "as_left" and last in (*self.work.out, *self.work.last_group()):
            stage = "as_left"  # "new bushes in, upper's eight oh two and the lower same": of what is new too
        subjects, without = left_out(self.work, fact)
        for subject in held_like(self.work, fact, subjects):
            like = self._like(fact, stage, subject)
            told = [] if like else told_with(self.work, last, subject)
            for one in told:
                if one.component not in without:
                    mixed = isinstance(last, ConditionNote | Movement)
                    of = self._of(subject, one) if len(told) > 1 and not subject.components else subject
                    self._again(fact, stage, one, of, mixed)

    def _like(self, fact: Fact, stage: Stage, subject: Subject) -> bool:
        """ "cable same as the front left": what was told of that one; False without such words."""
        part = resolve(subject, self.work.sheet, self.work.hand, self.work.now, off=self.work.off)
        component = self.work.sheet.get(part.component) if part is not None else None
        which = like_which(self.work, fact, component, part.single) if part and component else None
        if part is None or component is None or which is None or which == part.single:
            return False
        # "Lower plate off, it's the same as the top one".
        moved, own = self.work.out[-1] if self.work.out else None, (part.component, part.single)
        of_moved = isinstance(moved, Movement) and (moved.component, moved.which) == own
        if subject.components or of_moved:
            told = told_of(self.work, component, which)
            if self.work.out and isinstance(self.work.out[-1], Reading):  # "main jet 135, pilot same as …"
                told = [one for one in told if isinstance(one, Reading)] or told
            mixed = any(isinstance(one, ConditionNote) for one in told)
            for one in told:
                self._same_one(fact, stage, one, part, part.single, mixed=mixed)
            self.work.named(part.component, part.single)
            return True
        group = self.work.last_group()[-1:]
        if any(getattr(s, "which", None) == which for s in group):
            return False
        # "and the last one same as the first", behind what was read of the middle.
        for read in read_like(self.work, component, which):
            self._same_value(fact, stage, read, part, part.single, mixed=False)
        return True

    def _of(self, subject: Subject, told: Repeated) -> Subject:
        """*subject* as the part that *told* is of."""
        spec = self.work.sheet.get(told.component)
        if spec is None:
            return subject
        subject = replace(subject, components=(spec.id,), pronoun=False)
        if not spec.stations:
            return replace(subject, which=(), selector="")  # "castle nut on", of the side that it was on
        others = [p for p in spec.stations if p != told.which]
        if subject.selector == "other" and len(others) == 1:
            return replace(subject, which=(others[0],), selector="")
        return subject

    def _again(self, fact: Fact, stage: Stage, told: Repeated, subject: Subject, mixed: bool) -> None:
        if isinstance(told, Movement | ActionNote):
            put_again(self.work, told, [subject])
            return
        part = resolve(subject, self.work.sheet, self.work.hand, self.work.now, off=self.work.off)
        if part is None:
            return
        every = subject.selector in {"both", "all"} and part.component == told.component
        for which in part.whiches:
            if not (every and which == told.which):
                self._same_one(fact, stage, told, part, which, mixed=mixed)
        self.work.named(part.component, part.single)

    def unlike(self, fact: Fact, stage: Stage) -> None:
        """ "The right one isn't": the condition told last, the other way round, of another part."""
        near = [*self.work.last_group(), *self.work.out]
        last = next((s for s in reversed(near) if isinstance(s, ConditionNote)), None)
        if last is None or last.present is not fact.negated:
            return
        for subject in fact.subjects:
            part = resolve(subject, self.work.sheet, self.work.hand, self.work.now, off=self.work.off)
            if part is None or (part.component, part.single) == (last.component, last.which):
                continue
            told = last.model_copy(update={"present": not fact.negated, "severity": None})
            for which in part.whiches:
                self._same_one(fact, stage, told, part, which)
            self.work.named(part.component, part.single)

    def _same_one(
        self,
        fact: Fact,
        stage: Stage,
        last: Reading | ConditionNote,
        part: Part,
        which: str | None,
        *,
        mixed: bool = False,
    ) -> None:
        """*last*, of *which* of *part*; a value asks where *mixed* with something else that is the same."""
        if isinstance(last, ConditionNote):
            if told_now(self.work, fact, part.component, which, last):
                return  # "dry, and so is the bag they came in"
            self.work.put(
                self.work.make(
                    ConditionNote,
                    fact.start,
                    fact.end,
                    flags=part.flags,
                    stage=stage,
                    component=part.component,
                    which=which,
                    condition=last.condition,
                    present=last.present,
                    severity=None if how_bad(self.work, fact) == "worse" else last.severity,
                )
            )
            return
        self._same_value(fact, stage, last, part, which, mixed=mixed)

    def _same_value(
        self, fact: Fact, stage: Stage, last: Reading, part: Part, which: str | None, *, mixed: bool
    ) -> None:
        characteristic = self.work.sheet.find(part.component, last.characteristic)
        if characteristic is None:
            return
        repeat_of, more = self.work.repeat(
            (part.component, which, last.characteristic), stage, last.value, exact=characteristic.is_count
        )
        more += copy_doubts(self.work, last, (part.component, which), characteristic)
        flags = [
            *part.flags,
            *more,
            *([flag(FlagKind.NUMBER_AMBIGUOUS, "the same in its value too?")] if mixed else []),
            *[f for f in last.flags if f.level == "ask" and f.kind != FlagKind.WHICH_UNCLEAR],
        ]
        again = last.model_copy(update={"repeat_of": repeat_of})
        self._put_copy(fact, again, stage, (part.component, which), flags)

    def _put_copy(
        self, fact: Fact, told: Reading, stage: Stage, of: tuple[str, str | None], flags: Sequence[Flag]
    ) -> None:
        """The value of *told* said anew, of a component and which of several."""
        component, which = of
        self.work.put(
            self.work.make(
                Reading,
                fact.start,
                fact.end,
                flags=flags,
                stage=stage,
                component=component,
                which=which,
                characteristic=told.characteristic,
                value=told.value,
                unit=told.unit,
                unit_said=told.unit_said,
                in_sheet_unit=told.in_sheet_unit,
                approximate=told.approximate,
                repeat_of=told.repeat_of,
            )
        )
