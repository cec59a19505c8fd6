"""What programs send to the desk and get from it, as types: the source of its description."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

MAX_TEXT = 2000  # characters
MAX_SEQ = 2**53  # whole numbers that every reader of JSON keeps exactly

Words = Annotated[str, Field(max_length=MAX_TEXT)]
Seq = Annotated[int, Field(ge=0, le=MAX_SEQ)]
Changes = dict[str, str | int | bool | list[str] | None]  # field → value
Id = Annotated[str, Field(min_length=1, max_length=200)]


class _Sent(BaseModel):
    model_config = ConfigDict(extra="forbid")


class Who(BaseModel):
    """Who sits at the desk, and the token that a change has to carry."""

    actor: str
    token: str  # send it as the header x-desk-token


class JobLine(BaseModel):
    """One line of the list of jobs."""

    id: str
    title: str
    sheet: str
    item: str | None
    serial: str | None
    customer: str | None
    opened_at: datetime
    events: int


class ItemNow(BaseModel):
    """An item as it stands, told in words."""

    item: dict[str, Any]  # as in the record
    text: str
    event: int | None  # the last that changed it: send it back as `seen`
    asks: list[str]


class HistoryStep(BaseModel):
    """One event in the life of an item."""

    seq: int
    at: datetime
    actor: str
    what: str
    why: str


class Fault(BaseModel):
    """What is wrong, with what, what to do; after a stale change, what happened since."""

    what: str
    where: str
    to_do: str
    since: list[str] = []


class Accept(_Sent):
    """Stand for an item as it is."""

    seen: Seq  # `event` of the item as it was read


class Correct(_Sent):
    """Other values for fields of an item."""

    changes: Changes = Field(min_length=1, max_length=20)
    why: Words = ""
    seen: Seq


class Withdraw(_Sent):
    """Take an item out of the record."""

    why: Words = Field(min_length=1)
    seen: Seq


class Enter(_Sent):
    """What was not said: the fields of an item with its `kind`."""

    fields: Changes = Field(min_length=1, max_length=20)
    why: Words = ""


class Split(_Sent):
    """Two or more items of one: in what each differs from it."""

    into: list[Changes] = Field(min_length=2, max_length=20)
    why: Words = ""
    seen: Seq


class Merge(_Sent):
    """Others that say the same; this one stays."""

    others: dict[str, Seq] = Field(min_length=1, max_length=20)  # id → `event` as it was read
    why: Words = ""
    seen: Seq


class Undo(_Sent):
    """Take back what an event changed."""

    event: Seq | None = None  # None: the last change of whoever sends this
    why: Words = ""


class Explain(_Sent):
    """Why an open item may stay open."""

    open_item: Id
    why: Words = Field(min_length=1)


class Done(BaseModel):
    """The event that was kept."""

    event: int
