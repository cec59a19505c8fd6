"""The record as the world sees it: schema "saywright.record/1".

Each item is a statement plus what people and judging added to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Any, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, model_validator

from saywright.understanding import statements as said

SCHEMA = "saywright.record/1"

Decision = Literal["conforms", "does_not_conform", "undecided", "no_limit"]
_IDENTIFIERS: tuple[str, ...] = get_args(said.Identifier.model_fields["identifier"].annotation)
OpenKind = Literal[
    "ask",  # an item waits for a person
    "unclear",  # measured-looking words that were not understood
    "missing",  # the sheet requires it at this stage
    "off",  # removed and not fitted again
    "not_renewed",  # renewed parts: removed, and no new one fitted
    "renewed_twice",
    "surplus",  # more fitted than the sheet says, or than came off
    "not_restored",  # a setting to restore has no equal value as left
    "photo_mark",  # announced, no picture
    "photo",  # a picture, no mark
    "recording",  # not heard to its end
]


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class _Kept(BaseModel):
    """What the record adds to everything said."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    accepted_by: str | None = None  # person who accepted or corrected it
    superseded_by: str | None = None  # id of what replaced or withdrew it
    event: int | None = None  # sequence number of the event that made or last changed it


class Reading(said.Reading, _Kept):
    """A reading with its decision."""

    decision: Decision = "no_limit"
    provisional: bool = False  # true while the reading asks
    taken_on: date | None = None  # UTC day of the event that brought it; None where not logged
    picture: str | None = None  # id of the picture it was measured in; None for what was said or typed
    u: str | None = None  # standard uncertainty told with it, decimal; None: of the sheet's instrument


class Condition(said.ConditionNote, _Kept):
    """A condition on a part."""


class Action(said.ActionNote, _Kept):
    """An action on a part."""


class Movement(said.Movement, _Kept):
    """A part off or on."""


class Identifier(said.Identifier, _Kept):
    """A number that names a thing. In the JSON `kind` tells which: serial, part_number, stamp, tag."""

    @model_validator(mode="before")
    @classmethod
    def _from_json(cls, data: Any) -> Any:
        if isinstance(data, dict) and data.get("kind") in _IDENTIFIERS and "identifier" not in data:
            return {**data, "kind": "identifier", "identifier": data["kind"]}
        return data


class Remark(said.Remark, _Kept):
    """Words kept, not for the record."""


class Unclear(said.Unclear, _Kept):
    """Measured-looking words, not understood; shown as an open item."""


class PhotoChecks(_Frozen):
    """What intake found about a picture. Scores are 0…1, larger is better; None where not measured."""

    sharpness: float | None = None
    exposure: float | None = None  # mean lightness of the part, 0 black … 1 white
    clipped_share: float | None = None  # share of pixels at full white
    blurred: bool = False
    dark: bool = False
    bright: bool = False
    width_px: int | None = None
    height_px: int | None = None
    likeness: str | None = None  # 64 bits as hexadecimal digits, to find pictures of one burst
    region: tuple[float, float, float, float] | None = None  # looked at: left, top, width, height, shares
    moved: bool = False  # blur that has a direction
    moved_deg: int | None = None  # in older logs only: the scene's own direction can pass for the camera's
    glare: bool = False  # highlights hide a part of the region
    glare_share: float | None = None  # of the region, in highlights without detail
    px_per_mm: float | None = None  # rough, from the marker card; None where none was seen
    far: bool | None = None  # too few pixels a millimetre; None where no card tells
    frames: int | None = None  # in the file, where it holds several; one is shown
    print_colours: bool = False  # the file tells CMYK; shown as RGB
    bits: int | None = None  # a channel in the file, where more than the 8 shown
    odd_date: str | None = None  # what stands where the camera's date should, where it is none


class Measurement(_Frozen):
    """A length or an angle taken from a picture: a candidate, no reading. A person may enter it as one."""

    id: str  # "m1", "m2", … within the job
    kind: Literal["distance", "circle", "angle"]  # a circle's value is its diameter
    value: str  # decimal
    unit: Literal["mm", "deg"]
    u: str  # standard uncertainty, decimal, same unit
    scale: Literal["card", "two points"]
    points: tuple[tuple[float, float], ...] = ()  # as shares of the picture's width and height, 0…1
    by: str  # person who showed the places


class Photo(said.PhotoMark, _Kept):
    """A spoken mark, a picture, or both together."""

    sha256: str | None = None  # of the original file; None while only the mark is there
    name: str | None = None  # file name as given
    taken_at: datetime | None = None  # by the camera's own clock; None without usable EXIF
    checks: PhotoChecks | None = None
    annotations: tuple[dict[str, Any], ...] = ()
    measurements: tuple[Measurement, ...] = ()
    match_confidence: float | None = Field(default=None, ge=0, le=1)
    beside: str | None = None  # id of the spoken mark of which it is a further picture
    in_report: bool = True  # False: kept, and left out of the report by a person


class OpenItem(_Frozen):
    """What still asks for a person, or is missing."""

    id: str  # stable: kind and what it is about, e.g. "ask:s12", "missing:float.height@as_left"
    kind: OpenKind
    component: str | None = None
    which: str | None = None
    text: str  # the question or the lack, in plain words
    heard: str | None = None
    start_s: float | None = None
    item: str | None = None  # id of the item it is about
    explained: str | None = None  # why it may stay open, as stated by a person


class Job(_Frozen):
    """What is on the bench, and for whom."""

    id: str
    title: str
    sheet: str
    sheet_revision: str
    item: str | None = None  # what is worked on
    serial: str | None = None
    customer: str | None = None
    opened_at: datetime


class SignOff(_Frozen):
    """Somebody stands for the record as it was."""

    by: str
    at: datetime
    record_hash: str  # hash of the event before the signature
    statement: str = ""
    role: str | None = None  # of who signed; None where no passphrase was asked


class Record(_Frozen):
    """The whole record of a job."""

    schema_: Literal["saywright.record/1"] = Field(default="saywright.record/1", alias="schema")
    job: Job
    readings: tuple[Reading, ...] = ()
    conditions: tuple[Condition, ...] = ()
    actions: tuple[Action, ...] = ()
    movements: tuple[Movement, ...] = ()
    identifiers: tuple[Identifier, ...] = ()
    photos: tuple[Photo, ...] = ()
    remarks: tuple[Remark, ...] = ()
    unclear: tuple[Unclear, ...] = ()
    open_items: tuple[OpenItem, ...] = ()
    sign_off: SignOff | None = None
    record_hash: str | None = None  # hash of the last event folded in

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)

    def items(self) -> Iterator[Item]:
        """Every item, kind by kind; those that no longer hold too."""
        yield from self.readings
        yield from self.conditions
        yield from self.actions
        yield from self.movements
        yield from self.identifiers
        yield from self.photos
        yield from self.remarks
        yield from self.unclear

    def as_json(self) -> dict[str, Any]:
        """The record as plain data, fit for json.dumps."""
        plain = self.model_dump(mode="json", by_alias=True)
        for identifier in plain["identifiers"]:
            identifier["kind"] = identifier.pop("identifier")
        return plain


Item = Reading | Condition | Action | Movement | Identifier | Photo | Remark | Unclear


def waits(item: Item) -> bool:
    """True while the item asks and no person stands for it."""
    return item.asks and item.accepted_by is None


def json_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of the record."""
    schema = Record.model_json_schema(by_alias=True, mode="serialization")
    identifier = schema["$defs"]["Identifier"]  # as `Record.as_json` writes it
    identifier["properties"]["kind"] = {**identifier["properties"].pop("identifier"), "title": "Kind"}
    identifier["required"] = ["kind" if name == "identifier" else name for name in identifier["required"]]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": SCHEMA, **schema}
