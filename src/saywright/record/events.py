"""Everything that can happen to a job. Appended, never changed.

An event has a sequence number, a time, an actor, a payload of one kind, and the hash of
the one before. Adding a kind: a payload class here, a case in `fold`, a row in
docs/events.md.
"""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from saywright.hearing.words import Utterance
from saywright.record.types import Measurement, Photo, PhotoChecks
from saywright.sheets.model import Sheet, Stage
from saywright.understanding.statements import Statement

_Discriminated = Annotated[Statement, Field(discriminator="kind")]


class _Payload(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class JobOpened(_Payload):
    """A job starts. The sheet goes along whole, so that the log can be read without its file."""

    kind: Literal["job_opened"] = "job_opened"
    job: str
    title: str
    sheet: Sheet
    item: str | None = None
    serial: str | None = None
    customer: str | None = None


class JobDescribed(_Payload):
    """What is known of the item or the customer changed. None leaves a field as it was."""

    kind: Literal["job_described"] = "job_described"
    title: str | None = None
    item: str | None = None
    serial: str | None = None
    customer: str | None = None


class AudioAdded(_Payload):
    """A recording was taken into the media store.

    Written when it is taken in, without `duration_s`, and again when it was heard to its end:
    what has no second event was cut off, and is heard on from where it stopped.
    """

    kind: Literal["audio_added"] = "audio_added"
    sha256: str  # of the file; of a live recording in progress, its key
    name: str
    duration_s: float | None = None  # None until it was recorded and heard to its end
    started_at: datetime | None = None  # wall clock of its first sample, where known
    recording: str | None = None  # key of the live recording it is; utterances heard live name this key
    wordless: tuple[float, ...] = ()  # starts in seconds of what sounded like speech and gave no words

    @property
    def cut_off(self) -> bool:
        """True while it is not heard to its end. A live recording in progress was not cut off."""
        return self.duration_s is None and self.sha256 != self.recording


class Heard(_Payload):
    """An utterance, with all its hypotheses."""

    kind: Literal["heard"] = "heard"
    utterance: Utterance


class Understood(_Payload):
    """What an utterance was understood as; `heard` is the sequence number of its event."""

    kind: Literal["understood"] = "understood"
    heard: int | None  # None where a person entered it
    statements: tuple[_Discriminated, ...]


class ItemCorrected(_Payload):
    """A person gave other values for fields of an item."""

    kind: Literal["item_corrected"] = "item_corrected"
    item: str
    changes: dict[str, Any]  # field → new value
    why: str = ""


class ItemAccepted(_Payload):
    """A person stands for an item as it is."""

    kind: Literal["item_accepted"] = "item_accepted"
    item: str
    heard: int | None = None  # event that holds the words, where it was said at the bench


class ItemWithdrawn(_Payload):
    """A person took an item out of the record."""

    kind: Literal["item_withdrawn"] = "item_withdrawn"
    item: str
    why: str = ""
    heard: int | None = None  # event that holds the words, where it was said at the bench


class ItemAdded(_Payload):
    """A person entered in a form what was not said."""

    kind: Literal["item_added"] = "item_added"
    statement: _Discriminated
    why: str = ""


class Piece(_Payload):
    """One of the items that an item was split into."""

    id: str
    changes: dict[str, Any] = {}  # field → value, where it differs from the item that was split


class ItemSplit(_Payload):
    """A person made several items of one."""

    kind: Literal["item_split"] = "item_split"
    item: str
    into: tuple[Piece, ...]
    why: str = ""


class ItemsMerged(_Payload):
    """A person found that several items say the same thing."""

    kind: Literal["items_merged"] = "items_merged"
    items: tuple[str, ...]  # those that go
    into: str  # the one that stays
    why: str = ""


class ChangeUndone(_Payload):
    """A person took back what an earlier event changed."""

    kind: Literal["change_undone"] = "change_undone"
    event: int  # its sequence number
    why: str = ""


class PhotoAdded(_Payload):
    """A picture was taken into the media store."""

    kind: Literal["photo_added"] = "photo_added"
    photo: str  # id, "p1", "p2", …
    sha256: str
    name: str
    taken_at: datetime | None = None
    file_time: datetime | None = None
    checks: PhotoChecks


class PhotoChecked(_Payload):
    """A person showed where the part is in a picture; it was checked again there."""

    kind: Literal["photo_checked"] = "photo_checked"
    photo: str  # id of the picture
    checks: PhotoChecks  # in place of those before


class PhotoPlaced(_Payload):
    """A picture was matched to a spoken mark, or put on a part by a person."""

    kind: Literal["photo_placed"] = "photo_placed"
    photo: str
    mark: str | None = None  # id of the mark; None where a person placed it on a part without one
    component: str | None = None
    which: str | None = None
    conditions: tuple[str, ...] = ()
    confidence: float | None = None  # None where a person did it
    sure: bool = True  # False: it asks
    by_order: bool = False  # no usable clock: placed by order
    beside: bool = False  # a further picture of the mark: it stays an item of its own, on the mark's part
    stage: Stage | None = None  # of a picture at no mark or beside one; None: the mark's, else as found


class PhotoMeasured(_Payload):
    """A person measured in a picture."""

    kind: Literal["photo_measured"] = "photo_measured"
    photo: str  # id of the picture
    measurement: Measurement


class MeasurementEntered(_Payload):
    """A person took what was measured in a picture for a reading of a part."""

    kind: Literal["measurement_entered"] = "measurement_entered"
    photo: str  # id of the picture
    measurement: str  # id of the measurement, which becomes that of the reading
    component: str
    which: str | None = None
    characteristic: str
    stage: Stage


class PhotoAnnotated(_Payload):
    """A person drew on a picture. All that is drawn on it, in place of what was before."""

    kind: Literal["photo_annotated"] = "photo_annotated"
    photo: str  # id of the picture
    annotations: tuple[dict[str, Any], ...]  # as `photos.annotate` has them, places as shares of the sides


class PhotoChosen(_Payload):
    """A person chose whether a picture stands in the report; it is kept in any case."""

    kind: Literal["photo_chosen"] = "photo_chosen"
    photo: str  # id of the picture
    in_report: bool


class OpenItemExplained(_Payload):
    """A person stated why something may stay open."""

    kind: Literal["open_item_explained"] = "open_item_explained"
    open_item: str
    why: str


class Signed(_Payload):
    """A person signed the record as it stood before this event."""

    kind: Literal["signed"] = "signed"
    record_hash: str
    statement: str = ""
    role: str | None = None  # of who signed, where people sign in with a passphrase


class TimeCorrected(_Payload):
    """A person gave the right bench time of a part at a stage."""

    kind: Literal["time_corrected"] = "time_corrected"
    component: str | None  # None: what names no part
    stage: Stage
    minutes: Decimal = Field(ge=0, le=1_000_000)
    why: str = ""


class Reported(_Payload):
    """A report was made."""

    kind: Literal["reported"] = "reported"
    sha256: str
    format: str


Payload = (
    JobOpened
    | JobDescribed
    | AudioAdded
    | Heard
    | Understood
    | ItemCorrected
    | ItemAccepted
    | ItemWithdrawn
    | ItemAdded
    | ItemSplit
    | ItemsMerged
    | ChangeUndone
    | PhotoAdded
    | PhotoChecked
    | PhotoPlaced
    | PhotoMeasured
    | PhotoAnnotated
    | PhotoChosen
    | MeasurementEntered
    | OpenItemExplained
    | Signed
    | TimeCorrected
    | Reported
)

__all__ = ["Event", "Payload", "Photo"]


class Event(BaseModel):
    """One link of the chain."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    seq: int = Field(ge=1)
    at: datetime  # UTC
    actor: str  # "saywright" or the person's name
    payload: Annotated[Payload, Field(discriminator="kind")]
    previous: str  # hash of the event before; 64 zeros for the first
    hash: str  # sha256, hex
