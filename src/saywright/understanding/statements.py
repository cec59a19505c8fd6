"""The kinds of statement that speech is understood as. Speech never fails: what is not
understood is a `Remark`, what looks measured but is not understood is `Unclear`.

Ids are given by the discourse state, so that the same words give the same ids.
"""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from saywright.flags import Flag
from saywright.sheets.model import Stage

Status = Literal["proposed", "done", "declined"]
Direction = Literal["removed", "fitted"]
PartAge = Literal["old", "new"]
Severity = Literal["slight", "moderate", "severe"]
IdentifierKind = Literal["serial", "part_number", "stamp", "tag"]
CommandName = Literal["pause", "resume", "undo", "read_back", "left", "next", "note"]


class Said(BaseModel):
    """What everything said has in common."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str  # "s1", "s2", … in the order understood
    stage: Stage
    heard: str  # the words it was understood from, as heard
    start_s: float | None = None  # of those words, from the start of the recording
    end_s: float | None = None
    line: int | None = None  # line of the text file; None for audio
    utterance: int | None = None  # sequence number of the event that holds the whole utterance
    flags: tuple[Flag, ...] = ()

    @property
    def asks(self) -> bool:
        """True where a flag waits for a person."""
        return any(flag.level == "ask" for flag in self.flags)


class Reading(Said):
    """A value read, measured or counted."""

    kind: Literal["reading"] = "reading"
    component: str
    which: str | None = (
        None  # position or number of the single one; None where one is fitted or it was not said
    )
    characteristic: str
    place: str | None = None  # named place on the part at which it was read; None where there is but one
    value: str  # digits as said; "1/3" for a spoken third
    unit: str  # code
    unit_said: str | None = None  # the spoken word; None where it is the sheet's
    in_sheet_unit: str | None = (
        None  # decimal, in the characteristic's unit; None where it cannot be told in it
    )
    approximate: bool = False
    repeat_of: str | None = None  # id of the first reading of the same thing
    probability: float | None = Field(
        default=None, ge=0, le=1
    )  # that the value is right, as heard; None for typed


class ConditionNote(Said):
    """A state a part was found in, or found not to be in."""

    kind: Literal["condition"] = "condition"
    component: str | None
    which: str | None = None
    condition: str
    present: bool = True
    severity: Severity | None = None


class ActionNote(Said):
    """Something done, to be done, or decided against."""

    kind: Literal["action"] = "action"
    component: str | None
    which: str | None = None
    action: str
    status: Status
    quantity: int | None = None  # to order; None where not said


class Movement(Said):
    """Parts that came off or went on."""

    kind: Literal["movement"] = "movement"
    component: str
    which: str | None = None
    count: int = Field(ge=1)
    movement: Direction
    part: PartAge | None = None


class Identifier(Said):
    """A serial number, part number, stamp or tag that was read out."""

    kind: Literal["identifier"] = "identifier"
    identifier: IdentifierKind
    component: str | None = None
    value: str
    partial: bool = False  # only the end or a part of it was read


class PhotoMark(Said):
    """A picture was announced."""

    kind: Literal["photo"] = "photo"
    component: str | None = None
    which: str | None = None
    conditions: tuple[str, ...] = ()


class Remark(Said):
    """Words that are kept but are not for the record."""

    kind: Literal["remark"] = "remark"
    reason: str = ""  # why it is no more than a remark, e.g. "tool size"; "" for plain talk


class Unclear(Said):
    """Looks like a measurement but was not understood; waits for a person."""

    kind: Literal["unclear"] = "unclear"
    component: str | None = None
    reason: str = ""


class Correction(Said):
    """An earlier statement no longer holds."""

    kind: Literal["correction"] = "correction"
    supersedes: tuple[str, ...]  # ids
    by: str | None = None  # id of the statement that takes its place; None where it was only withdrawn
    restores: tuple[str, ...] = ()  # ids that hold again: what had replaced them is among `supersedes`


class BenchCommand(Said):
    """Something the program is told to do. Only a note leaves an item: a remark, never mined."""

    kind: Literal["command"] = "command"
    command: CommandName
    words: str | None = None  # of the note, word for word; None for every other command


Statement = (
    Reading
    | ConditionNote
    | ActionNote
    | Movement
    | Identifier
    | PhotoMark
    | Remark
    | Unclear
    | Correction
    | BenchCommand
)
