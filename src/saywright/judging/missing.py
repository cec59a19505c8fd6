"""What the sheet requires at a stage and nobody has said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.judging.wording import STAGE_WORDS, capital, thing
from saywright.record.order import in_order_said
from saywright.record.types import Action, Condition, Item, Movement, Reading, Record
from saywright.sheets.model import Characteristic, Sheet, Stage

_Wanted = tuple[str, str | None, str, Stage]  # component, which, characteristic, stage


@dataclass(frozen=True, slots=True)
class Missing:
    """One required value that was not said."""

    component: str
    which: str | None
    characteristic: str
    stage: Stage
    sentence: str
    place: str | None = None  # where others of its places were read; None: all of it

    @property
    def id(self) -> str:
        """Like "float.height@as_left", "bush:upper.bore@as_found" or "body.bore@top@as_found"."""
        place = f"{self.component}:{self.which}" if self.which is not None else self.component
        at = f"@{self.place}" if self.place is not None else ""
        return f"{place}.{self.characteristic}{at}@{self.stage}"


def gone_back_together(record: Record) -> bool:
    """True once anything was read, seen, done, moved or shown as left.

    Talk and plans do not count: "needs a new jet" is said while the part is still off.
    """
    done = tuple(action for action in record.actions if action.status == "done")
    said: tuple[Item, ...] = (
        *record.readings,
        *record.conditions,
        *record.movements,
        *record.identifiers,
        *record.photos,
        *done,
    )
    return any(item.stage == "as_left" and item.superseded_by is None for item in said)


def in_hand_first(record: Record, lacking: Sequence[Missing]) -> tuple[Missing, ...]:
    """The order in which to ask: the part spoken of last, then the one before it; the rest as they come."""
    spoken: tuple[Reading | Condition | Action | Movement, ...] = (
        *record.readings,
        *record.conditions,
        *record.actions,
        *record.movements,
    )
    last = {item.component: at for at, item in enumerate(in_order_said(spoken))}
    return tuple(sorted(lacking, key=lambda lack: -last.get(lack.component, -1)))


def missing(record: Record, sheet: Sheet) -> tuple[Missing, ...]:
    """Required values not said, in the sheet's order; those as left only once it goes back together.

    What is computed from others is not said, so it is never missing.
    """
    stages: tuple[Stage, ...] = ("as_found", "as_left") if gone_back_together(record) else ("as_found",)
    said = {
        (r.component, r.which, r.characteristic, r.stage) for r in record.readings if r.superseded_by is None
    }
    lacking = []
    for stage in stages:
        for component, characteristic in sheet.characteristics():
            if stage not in characteristic.when:
                continue
            for which in component.whiches or (None,):
                # Where one is fitted, a reading counts however it names it; where several are only
                # counted, one that names none counts for all ("bowl screws torqued to two point two").
                here = {w for c, w, k, s in said if (c, k, s) == (component.id, characteristic.id, stage)}
                whole = None in here and not component.positions
                there = which in here or whole or (bool(here) and not component.whiches)
                wanted = (component.id, which, characteristic.id, stage)
                for place in _unread_places(record, wanted, characteristic) if there else (None,):
                    lacking.append(_lack(sheet, wanted, place))
    return tuple(lacking)


def _lack(sheet: Sheet, wanted: _Wanted, place: str | None) -> Missing:
    component, which, characteristic, stage = wanted
    name = capital(thing(sheet, component, which, characteristic, place))
    text = f"{name} is required {STAGE_WORDS[stage]} and was not said."
    return Missing(component, which, characteristic, stage, text, place)


def _unread_places(record: Record, wanted: _Wanted, characteristic: Characteristic) -> tuple[str, ...]:
    """The sheet's places at which nothing was read, where others were; () where it was read without one."""
    if not characteristic.places:
        return ()
    read = {
        reading.place
        for reading in record.readings
        if reading.superseded_by is None
        and (reading.component, reading.which, reading.characteristic, reading.stage) == wanted
    }
    placed = any(place is not None for place in read) and None not in read
    return tuple(place for place in characteristic.places if place not in read) if placed else ()
