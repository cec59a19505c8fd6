"""Values computed from readings by the sheet's formulas, judged like readings.

The value is exact. Its uncertainty is propagated to the first order: each input's u times how much the
result moves with it, added as squares (JCGM 100:2008, 5.1.2). Inputs count as independent; one that
occurs twice counts once, with its whole effect. All inputs are of one stage. Differences between parts
alike (`max_difference`) are computed the same way.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from saywright.judging.limits import Judgement, decide
from saywright.judging.propagate import Linear, NotComputedError, evaluate
from saywright.judging.repeats import Group, groups
from saywright.judging.settle import Settle
from saywright.judging.spread import unsettled
from saywright.judging.uncertainty import Budget, UncertaintyPart, budget
from saywright.judging.wording import capital, number, short, thing, with_unit
from saywright.record.types import Record
from saywright.sheets.formula import Call, Node, Reference, parse_formula
from saywright.sheets.formula_check import as_place, as_position, operand
from saywright.sheets.model import Characteristic, Component, Sheet, Stage
from saywright.units import get_unit

STAGES: tuple[Stage, ...] = ("as_found", "as_left")
_Key = tuple[str, str | None, str, str | None, Stage]  # component, which, characteristic, place, stage
MOST_NAMED = 2  # inputs named in the sentence; the budget names all
_BIG_SHARE = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Derived:
    """One computed value at one stage."""

    component: str
    which: str | None
    characteristic: str  # id; of a difference, that of what differs
    difference: bool  # between parts alike
    stage: Stage
    name: str  # as shown
    limits: Characteristic  # with the limits it was judged by
    value: (
        Fraction | None
    )  # exact, in the unit of `limits`; None: not computed, `judgement.sentence` says why
    judgement: Judgement
    inputs: tuple[str, ...]  # ids of the readings it rests on
    provisional: bool  # while one of them waits for a person


def derived(record: Record, sheet: Sheet, gathered: tuple[Group, ...] | None = None) -> tuple[Derived, ...]:
    """Every computed value, in the sheet's order, as found first.

    One that lacks no more inputs than it has is there without a value, and says which it lacks; one that
    lacks more is left out.
    """
    wanted = list(_wanted(sheet))
    if not wanted:
        return ()
    last: dict[_Key, Group] = {}
    for group in groups(record, sheet) if gathered is None else gathered:
        if group.values:
            last[(*group.thing, group.stage)] = group
    parts = {component.id: component for component in sheet.component}
    found = []
    for component, which, characteristic, node, difference in wanted:
        for stage in STAGES:
            work = _Work(sheet, parts, last, stage)
            one = work.derive(component, which, characteristic, node, difference=difference)
            if one is not None:
                found.append(one)
    return tuple(found)


def _wanted(sheet: Sheet) -> Iterator[tuple[Component, str | None, Characteristic, Node, bool]]:
    for component, characteristic in sheet.characteristics():
        if characteristic.formula is not None:
            for which in component.whiches or (None,):
                yield component, which, characteristic, parse_formula(characteristic.formula), False
        if characteristic.max_difference is not None:
            limits = characteristic.model_copy(
                update={
                    **dict.fromkeys(("lower", "nominal", "tolerance", "max_difference")),
                    "upper": characteristic.max_difference,
                    "allowed": (),
                }
            )
            for place in characteristic.places or (None,):
                same = tuple(
                    Reference(component.id, which.replace(" ", "_"), characteristic.id, _spelled(place))
                    for which in component.whiches
                )
                yield component, None, limits, Call("range", same), True


def _spelled(place: str | None) -> str | None:
    return None if place is None else place.replace(" ", "_")


class _Work:
    """The readings of one stage, and the sheet they are of."""

    def __init__(
        self, sheet: Sheet, parts: Mapping[str, Component], last: Mapping[_Key, Group], stage: Stage
    ) -> None:
        self.sheet, self.parts, self.last, self.stage = sheet, parts, last, stage
        self.used: dict[_Key, Group] = {}
        self.lacking: list[str] = []  # names of inputs that were not read

    def derive(
        self,
        component: Component,
        which: str | None,
        limits: Characteristic,
        node: Node,
        *,
        difference: bool,
    ) -> Derived | None:
        """The value with its judgement; None where no input was read."""
        name = thing(self.sheet, component.id, which, limits.id)
        name = f"{name}, difference" if difference else name
        told = ""
        try:
            linear = evaluate(node, lambda ref, every: self.values(ref, component, which, every=every))
        except NotComputedError as error:
            told = str(error)
        if len(self.used) < max(1, len(self.lacking)) or (difference and self.lacking):
            return None
        if self.lacking:
            names = " and the ".join(filter(None, (", the ".join(self.lacking[:-1]), self.lacking[-1])))
            verb = "was" if len(self.lacking) == 1 else "were"
            told = f"the {names} {verb} not read {self.stage.replace('_', ' ')}"
        if told:
            none = self._none(limits, f"{capital(name)} was not computed: {told}.")
            return self._made(component, which, limits, None, none, name=name, difference=difference)
        factor = get_unit(limits.unit).factor
        value = linear.value / factor
        found = self._budget(linear, limits.unit)
        told = f"{name} {with_unit(number(value), limits.unit)}, computed from {self._inputs_told()},"
        judgement = decide(value, limits, found, self.sheet, told=told, advise=self._advise)
        return self._made(component, which, limits, value, judgement, name=name, difference=difference)

    def values(
        self, reference: Reference, component: Component, which: str | None, *, every: bool
    ) -> tuple[Linear, ...]:
        """What a name stands for, in base units; with *every*, at all places and positions it leaves open."""
        where, found = operand(reference, component, self.parts)
        same = where.whiches == component.whiches
        named = as_position(reference.which, where) if reference.which else which if same else None
        positions = where.whiches if every and named is None and where.whiches else (named,)
        place = as_place(reference.place, found) if reference.place else None
        places = found.places if every and place is None and found.places else (place,)
        return tuple(self._value(where, found, at, on) for at in positions for on in places)

    def _value(self, where: Component, found: Characteristic, which: str | None, place: str | None) -> Linear:
        if found.formula is not None:
            node = parse_formula(found.formula)
            return evaluate(node, lambda ref, every: self.values(ref, where, which, every=every))
        key = (where.id, which, found.id, place, self.stage)
        group = self.last.get(key)
        if group is None and not where.whiches:  # one is fitted: a reading counts however it names it
            key = next((k for k in self.last if (k[0], *k[2:]) == (where.id, *key[2:])), key)
            group = self.last.get(key)
        if group is None or group.mean is None:
            name = thing(self.sheet, where.id, which, found.id, place)
            self.lacking += [name] if name not in self.lacking else []
            return Linear(Fraction(1))
        self.used[key] = group
        factor = get_unit(found.unit).factor
        return Linear(group.mean * factor, {key: factor})

    def _budget(self, linear: Linear, unit: str) -> Budget:
        parts = []
        for key, group in self.used.items():
            slope = linear.slopes.get(key, Fraction(0))
            characteristic = self.sheet.find(group.component, group.characteristic)
            assert characteristic is not None
            inner = budget(characteristic, group.said, self.sheet, spread=group.spread)
            ratio = slope / get_unit(unit).factor
            if inner.variance and ratio:
                parts.append(
                    UncertaintyPart("input", ratio * ratio * inner.variance, self._told(group), inner.degrees)
                )
        return Budget(unit, tuple(parts))

    def _told(self, group: Group) -> str:
        characteristic = self.sheet.find(group.component, group.characteristic)
        unit = characteristic.unit if characteristic else "1"
        name = thing(self.sheet, *group.thing)
        return f"{name} {with_unit(short(group.mean or Fraction(0), 8), unit)}"

    def _inputs_told(self) -> str:
        told = [self._told(group) for group in self.used.values()]
        if len(told) > MOST_NAMED:
            return f"{len(told)} values"
        return f"{', '.join(told[:-1])} and {told[-1]}" if len(told) > 1 else told[0]

    @staticmethod
    def _advise(distance: Fraction, found: Budget, _factor_of: object, _n: int) -> Settle:
        """Which of the inputs to read better."""
        if distance == 0:
            text = "The value lies on the limit; no measurement settles that. Agree on it with the customer."
            return Settle(None, None, text)
        most = max(found.parts, key=lambda part: part.variance)
        share = most.variance / found.variance
        text = f"{round(100 * float(share))} % of the doubt is that of {most.text}."
        if share >= _BIG_SHARE:
            text += " Read that more finely, or more often."
        return Settle(None, None, text)

    def _none(self, limits: Characteristic, told: str) -> Judgement:
        return Judgement("undecided", self.sheet.rule, limits.unit, told, None)

    def _made(
        self,
        component: Component,
        which: str | None,
        limits: Characteristic,
        value: Fraction | None,
        judgement: Judgement,
        *,
        name: str,
        difference: bool,
    ) -> Derived:
        used = self.used.values()
        return Derived(
            component.id,
            which,
            limits.id,
            difference,
            self.stage,
            name,
            limits,
            value,
            judgement,
            tuple(reading.id for group in used for reading in group.readings),
            any(unsettled(group, self.sheet) for group in used),
        )
