"""Value facts → readings, or an open question where the value has no certain place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Stage
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.counting.counts import small_count
from saywright.understanding.discourse import OpenNumber, placed_key
from saywright.understanding.facts import Fact, Told
from saywright.understanding.fixed import fixed
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.second_thoughts.put_right import part_put_right, there_too
from saywright.understanding.sides.carried_sides import other_size, side_doubts
from saywright.understanding.stages import stage_by_value, stage_of_reading
from saywright.understanding.statements import ActionNote, Reading, Unclear
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve, which_flags
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.carried_units import able_to, rival_flags, so_placed_too
from saywright.understanding.values.done_up import each_done_up
from saywright.understanding.values.fitting import Choice, is_approximate
from saywright.understanding.values.named_fellows import named_fellow
from saywright.understanding.values.not_read import MAY_BE_SEVERAL, is_so_many_out, is_turned_on, why_not_read
from saywright.understanding.values.place_taking import named_place
from saywright.understanding.values.places import hardly_named, is_licensed
from saywright.understanding.values.said_again import is_judged_again
from saywright.understanding.values.shared_heads import share_head
from saywright.understanding.values.those_told import those_told
from saywright.understanding.values.told_apart import told_apart
from saywright.understanding.values.unnamed_values import looks_measured
from saywright.understanding.working import Working

_HESITATIONS = frozenset({BREAK, "uh", "um", "er"})
_SOFTENERS = _HESITATIONS | {"well", "or", "say", "somewhere", "more", "like", "rather", "actually"}
_ENDS_OPEN = _HESITATIONS | {"point", "and", "decimal", ""}  # a number may go on behind these


@fixed
class _Saying:
    """A value as it was said."""

    fact: Fact
    measure: Measure
    stage: Stage
    replaces: Reading | None  # the reading it corrects


class ReadingSettler:
    """Settles values."""

    def __init__(self, work: Working, told: Told) -> None:
        self.work = work
        self.told = told

    def value(self, fact: Fact, stage: Stage, *, replaces: Reading | None = None) -> list[Reading]:
        """The readings a value fact tells; an `Unclear` or nothing where it has no certain place."""
        share_head(self.work, fact)
        measure = fact.phrase.measure
        assert measure is not None  # a value fact is made from a measure
        if self._is_quantity(fact, measure) or (replaces is None and self._hedges_last(fact, measure)):
            return []
        if replaces is None and is_judged_again(self.work, fact, measure):
            self.work.remark(fact.start, fact.end, "told before")
            return []
        if self._is_vague(fact, measure):
            self._unclear(fact, "only part of a number was said")
            return []
        saying = _Saying(fact, measure, stage, replaces)
        made: list[Reading] = []
        placeless = False
        for subject, found, flags in able_to(self.work, fact, measure, replaces):
            corrects = replaces is not None and found is not None and found[0].fits
            if found is not None and (why := why_not_read(fact, found[0], self.work)):
                if why == MAY_BE_SEVERAL:
                    self._unclear(fact, why)
                else:
                    self.work.remark(fact.phrase.start, fact.phrase.end, why)
                return []
            if found is not None and self._is_circumstance(fact, found[0]):
                continue
            if found is not None and is_so_many_out(self.work, fact, found[0]):
                continue
            if found is not None and replaces is None and is_turned_on(self.work, fact, found[0]):
                self._unclear(fact, "turned further, and what it comes to was not said")
                return []
            if found is None or not (corrects or is_licensed(self.work, self.told, fact, subject, found[0])):
                placeless = True
                continue
            made.extend(self._put(saying, subject, *found, flags))
        if placeless and not made and looks_measured(self.work, fact, measure):
            self._unclear(fact, "a number, but it has no certain place")
        self._note_open(fact, made)
        return made

    def _is_quantity(self, fact: Fact, measure: Measure) -> bool:
        """ "order two": a number right behind an action to order is how many."""
        count = small_count(measure)
        last = self.work.out[-1] if self.work.out else None
        if count is None or fact.characteristics or not isinstance(last, ActionNote):
            return False
        earlier = [f for f in self.told.facts if f.phrase.end <= fact.phrase.start]
        before = earlier[-1] if earlier else None
        if last.action not in {"order", "replace"} or before is None or before.kind != "doing":
            return False
        if fact.phrase.start - before.phrase.end > 1:
            return False
        self.work.out[-1] = last.model_copy(update={"quantity": count})
        self.work.covered.append((fact.start, fact.end))
        return True

    def _hedges_last(self, fact: Fact, measure: Measure) -> bool:
        """ "point seven, well, between point six five and point seven": the first value was no exact one."""
        last = self.work.out[-1] if self.work.out else None
        earlier = [f for f in self.told.facts if f.phrase.end <= fact.phrase.start]
        if not isinstance(last, Reading) or not earlier or earlier[-1].kind != "value":
            return False
        before = earlier[-1]
        if not _SOFTENERS.issuperset(self.work.texts[before.phrase.end : fact.phrase.start]):
            return False
        ends = [parse_value(r.value) for r in (measure.readings[0], *measure.second[:1])]
        if not measure.approximate or not min(ends) <= parse_value(last.value) <= max(ends):
            return False
        doubts = (*last.flags, flag(FlagKind.APPROXIMATE, measure.hedge or ""))
        self.work.swap(last, last.model_copy(update={"flags": doubts, "approximate": True}))
        self.work.covered.append((before.phrase.end, fact.phrase.end))
        return True

    def _is_circumstance(self, fact: Fact, best: Choice) -> bool:
        """ "voltage at two thousand revs": under what it was measured; the value is still to come."""
        start = fact.phrase.start
        if self.work.texts[max(0, start - 1) : start] != ("at",) or fact.phrase.measure is None:
            return False
        if fact.phrase.measure.unit_said is None or not fact.characteristics:
            return False
        if all(f.kind != FlagKind.UNIT_MISMATCH for f in best.flags):
            return False
        self.work.remark(start - 1, fact.phrase.end, "how it was measured")
        following = next((f for f in self.told.facts if f.kind == "value" and f.phrase.start > start), None)
        if following is None:
            self.told.named = fact.characteristics
        else:
            following.characteristics = following.characteristics or fact.characteristics
        return True

    def _is_vague(self, fact: Fact, measure: Measure) -> bool:
        """ "eighteen something", "point eight … illegible"."""
        if "something" in (measure.hedge or ""):
            return True
        return any("VAGUE" in m.tags and 0 <= m.start - fact.phrase.end <= 1 for m in self.told.marks)

    def _unclear(self, fact: Fact, reason: str) -> None:
        named = [c for s in fact.subjects for c in s.components] or [key[0] for key in fact.characteristics]
        held = self.work.hand.component if self.work.hand is not None else None
        component = named[0] if named else held
        self.work.put(self.work.make(Unclear, fact.start, fact.end, component=component, reason=reason))

    def _put(
        self,
        saying: _Saying,
        subject: Subject | None,
        best: Choice,
        rivals: Sequence[Choice],
        flags: Sequence[Flag],
    ) -> list[Reading]:
        best, rivals = told_apart(self.work, best, so_placed_too(self.work.sheet, subject, best, rivals))
        component = self.work.sheet.get(best.key[0])
        characteristic = self.work.sheet.find(*best.key)
        assert component is not None  # keys come from the sheet
        assert characteristic is not None
        told = [*flags, *best.flags, *rival_flags(best, rivals), *named_fellow(self.work, saying.fact, best)]
        part = self._part(subject, best, rivals, saying.replaces)
        if saying.replaces is None:
            if hardly_named(self.work, self.told, saying.fact, subject, best):
                told.append(flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, "by its place alone"))
            if not saying.fact.characteristics and len(component.characteristic) > 1:
                told.append(flag(FlagKind.CHARACTERISTIC_FROM_PART, characteristic.label))
        told.extend(part.flags)
        if saying.fact.in_order:
            told.extend(which_flags(component, ": in the order said"))
        unclear = which_flags(component)
        made = [
            self._reading(saying, best, which, characteristic, [*told, *unclear] if which is None else told)
            for which in part.whiches
        ]
        self.work.named(component.id, part.single)
        return made

    def _part(
        self, subject: Subject | None, best: Choice, rivals: Sequence[Choice], replaces: Reading | None
    ) -> Part:
        """The part that the chosen characteristic is of."""
        named = subject is not None and bool(subject.components)
        if replaces is not None and not named and best.key[0] == replaces.component:
            return part_put_right(subject, self.work.sheet, replaces, self.work.hand)
        part = resolve(
            subject,
            self.work.sheet,
            self.work.hand,
            self.work.now,
            off=self.work.off,
            seen=self.work.seen,
            keys=(best.key,),
        )
        if part is None or part.component != best.key[0]:
            which = there_too(part, self.work.sheet.get(best.key[0]))
            return Part(best.key[0], (which,), None, False, None, (flag(FlagKind.PART_FROM_CHARACTERISTIC),))
        component, read = self.work.sheet.get(best.key[0]), self.work.sheet.find(*best.key)
        if named and part.whiches == (None,) and component is not None and read is not None:
            part = each_done_up(part, subject, (component, read), self.work)
        part = those_told(self.work, subject, part, component, self.told) if component is not None else part
        if not named or any(rival.key[0] != best.key[0] for rival in rivals):
            return part
        # Only one of the parts of that name has such a value: the name is no longer in doubt.
        return replace(part, flags=tuple(f for f in part.flags if f.kind != FlagKind.PART_AMBIGUOUS))

    def _reading(
        self,
        saying: _Saying,
        best: Choice,
        which: str | None,
        characteristic: Characteristic,
        flags: Sequence[Flag],
    ) -> Reading:
        fact, measure, stage = saying.fact, saying.measure, saying.stage
        repeat_of: str | None = None
        more: list[Flag] = []
        place = self._place(saying, best)
        if place is None and characteristic.places:
            more = [flag(FlagKind.PLACE_NOT_SAID, ", ".join(characteristic.places))]
        if saying.replaces is not None:
            stage = saying.replaces.stage
        else:
            key = placed_key((best.key[0], which, best.key[1]), place)
            stage = stage_of_reading(self.work, self.told, fact, (key, best.value), stage)
            if is_counted(characteristic):
                stage = stage_by_value(self.work, fact, key, best.value, stage)
            repeat_of, again = self.work.repeat(
                key, stage, best.value, exact=characteristic.is_count and not fact.changes
            )
            more += again
            if not any(s.selector in {"both", "all"} for s in fact.subjects):  # "both" is of each side
                more += side_doubts(self.work, key, stage, characteristic, best.in_sheet_unit)
            named = any(s.components for s in fact.subjects)
            more += other_size(self.work, (key, stage), characteristic, best.value, named=named, flags=flags)
        reading = self.work.make(
            Reading,
            fact.start,
            fact.end,
            flags=[*flags, *more],
            stage=stage,
            component=best.key[0],
            which=which,
            characteristic=best.key[1],
            place=place,
            value=best.value,
            unit=best.unit,
            unit_said=measure.unit_said,
            in_sheet_unit=best.in_sheet_unit,
            approximate=is_approximate(measure, characteristic),
            repeat_of=repeat_of,
        )
        self.work.put(reading)
        self.work.said[reading.id] = fact
        return reading

    def _place(self, saying: _Saying, best: Choice) -> str | None:
        """The named place at which the value was read; a correction keeps that of what it corrects."""
        value = (saying.fact.phrase.start, saying.fact.phrase.end)
        place = named_place(self.work, self.told.spans(), value, best.key)
        if place is None and saying.replaces is not None and saying.replaces.characteristic == best.key[1]:
            return saying.replaces.place
        return place

    def _note_open(self, fact: Fact, made: Sequence[Reading]) -> None:
        """A number that ends the utterance may go on after a pause."""
        rest = self.work.texts[fact.phrase.end :]
        if not _ENDS_OPEN.issuperset(rest):
            return
        words = tuple([t for t in self.work.texts[fact.phrase.start :] if t not in _HESITATIONS])
        reading = made[-1] if made else None
        last = self.work.out[-1] if self.work.out else None
        unclear = last.id if reading is None and isinstance(last, Unclear) else None
        held = self.work.hand.component if self.work.hand else None
        self.work.open_number = OpenNumber(
            words=words,
            reading=reading.id if reading else unclear,
            component=reading.component if reading else held,
            which=reading.which if reading else (self.work.hand.which if self.work.hand else None),
            characteristic=reading.characteristic if reading else None,
            utterance=self.work.now,
            end_s=self.work.utterance.end_s,
            heard=reading.heard if reading else "",
            start_s=reading.start_s if reading else None,
        )
