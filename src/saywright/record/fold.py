"""The record is a fold over the events: nothing is stored twice, nothing is overwritten.

`Folder` keeps the state between events, so that following a job live costs one step an
event. An event that breaks the rules is refused before anything of it is applied.
"""

from __future__ import annotations

from collections.abc import Iterable

from saywright.errors import ChainError, NotFoundError, RefusedError, StaleError
from saywright.record import events as ev
from saywright.record.changes import correct_item
from saywright.record.making import correction_words, dated, kept, open_item_kind, serial_read_out
from saywright.record.pictures import joined, parted, picture_item, put_on_part, with_measurement
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Job,
    Measurement,
    Movement,
    OpenItem,
    Photo,
    Reading,
    Record,
    Remark,
    SignOff,
    Unclear,
)
from saywright.sheets.model import Sheet
from saywright.understanding import statements as said

_QUIET = (ev.Reported,)  # events after which a signature still holds


def fold(events: Iterable[ev.Event]) -> Record:
    """The record after *events*; no decisions, no open items but the explained ones."""
    folder = Folder()
    for event in events:
        folder.apply(event)
    return folder.record()


class Folder:
    """The state of the fold. `apply` takes one event, `record` gives the record so far."""

    def __init__(self) -> None:
        self._job: Job | None = None
        self._sheet: Sheet | None = None
        self._items: dict[str, Item] = {}
        self._pictures: dict[str, tuple[ev.PhotoAdded, int]] = {}  # id → how it came, sequence number
        self._place: dict[str, str] = {}  # picture id → mark id
        self._measured: dict[str, tuple[Measurement, ...]] = {}  # picture id → what was measured in it
        self._explained: dict[str, OpenItem] = {}  # bare: judging fills in the rest
        self._sign_off: SignOff | None = None
        self._hash: str | None = None

    @property
    def sheet(self) -> Sheet:
        """The sheet the job was opened with."""
        if self._sheet is None:
            raise ChainError("the log does not begin with the opening of a job")
        return self._sheet

    def check(self, event: ev.Event) -> None:
        """Raise what `apply` would raise, and change nothing."""
        twin = Folder()
        twin.__dict__.update(
            {name: dict(value) if isinstance(value, dict) else value for name, value in self.__dict__.items()}
        )
        twin.apply(event)

    def apply(self, event: ev.Event) -> None:
        """Take in one event. Refused events raise and leave the state as it was."""
        payload = event.payload
        if (self._job is None) != isinstance(payload, ev.JobOpened):
            what = "a job is opened once, by its first event"
            raise ChainError(what, where=f"event {event.seq}", to_do="Restore the log from a backup")
        match payload:
            case ev.JobOpened() | ev.JobDescribed():
                self._describe(payload, event)
            case ev.Understood():
                self._items.update(self._understood(payload, event))
            case ev.ItemCorrected():
                item, who = self._find(payload.item), event.actor
                item = correct_item(item, payload.changes, actor=who, why=payload.why, sheet=self.sheet)
                self._items[item.id] = dated(item.model_copy(update={"event": event.seq}), event.at)
            case ev.ItemAccepted():
                item = self._live(payload.item)
                update = {"accepted_by": event.actor, "event": event.seq}
                self._items[item.id] = item.model_copy(update=update)
            case ev.ItemWithdrawn():
                self._withdraw(payload.item, event.seq)
            case ev.PhotoAdded():
                self._add_picture(payload, event.seq)
            case ev.PhotoPlaced():
                self._put(payload, event)
            case ev.PhotoMeasured():
                self._measure(payload, event.seq)
            case ev.OpenItemExplained():
                self._explain(payload)
            case _:
                pass
        self._settle_sign_off(event)
        self._hash = event.hash

    def item(self, item_id: str) -> Item:
        """The item with this id; NotFoundError otherwise. A placed picture is found at its mark."""
        return self._find(item_id)

    def picture(self, photo_id: str) -> ev.PhotoAdded:
        """How this picture came; NotFoundError otherwise."""
        if photo_id not in self._pictures:
            raise NotFoundError(f"no picture '{photo_id}'", to_do="Take the id from the list of photos")
        return self._pictures[photo_id][0]

    def pictures(self) -> tuple[tuple[ev.PhotoAdded, str | None], ...]:
        """Every picture taken in, with the mark it is at (None: at no mark)."""
        return tuple((added, self._place.get(key)) for key, (added, _) in self._pictures.items())

    def record(self) -> Record:
        """The record as it stands."""
        if self._job is None:
            raise ChainError("the log is empty", to_do="Open a job first")
        items = self._items.values()
        job = self._job
        if job.serial is None:
            job = job.model_copy(update={"serial": serial_read_out(items)})
        return Record(
            job=job,
            readings=tuple(i for i in items if isinstance(i, Reading)),
            conditions=tuple(i for i in items if isinstance(i, Condition)),
            actions=tuple(i for i in items if isinstance(i, Action)),
            movements=tuple(i for i in items if isinstance(i, Movement)),
            identifiers=tuple(i for i in items if isinstance(i, Identifier)),
            photos=tuple(i for i in items if isinstance(i, Photo)),
            remarks=tuple(i for i in items if isinstance(i, Remark)),
            unclear=tuple(i for i in items if isinstance(i, Unclear)),
            open_items=tuple(self._explained.values()),
            sign_off=self._sign_off,
            record_hash=self._hash,
        )

    # What follows is one step an event kind.

    def _describe(self, payload: ev.JobOpened | ev.JobDescribed, event: ev.Event) -> None:
        if isinstance(payload, ev.JobOpened):
            self._sheet = payload.sheet
            self._job = Job(
                id=payload.job,
                title=payload.title,
                sheet=payload.sheet.id,
                sheet_revision=payload.sheet.revision,
                item=payload.item,
                serial=payload.serial,
                customer=payload.customer,
                opened_at=event.at,
            )
        elif self._job is not None:
            given = {k: v for k, v in payload.model_dump(exclude={"kind"}).items() if v is not None}
            self._job = self._job.model_copy(update=given)

    def _understood(self, payload: ev.Understood, event: ev.Event) -> dict[str, Item]:
        ids = [statement.id for statement in payload.statements]
        for number, item_id in enumerate(ids):
            if item_id in self._items or item_id in self._pictures or item_id in ids[:number]:
                raise RefusedError(
                    f"the id '{item_id}' is already in the record",
                    where=f"event {event.seq}",
                    to_do="Give each statement an id of its own",
                )
        delta: dict[str, Item] = {}
        for statement in payload.statements:
            if not isinstance(statement, said.Correction):
                delta[statement.id] = dated(kept(statement, event.seq, self.sheet), event.at)
        for statement in payload.statements:
            if isinstance(statement, said.Correction):
                self._supersede(statement, delta, event.seq)
        return delta

    def _supersede(self, correction: said.Correction, delta: dict[str, Item], seq: int) -> None:
        """Mark what no longer holds. The words of the correction stay, as a remark."""
        lost: list[str] = []
        for old_id in correction.supersedes:
            old = delta.get(old_id) or self._items.get(old_id)
            if old is None:
                lost.append(old_id)
                continue
            if isinstance(old, Photo):
                delta.update(self._parted(old, seq))
                old = parted(old, seq)
            by = correction.by or correction.id
            delta[old_id] = old.model_copy(update={"superseded_by": by, "event": seq})
        delta[correction.id] = correction_words(correction, seq, lost)

    def _find(self, item_id: str) -> Item:
        found = self._items.get(self._place.get(item_id, item_id))
        if found is None:
            raise NotFoundError(f"no item '{item_id}' in the record", to_do="Take the id from the record")
        return found

    def _live(self, item_id: str) -> Item:
        item = self._find(item_id)
        if item.superseded_by is not None:
            raise RefusedError(
                f"the item was replaced by {item.superseded_by}", where=item_id, to_do="Take that one instead"
            )
        return item

    def _withdraw(self, item_id: str, seq: int) -> None:
        delta: dict[str, Item] = {}
        if item_id in self._place:  # the picture goes, the spoken mark stays
            mark = self._items[self._place.pop(item_id)]
            if isinstance(mark, Photo):
                delta[mark.id] = parted(mark, seq)
            item: Item = picture_item(*self._pictures[item_id], self._measured.get(item_id, ()))
        else:
            item = self._live(item_id)
            if isinstance(item, Photo) and item.id not in self._pictures:
                delta.update(self._parted(item, seq))
                item = parted(item, seq)
        delta[item.id] = item.model_copy(update={"superseded_by": f"event-{seq}", "event": seq})
        self._items.update(delta)

    def _parted(self, mark: Photo, seq: int) -> dict[str, Item]:
        """The picture that was at *mark*, an item of its own again; nothing where there was none."""
        for photo_id, mark_id in list(self._place.items()):
            if mark_id == mark.id:
                del self._place[photo_id]
                free = picture_item(*self._pictures[photo_id], self._measured.get(photo_id, ()))
                return {photo_id: free.model_copy(update={"event": seq})}
        return {}

    def _add_picture(self, payload: ev.PhotoAdded, seq: int) -> None:
        if payload.photo in self._items or payload.photo in self._pictures:
            raise RefusedError(f"the id '{payload.photo}' is already in the record", where=f"event {seq}")
        self._pictures[payload.photo] = (payload, seq)
        self._items[payload.photo] = picture_item(payload, seq)

    def _measure(self, payload: ev.PhotoMeasured, seq: int) -> None:
        self.picture(payload.photo)
        item = self._find(payload.photo)
        found = with_measurement(self._measured, payload, seq)
        self._measured[payload.photo] = found
        self._items[item.id] = item.model_copy(update={"measurements": found, "event": seq})

    def _put(self, placed: ev.PhotoPlaced, event: ev.Event) -> None:
        """Join picture and mark, or put the picture on a part. What was before is undone."""
        self.picture(placed.photo)
        mark = self._mark(placed.mark) if placed.mark is not None else None
        if placed.component is not None and self.sheet.get(placed.component) is None:
            raise RefusedError(f"the sheet has no component '{placed.component}'", where=placed.photo)
        free = picture_item(*self._pictures[placed.photo], self._measured.get(placed.photo, ()))
        former = self._items.get(self._place.pop(placed.photo, ""))
        if isinstance(former, Photo):
            self._items[former.id] = parted(former, event.seq)
            mark = self._mark(placed.mark) if placed.mark is not None else None
        if mark is None:
            self._items[placed.photo] = put_on_part(free, placed, event.seq, event.actor)
            return
        if other := self._parted(mark, event.seq):
            self._items.update(other)
            mark = parted(mark, event.seq)
        self._items.pop(placed.photo, None)
        self._place[placed.photo] = mark.id
        self._items[mark.id] = joined(mark, free, placed, event.seq, event.actor)

    def _mark(self, mark_id: str) -> Photo:
        mark = self._live(mark_id)
        if not isinstance(mark, Photo) or mark.id in self._pictures:
            to_do = "Take the id of a spoken photo mark"
            raise RefusedError("this is no spoken photo mark", where=mark_id, to_do=to_do)
        return mark

    def _explain(self, payload: ev.OpenItemExplained) -> None:
        kind = open_item_kind(payload.open_item)
        if not payload.why.strip():
            to_do = "Say why it may stay open"
            raise RefusedError("no reason was given", where=payload.open_item, to_do=to_do)
        self._explained[payload.open_item] = OpenItem(
            id=payload.open_item, kind=kind, text="", explained=payload.why.strip()
        )

    def _settle_sign_off(self, event: ev.Event) -> None:
        """A signature holds for the record as it was; any change after it takes it away."""
        if isinstance(event.payload, ev.Signed):
            if event.payload.record_hash != event.previous:
                raise StaleError("the record changed before it was signed", to_do="Read it again, then sign")
            self._sign_off = SignOff(
                by=event.actor,
                at=event.at,
                record_hash=event.payload.record_hash,
                statement=event.payload.statement,
            )
        elif not isinstance(event.payload, _QUIET):
            self._sign_off = None
