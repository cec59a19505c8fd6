"""Settings that must be left as they were found, unless changed on purpose."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from saywright.judging.repeats import Group
from saywright.judging.wording import number, thing, with_unit
from saywright.record.types import Record
from saywright.sheets.model import Sheet, Stage

ON_PURPOSE = frozenset({"adjust", "set"})  # actions of the common vocabulary that change a setting


@dataclass(frozen=True, slots=True)
class Restored:
    """One setting, as found and as left. Values in the characteristic's unit; None where not said."""

    component: str
    which: str | None
    characteristic: str
    found: Fraction | None
    left: Fraction | None
    on_purpose: bool
    left_items: tuple[str, ...]  # ids of the readings as left
    sentence: str

    @property
    def equal(self) -> bool:
        """True where both were said and are the same, exactly."""
        return self.found is not None and self.found == self.left


def restored(record: Record, sheet: Sheet, groups: tuple[Group, ...]) -> tuple[Restored, ...]:
    """Every setting to restore of which anything was said, in the sheet's order."""
    settings = []
    for component, characteristic in sheet.characteristics():
        if not characteristic.restore:
            continue
        for which in (*component.whiches, None):
            place = (component.id, which, characteristic.id)
            found, left = _last(groups, (*place, "as_found")), _last(groups, (*place, "as_left"))
            if found or left:
                purpose = _on_purpose(record, component.id, which)
                name = thing(sheet, *place)
                settings.append(
                    _setting(found, left, name=name, unit=characteristic.unit, on_purpose=purpose)
                )
    return tuple(settings)


def _last(groups: tuple[Group, ...], wanted: tuple[str, str | None, str, Stage]) -> Group | None:
    """The last value said counts: a setting is turned until it is right."""
    fitting = [g for g in groups if (g.component, g.which, g.characteristic, g.stage) == wanted and g.values]
    return fitting[-1] if fitting else None


def _on_purpose(record: Record, component: str, which: str | None) -> bool:
    """True where it was said that the setting was changed."""
    return any(
        action.superseded_by is None
        and action.status == "done"
        and action.action in ON_PURPOSE
        and action.component == component
        and action.which in (None, which)
        for action in record.actions
    )


def _setting(found: Group | None, left: Group | None, *, name: str, unit: str, on_purpose: bool) -> Restored:
    before, after = found.mean if found else None, left.mean if left else None
    one = left or found
    assert one is not None
    return Restored(
        component=one.component,
        which=one.which,
        characteristic=one.characteristic,
        found=before,
        left=after,
        on_purpose=on_purpose,
        left_items=tuple(reading.id for reading in left.readings) if left else (),
        sentence=_sentence(name, before, after, unit, on_purpose),
    )


def _sentence(name: str, before: Fraction | None, after: Fraction | None, unit: str, on_purpose: bool) -> str:
    if before is None:
        return f"How the {name} was found is not on record."
    was = f"The {name} was {with_unit(number(before), unit)} as found"
    if after is None:
        return f"{was}; how it was left is not on record."
    if before == after:
        return f"{was} and is left the same."
    now = with_unit(number(after), unit)
    return f"{was} and was changed on purpose to {now}." if on_purpose else f"{was} and is {now} as left."
