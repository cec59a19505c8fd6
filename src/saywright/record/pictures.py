"""Pictures and spoken marks: one item each until they are joined, one item together after."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from saywright.errors import RefusedError
from saywright.flags import Flag, FlagKind, flag
from saywright.record.changes import check_which, exact_value
from saywright.record.events import Event, MeasurementEntered, PhotoAdded, PhotoMeasured, PhotoPlaced
from saywright.record.types import Measurement, Photo, PhotoChecks, Reading
from saywright.sheets.model import Sheet

_FAULTS = frozenset(
    {
        FlagKind.PHOTO_DARK,
        FlagKind.PHOTO_BRIGHT,
        FlagKind.PHOTO_BLURRED,
        FlagKind.PHOTO_MOVED,
        FlagKind.PHOTO_GLARE,
        FlagKind.PHOTO_FAR,
    }
)
# What the file is besides an upright 8-bit RGB picture: told, and no reason to shoot again.
ODD = frozenset(
    {FlagKind.PHOTO_FRAMES, FlagKind.PHOTO_PRINT_COLOURS, FlagKind.PHOTO_DEEP, FlagKind.PHOTO_DATE}
)
_OF_PICTURE = _FAULTS | ODD | {FlagKind.PHOTO_MATCH_UNCLEAR, FlagKind.PHOTO_BY_ORDER}


def fault_flags(checks: PhotoChecks) -> tuple[Flag, ...]:
    """What is wrong with a picture, to be shot again."""
    quality = (
        (checks.blurred, FlagKind.PHOTO_BLURRED),
        (checks.dark, FlagKind.PHOTO_DARK),
        (checks.bright, FlagKind.PHOTO_BRIGHT),
        (checks.moved, FlagKind.PHOTO_MOVED),
        (checks.glare, FlagKind.PHOTO_GLARE),
        (checks.far is True, FlagKind.PHOTO_FAR),
    )
    return tuple(flag(kind) for present, kind in quality if present)


def odd_flags(checks: PhotoChecks) -> tuple[Flag, ...]:
    """What of the file is not shown as it is, or is of no use."""
    flags = []
    if checks.frames is not None:
        flags.append(flag(FlagKind.PHOTO_FRAMES, f"1 of {checks.frames}"))
    if checks.print_colours:
        flags.append(flag(FlagKind.PHOTO_PRINT_COLOURS))
    if checks.bits is not None:
        flags.append(flag(FlagKind.PHOTO_DEEP, f"{checks.bits} bits"))
    if checks.odd_date is not None:
        flags.append(flag(FlagKind.PHOTO_DATE, f"“{checks.odd_date}”"))
    return tuple(flags)


def check_flags(checks: PhotoChecks) -> tuple[Flag, ...]:
    """All that the checks tell of a picture."""
    return (*fault_flags(checks), *odd_flags(checks))


def without_checks(flags: tuple[Flag, ...]) -> tuple[Flag, ...]:
    """*flags* without those of the picture's checks."""
    return tuple(one for one in flags if one.kind not in _FAULTS | ODD)


def picture_item(added: PhotoAdded, seq: int, measurements: tuple[Measurement, ...] = ()) -> Photo:
    """The item of a picture that no mark has yet; nothing was said with it, so `heard` is empty."""
    return Photo(
        id=added.photo,
        stage="as_found",
        heard="",
        flags=check_flags(added.checks),
        sha256=added.sha256,
        name=added.name,
        taken_at=added.taken_at,
        checks=added.checks,
        measurements=measurements,
        event=seq,
    )


def with_measurement(
    known: Mapping[str, tuple[Measurement, ...]], payload: PhotoMeasured, seq: int
) -> tuple[Measurement, ...]:
    """What was measured in the picture, with one more; RefusedError where its id is taken."""
    name = payload.measurement.id
    if any(one.id == name for found in known.values() for one in found):
        raise RefusedError(f"the id '{name}' is already in the record", where=f"event {seq}")
    return (*known.get(payload.photo, ()), payload.measurement)


def reading_of(found: Measurement, entered: MeasurementEntered, event: Event, sheet: Sheet) -> Reading:
    """The measurement as a reading with its uncertainty, in the name of who entered it.

    RefusedError for a part or characteristic that the sheet lacks or that has another unit. A value outside
    what is plausible asks: the wrong places may have been shown.
    """
    characteristic = sheet.find(entered.component, entered.characteristic)
    if characteristic is None:
        to_do = "Take part and characteristic from the sheet"
        what = f"the sheet has no '{entered.component}.{entered.characteristic}'"
        raise RefusedError(what, where=found.id, to_do=to_do)
    component = sheet.get(entered.component)
    if component is not None:
        check_which(component, entered.which, where=found.id)
    told = exact_value(found.value, found.unit, characteristic)
    if told is None or characteristic.is_count:
        raise RefusedError(
            f"a {found.kind} in {found.unit} does not measure the {characteristic.label}",
            where=found.id,
            to_do=f"It is told in '{characteristic.unit}'",
        )
    flags = [flag(FlagKind.BY_PERSON, f"measured in picture {entered.photo} by {found.by}, u = {found.u}")]
    low, high = characteristic.plausible or (None, None)
    if low is not None and high is not None and not low <= Decimal(told) <= high:
        flags.append(flag(FlagKind.OUTSIDE_PLAUSIBLE, f"{found.value} {found.unit}"))
    return Reading(
        id=found.id,
        stage=entered.stage,
        heard="",
        flags=tuple(flags),
        component=entered.component,
        which=entered.which,
        characteristic=entered.characteristic,
        value=found.value,
        unit=found.unit,
        in_sheet_unit=told,
        taken_on=event.at.date(),
        picture=entered.photo,
        u=found.u,
        accepted_by=None if len(flags) > 1 else event.actor,
        event=event.seq,
    )


def placement_flags(placed: PhotoPlaced) -> tuple[Flag, ...]:
    """What there is to say about how the picture came to its place."""
    flags: list[Flag] = []
    if not placed.sure:
        flags.append(flag(FlagKind.PHOTO_MATCH_UNCLEAR))
    if placed.by_order:
        flags.append(flag(FlagKind.PHOTO_BY_ORDER))
    return tuple(flags)


def joined(mark: Photo, picture: Photo, placed: PhotoPlaced, seq: int, actor: str) -> Photo:
    """The mark with its picture. Placed by a person: that person stands for the match."""
    return mark.model_copy(
        update={
            "sha256": picture.sha256,
            "name": picture.name,
            "taken_at": picture.taken_at,
            "checks": picture.checks,
            "measurements": picture.measurements,
            "annotations": picture.annotations,
            "in_report": picture.in_report,
            "match_confidence": placed.confidence,
            "component": placed.component if placed.component is not None else mark.component,
            "which": placed.which if placed.component is not None else mark.which,
            "conditions": placed.conditions or mark.conditions,
            "flags": (*mark.flags, *picture.flags, *placement_flags(placed)),
            "accepted_by": actor if placed.confidence is None else None,
            "event": seq,
        }
    )


def parted(mark: Photo, seq: int) -> Photo:
    """The mark without its picture."""
    return mark.model_copy(
        update={
            "sha256": None,
            "name": None,
            "taken_at": None,
            "checks": None,
            "measurements": (),
            "annotations": (),
            "in_report": True,
            "match_confidence": None,
            "flags": tuple(f for f in mark.flags if f.kind not in _OF_PICTURE),
            "accepted_by": None,
            "event": seq,
        }
    )


def besides(mark: Photo, picture: Photo, placed: PhotoPlaced, seq: int, actor: str) -> Photo:
    """A further picture of the mark: an item of its own, of the mark's part and stage."""
    own = placed.component is not None
    return picture.model_copy(
        update={
            "beside": mark.id,
            "stage": placed.stage or mark.stage,
            "component": placed.component if own else mark.component,
            "which": placed.which if own else mark.which,
            "conditions": placed.conditions or mark.conditions,
            "match_confidence": placed.confidence,
            "flags": (*picture.flags, *placement_flags(placed)),
            "accepted_by": actor if placed.confidence is None else None,
            "event": seq,
        }
    )


def put_on_part(picture: Photo, placed: PhotoPlaced, seq: int, actor: str) -> Photo:
    """The picture on a part without a spoken mark; no part named takes it off its place."""
    by_person = placed.confidence is None and placed.component is not None
    return picture.model_copy(
        update={
            "component": placed.component,
            "which": placed.which,
            "stage": placed.stage or picture.stage,
            "conditions": placed.conditions,
            "match_confidence": placed.confidence,
            "flags": (*picture.flags, *placement_flags(placed)),
            "accepted_by": actor if by_person else None,
            "event": seq,
        }
    )
