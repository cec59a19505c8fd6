"""Value facts → readings, or an open question where the value has no certain place."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Characteristic, Stage
from saywright.understanding.counts import small_count
from saywright.understanding.discourse import OpenNumber
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.measures import Measure
from saywright.understanding.parts import Part, resolve
from saywright.understanding.statements import ActionNote, Reading, Unclear
from saywright.understanding.subjects import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.values import Choice, best_choice
from saywright.understanding.working import Working
from saywright.units import get_unit

_FRESH = 3  # utterances for which a named part still takes a bare number


class ReadingSettler:
    """Settles values."""

    def __init__(self, work: Working, told: Told) -> None:
        self.work = work
        self.told = told

    def value(self, fact: Fact, stage: Stage, *, replaces: Reading | None = None) -> list[Reading]:
        """The readings a value fact tells; an `Unclear` or nothing where it has no certain place."""
        measure = fact.phrase.measure
        assert measure is not None  # a value fact is made from a measure
        if self._is_quantity(fact, measure):
            return []
        vague = "something" in (measure.hedge or "")
        if vague or any("VAGUE" in m.tags and 0 <= m.start - fact.phrase.end <= 1 for m in self.told.marks):
            self._unclear(fact, "only part of a number was said")
            return []
        made: list[Reading] = []
        placeless = 0
        for subject in fact.subjects or (None,):
            keys, flags = self._keys(fact, subject, replaces)
            found = best_choice(measure, keys, self.work.sheet)
            if found is None or not self._licensed(fact, subject, found[0]):
                placeless += 1
                continue
            made.extend(self._put(fact, subject, stage, found, flags, replaces))
        if placeless and not made:
            self._without_place(fact, measure)
        self._note_open(fact, made)
        return made

    def _is_quantity(self, fact: Fact, measure: Measure) -> bool:
        """ "order two": a number behind an action to order is how many."""
        count = small_count(measure)
        last = self.work.out[-1] if self.work.out else None
        if (
            count is None
            or fact.characteristics
            or not isinstance(last, ActionNote)
            or last.action not in {"order", "replace"}
        ):
            return False
        index = self.told.facts.index(fact)
        if (
            index == 0
            or self.told.facts[index - 1].kind != "doing"
            or fact.phrase.start - self.told.facts[index - 1].phrase.end > 1
        ):
            return False
        self.work.out[-1] = last.model_copy(update={"quantity": count})
        self.work.covered.append((fact.start, fact.end))
        return True

    # what it could be a value of

    def _keys(
        self, fact: Fact, subject: Subject | None, replaces: Reading | None
    ) -> tuple[list[CharacteristicKey], list[Flag]]:
        if replaces is not None and not fact.characteristics and (subject is None or not subject.components):
            return [(replaces.component, replaces.characteristic)], []
        components = self._components(subject)
        if fact.characteristics:
            if components:
                inside = [key for key in fact.characteristics if key[0] in components]
                if inside:
                    return inside, []
                if subject is not None and subject.components:
                    return self._all(components), [flag(FlagKind.CHARACTERISTIC_AMBIGUOUS)]
            return list(fact.characteristics), []
        awaited = self.work.before.awaited
        if (
            awaited is not None
            and (not components or awaited[0] in components)
            and not (subject is not None and subject.components)
        ):
            return [awaited], []
        return self._all(components), []

    def _components(self, subject: Subject | None) -> list[str]:
        if subject is not None and subject.components:
            return list(subject.components)
        return [self.work.hand.component] if self.work.hand is not None else []

    def _all(self, components: Sequence[str]) -> list[CharacteristicKey]:
        found = map(self.work.sheet.get, components)
        return [
            (c.id, characteristic.id) for c in found if c is not None for characteristic in c.characteristic
        ]

    def _licensed(self, fact: Fact, subject: Subject | None, best: Choice) -> bool:
        """True where the words give the value a place: a name, a pronoun, "I get", or the part named just before."""
        mismatch = any(f.kind == FlagKind.UNIT_MISMATCH for f in best.flags)
        awaited = self.work.before.awaited is not None and best.key == self.work.before.awaited
        if fact.characteristics or (awaited and not self.told.strays.get(fact.segment)):
            return True
        if mismatch:
            return False
        if subject is not None and subject.components:
            component = self.work.sheet.get(best.key[0])
            return best.fits or (component is not None and len(component.characteristic) == 1)
        if not best.fits or self.told.strays.get(fact.segment):
            return False
        since = self.work.now - self.work.hand.utterance if self.work.hand is not None else _FRESH + 1
        goes_on = "point" in self.work.texts[fact.phrase.end : fact.phrase.end + 1]
        exact = "." in best.value or len(best.value) > 2 or goes_on
        fresh = since <= (_FRESH if exact else 1)
        if subject is not None or fact.introduced:
            return self.work.hand is not None
        return fresh

    def _without_place(self, fact: Fact, measure: Measure) -> None:
        """A number that fits nowhere: a question where it looks measured, else plain talk."""
        best = measure.readings[0] if measure.readings else None
        looks_measured = (
            best is None
            or "." in best.value
            or measure.unit is not None
            or fact.introduced
            or len(best.value) >= 3
        )
        known = {get_unit(c.unit).kind for _, c in self.work.sheet.characteristics()}
        if measure.unit is not None and get_unit(measure.unit).kind not in known and not fact.characteristics:
            looks_measured = False
        after = self.work.texts[fact.phrase.end : fact.phrase.end + 1]
        if after and measure.unit_said is None and not fact.characteristics and self._is_noun(after[0]):
            looks_measured = False
        if looks_measured:
            self._unclear(fact, "a number, but it has no certain place")

    def _unclear(self, fact: Fact, reason: str) -> None:
        named = [c for s in fact.subjects for c in s.components] or [key[0] for key in fact.characteristics]
        held = self.work.hand.component if self.work.hand is not None else None
        component = named[0] if named else held
        self.work.put(self.work.make(Unclear, fact.start, fact.end, component=component, reason=reason))

    def _is_noun(self, word: str) -> bool:
        """True for a word that neither the sheet nor bench talk knows: "a one sixty fork"."""
        return word.isalpha() and len(word) > 2 and (word,) not in self.work.lexicon.table

    # making them

    def _put(
        self,
        fact: Fact,
        subject: Subject | None,
        stage: Stage,
        found: tuple[Choice, tuple[Choice, ...]],
        flags: list[Flag],
        replaces: Reading | None,
    ) -> list[Reading]:
        best, rivals = found
        component = self.work.sheet.get(best.key[0])
        characteristic = self.work.sheet.find(*best.key)
        assert component is not None  # keys come from the sheet
        assert characteristic is not None
        flags = [*flags, *best.flags, *_rival_flags(best, rivals, self.work.sheet.find)]
        part = self._part(subject, best, rivals, replaces)
        if replaces is None and self._hardly_named(fact, subject, best, characteristic):
            flags.append(flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, "neither a name nor a unit was said"))
        if not fact.characteristics and len(component.characteristic) > 1 and replaces is None:
            flags.append(flag(FlagKind.CHARACTERISTIC_FROM_PART, characteristic.label))
        flags.extend(part.flags)
        made: list[Reading] = []
        for which in part.whiches:
            here = [*flags]
            if which is None and component.positions:
                here.append(flag(FlagKind.WHICH_UNCLEAR, component.label))
            made.append(self._reading(fact, stage, best, which, characteristic, here, replaces))
        self.work.named(component.id, part.whiches[0] if len(part.whiches) == 1 else None)
        return made

    def _hardly_named(
        self, fact: Fact, subject: Subject | None, best: Choice, characteristic: Characteristic
    ) -> bool:
        """ "that's eighty": a bare whole number, by its place alone taken for a length or a pressure."""
        measure = fact.phrase.measure
        if fact.characteristics or (subject is not None and subject.components):
            return False
        if measure is None or measure.unit_said is not None or "." in best.value:
            return False
        awaited = self.work.before.awaited is not None and best.key == self.work.before.awaited
        return not awaited and get_unit(characteristic.unit).kind not in {"number", "turn"}

    def _part(
        self, subject: Subject | None, best: Choice, rivals: Sequence[Choice], replaces: Reading | None
    ) -> Part:
        if (
            replaces is not None
            and (subject is None or not subject.components)
            and best.key[0] == replaces.component
        ):
            which = subject.which if subject is not None and subject.which else (replaces.which,)
            return Part(replaces.component, tuple(which), None, False, None, (), True)
        hand = self.work.hand
        part = resolve(subject, self.work.sheet, hand, self.work.now, off=self.work.off, keys=(best.key,))
        if part is not None and part.component == best.key[0]:
            if any(rival.key[0] != best.key[0] for rival in rivals):
                return part
            return (
                _without(part, FlagKind.PART_AMBIGUOUS)
                if subject is not None and subject.components
                else part
            )
        return Part(best.key[0], (None,), None, False, None, (flag(FlagKind.PART_FROM_CHARACTERISTIC),), True)

    def _reading(
        self,
        fact: Fact,
        stage: Stage,
        best: Choice,
        which: str | None,
        characteristic: Characteristic,
        flags: list[Flag],
        replaces: Reading | None,
    ) -> Reading:
        measure = fact.phrase.measure
        assert measure is not None
        key = (best.key[0], which, best.key[1])
        if replaces is not None:
            stage = replaces.stage
        repeat_of, more = (
            (None, [])
            if replaces is not None
            else self.work.repeat(key, stage, best.value, exact=characteristic.is_count)
        )
        reading = self.work.make(
            Reading,
            fact.start,
            fact.end,
            flags=[*flags, *more],
            stage=stage,
            component=best.key[0],
            which=which,
            characteristic=best.key[1],
            value=best.value,
            unit=best.unit,
            unit_said=measure.unit_said,
            in_sheet_unit=best.in_sheet_unit,
            approximate=measure.approximate,
            repeat_of=repeat_of,
        )
        self.work.put(reading)
        return reading

    def _note_open(self, fact: Fact, made: Sequence[Reading]) -> None:
        """A number that ends the utterance may go on after a pause."""
        rest = self.work.texts[fact.phrase.end :]
        if any(text and text not in {BREAK, "uh", "um", "er", "point", "and", "decimal"} for text in rest):
            return
        words = tuple(t for t in self.work.texts[fact.phrase.start :] if t not in {BREAK, "uh", "um", "er"})
        reading = made[-1] if made else None
        last = self.work.out[-1] if self.work.out else None
        unclear = last.id if reading is None and isinstance(last, Unclear) else None
        self.work.open_number = OpenNumber(
            words=words,
            reading=reading.id if reading else unclear,
            component=reading.component
            if reading
            else (self.work.hand.component if self.work.hand else None),
            which=reading.which if reading else None,
            characteristic=reading.characteristic if reading else None,
            utterance=self.work.now,
            end_s=self.work.utterance.end_s,
            heard=reading.heard if reading else "",
            start_s=reading.start_s if reading else None,
        )


def _rival_flags(best: Choice, rivals: Sequence[Choice], find: object) -> list[Flag]:
    del find
    flags: list[Flag] = []
    if any(r.key[0] == best.key[0] and r.key != best.key for r in rivals):
        flags.append(
            flag(
                FlagKind.CHARACTERISTIC_AMBIGUOUS,
                " or ".join(dict.fromkeys([best.key[1], *(r.key[1] for r in rivals)])),
            )
        )
    if any(r.key[0] != best.key[0] for r in rivals):
        flags.append(
            flag(
                FlagKind.PART_AMBIGUOUS,
                " or ".join(dict.fromkeys([best.key[0], *(r.key[0] for r in rivals)])),
            )
        )
    same_key = [r for r in rivals if r.key == best.key]
    if same_key:
        flags.append(flag(FlagKind.NUMBER_AMBIGUOUS, " or ".join([best.value, *(r.value for r in same_key)])))
    return flags


def _without(part: Part, kind: FlagKind) -> Part:
    return Part(
        part.component,
        part.whiches,
        part.count,
        part.bare_plural,
        part.age,
        tuple(f for f in part.flags if f.kind != kind),
        part.named,
    )
