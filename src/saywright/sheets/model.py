"""What is on the bench: the types of a bench sheet. `saywright.sheets.check` asks for sense."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal, Self, TypeVar

from pydantic import BaseModel, ConfigDict, Field

from saywright.quantity import OpenBounds, decimals
from saywright.sheets.bounds import Bounds, far_bounds, plausible_bounds

Stage = Literal["as_found", "as_left"]
Rule = Literal["iso14253", "simple", "guarded"]


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """A copy; what was looked up in this one is not carried over, since its fields may be others."""
        copied = super().model_copy(update=update, deep=deep)
        for name in copied.__dict__.keys() - type(self).model_fields.keys():
            del copied.__dict__[name]
        return copied


class _Named(_Part):
    """What a sheet lists by id."""

    id: str
    names: tuple[str, ...] = ()  # as spoken; the first is shown

    @property
    def label(self) -> str:
        """The name shown to people."""
        return self.names[0] if self.names else self.id.replace("_", " ")


_One = TypeVar("_One", bound=_Named)


def _by_id(every: Iterable[_One]) -> dict[str, _One]:
    """Each by its id; the first where two have the same."""
    return {one.id: one for one in reversed([*every])}


class Instrument(_Named):
    """What a value is read from."""

    unit: str = "mm"
    resolution: Decimal | None = Field(default=None, gt=0)  # smallest step it shows, in `unit`
    max_permissible_error: Decimal | None = Field(default=None, ge=0)  # ± bound, in `unit`
    calibration_due: date | None = None  # last day of its calibration; None: not told


class Characteristic(_Named):
    """One thing that is read on a component."""

    unit: str = "1"
    lower: Decimal | None = None
    upper: Decimal | None = None
    nominal: Decimal | None = None  # with `tolerance`: limits are nominal ± tolerance
    tolerance: Decimal | None = Field(default=None, ge=0)
    allowed: tuple[Decimal, ...] = ()  # permitted sizes, exact
    plausible: tuple[Decimal, Decimal] | None = None  # outside it a reading asks
    instrument: str | None = None
    when: tuple[Stage, ...] = ()  # stages at which it is required
    places: tuple[str, ...] = ()  # where on the part it is read; () where there is but one place
    max_difference: Decimal | None = Field(default=None, gt=0)  # between several alike, in `unit`
    formula: str | None = None  # computed from others, see `saywright.sheets.formula`; None: read
    restore: bool = False  # as left must equal as found unless changed on purpose
    source: str | None = None  # of the limits; the sheet's where None
    note: str | None = None

    @property
    def is_count(self) -> bool:
        """True for counted or stamped values: exact, without uncertainty."""
        return self.unit == "1" or bool(self.allowed)

    @cached_property
    def limits(self) -> tuple[Decimal | None, Decimal | None]:
        """Lower and upper limit, in `unit`; each None where there is none."""
        if self.nominal is not None and self.tolerance is not None:
            return self.nominal - self.tolerance, self.nominal + self.tolerance
        return self.lower, self.upper

    @cached_property
    def exact_limits(self) -> tuple[Fraction | None, Fraction | None]:
        """The limits as fractions."""
        lower, upper = self.limits
        return None if lower is None else Fraction(lower), None if upper is None else Fraction(upper)

    @cached_property
    def limit_places(self) -> int:
        """Decimals that its limits are written with, at most; 0 where there is none."""
        return max(map(decimals, self.limits))

    @cached_property
    def exact_sizes(self) -> frozenset[Fraction]:
        """The permitted sizes as fractions."""
        return frozenset(map(Fraction, self.allowed))

    @cached_property
    def plausible_bounds(self) -> Bounds | None:
        """Outside these a reading asks; None where the sheet gives nothing to go by."""
        return plausible_bounds(self.plausible, self.allowed, self.limits)

    @cached_property
    def far_bounds(self) -> OpenBounds:
        """Outside these a reading is out of the limits by more than wear explains."""
        return far_bounds(self.exact_limits)


class Component(_Named):
    """A part, or several alike."""

    count: int = Field(default=1, ge=1)
    positions: tuple[str, ...] = ()  # names of the single ones; else they count 1, 2, …
    renew: bool = False  # one out, one new in
    part_number: str | None = None
    inside: str | None = None  # id of the component it sits in or on
    characteristic: tuple[Characteristic, ...] = ()
    note: str | None = None

    @cached_property
    def whiches(self) -> tuple[str, ...]:
        """What tells the single ones apart; empty where only one is fitted."""
        return self.positions or tuple(str(n + 1) for n in range(self.count if self.count > 1 else 0))

    @property
    def stations(self) -> tuple[str, ...]:
        """The positions, which may be a side in hand; a sheet that counts by number gives numbers here."""
        return self.positions

    @cached_property
    def place_words(self) -> frozenset[str]:
        """Words of longer positions that tell some, not all: left, inner … of "left inner", …"""
        split = [set(position.split()) for position in self.positions]
        words = [word for position in split for word in position]
        told = {word for position in split if len(position) > 1 for word in position}
        return frozenset(word for word in told if words.count(word) < len(split))

    def has_places(self, said: Iterable[str]) -> bool:
        """True where each of *said* is a position, or a word that tells some of the positions."""
        return all(one in self.stations or one in self.place_words for one in said)

    def get(self, characteristic_id: str) -> Characteristic | None:
        """The characteristic with this id."""
        return self._characteristics.get(characteristic_id)

    @cached_property
    def _characteristics(self) -> dict[str, Characteristic]:
        return _by_id(self.characteristic)


class Condition(_Named):
    """A state a part can be found in."""

    good: bool = False  # true for "clean", "straight": presence is good news
    predicates: tuple[str, ...] = ()  # spoken only as what is said of a part: "shot", "a hole"
    own_names: tuple[str, ...] = ()  # those that the sheet itself gives, where it extends another


class Action(_Named):
    """Something done to a part, or to be done."""

    order: bool = False  # true where a part has to be bought for it


class Caution(_Part):
    """A warning, shown at the start of the job and when its trigger is spoken."""

    id: str | None = None
    when: str | tuple[str, ...] = ()  # spoken trigger words
    text: str = ""

    @property
    def triggers(self) -> tuple[str, ...]:
        """The trigger words as a tuple."""
        return (self.when,) if isinstance(self.when, str) else self.when


class UnitNames(_Part):
    """More spoken names for a unit of the closed table."""

    code: str
    names: tuple[str, ...]


class ShopWord(_Part):
    """A word of the shop's own."""

    say: str  # as it is said
    means: str | None = None  # id of what it names, or "component.characteristic"; None: just listened for
    sounds: str | None = None  # phones of the CMU set, for listeners with a pronouncing dictionary

    @property
    def spoken(self) -> str:
        """Lower case, one space between words, no article in front."""
        return " ".join(self.say.lower().split()).removeprefix("the ")


class Sheet(_Part):
    """A whole bench sheet, `extends` already resolved."""

    id: str
    title: str
    revision: str = "A"
    source: str = ""  # printed beside each limit
    extends: str | None = None
    language: str = "en"
    rule: Rule = "iso14253"  # how a reading near a limit is decided
    guard_ratio: Decimal = Field(default=Decimal(1), ge=0)  # r of w = r·U, for rule "guarded"
    note: str | None = None
    instrument: tuple[Instrument, ...] = ()
    component: tuple[Component, ...] = ()
    condition: tuple[Condition, ...] = ()
    action: tuple[Action, ...] = ()
    caution: tuple[Caution, ...] = ()
    unit: tuple[UnitNames, ...] = ()
    word: tuple[ShopWord, ...] = ()

    @cached_property
    def row_words(self) -> frozenset[str]:
        """Words that tell some of the pieces of more than one kind of part: inlet, outlet."""
        found = Counter(word for component in self.component for word in component.place_words)
        return frozenset(word for word in found if found[word] > 1)

    @cached_property
    def get(self) -> Callable[[str | None], Component | None]:
        """The component with an id; None where there is none."""
        by_id: dict[str | None, Component] = dict(_by_id(self.component).items())
        return by_id.get

    def find(self, component_id: str | None, characteristic_id: str) -> Characteristic | None:
        """The characteristic with these ids."""
        return self._reads.get((component_id, characteristic_id))

    def get_condition(self, condition_id: str) -> Condition | None:
        """The condition with this id."""
        return self._conditions.get(condition_id)

    def get_action(self, action_id: str) -> Action | None:
        """The action with this id."""
        return self._actions.get(action_id)

    def condition_label(self, condition_id: str) -> str:
        """The condition's shown name; its id in words where the sheet has none of it."""
        found = self.get_condition(condition_id)
        return found.label if found else condition_id.replace("_", " ")

    def is_good(self, condition_id: str) -> bool:
        """True where the sheet takes this condition for good news."""
        return (found := self.get_condition(condition_id)) is not None and found.good

    def action_label(self, action_id: str) -> str:
        """The action's shown name; its id in words where the sheet has none of it."""
        found = self.get_action(action_id)
        return found.label if found else action_id.replace("_", " ")

    def get_instrument(self, instrument_id: str | None) -> Instrument | None:
        """The instrument with this id."""
        return next((i for i in self.instrument if i.id == instrument_id), None)

    @cached_property
    def _reads(self) -> dict[tuple[str | None, str], Characteristic]:
        return {(part.id, read.id): read for part, read in reversed([*self.characteristics()])}

    @cached_property
    def _conditions(self) -> dict[str, Condition]:
        return _by_id(self.condition)

    @cached_property
    def _actions(self) -> dict[str, Action]:
        return _by_id(self.action)

    def characteristics(self) -> Iterator[tuple[Component, Characteristic]]:
        """Every characteristic with its component, in the sheet's order."""
        for component in self.component:
            for characteristic in component.characteristic:
                yield component, characteristic

    def label(self, component_id: str | None, which: str | None = None) -> str:
        """The component's shown name, with which of several it is."""
        component = self.get(component_id)
        name = component.label if component else (component_id or "unnamed part").replace("_", " ")
        if which is None:
            return name
        return f"{name} {which}" if which.isdigit() else f"{which} {name}"
