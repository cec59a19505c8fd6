"""The record is a fold over the events: nothing is stored twice, nothing is overwritten.

`Folder` keeps the state between events, so that following a job live costs one step an
event. An event that breaks the rules is refused before anything of it is applied.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from saywright.errors import ChainError, RefusedError, StaleError
from saywright.record import events as ev
from saywright.record.changes import correct_item
from saywright.record.edits import REVERSIBLE, Edits, Reversible
from saywright.record.making import (
    correction_words,
    dated,
    holding_again,
    kept,
    leaves_item,
    open_item_kind,
    serial_read_out,
)
from saywright.record.pictures import parted
from saywright.record.revisions import QUIET
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Job,
    Movement,
    OpenItem,
    Photo,
    Reading,
    Record,
    Remark,
    SignOff,
    Unclear,
)
from saywright.understanding import statements as said

_KEY_SHOWN = 12  # digits of a recording's key that name it in an open item


def fold(events: Iterable[ev.Event]) -> Record:
    """The record after *events*; no decisions; of open items those explained and recordings not heard out."""
    folder = Folder()
    for event in events:
        folder.apply(event)
    return folder.record()


class Folder(Edits):
    """The state of the fold. `apply` takes one event, `record` gives the record so far."""

    def __init__(self) -> None:
        super().__init__()
        self._job: Job | None = None
        self._sign_off: SignOff | None = None
        self._hash: str | None = None
        self._unheard: dict[str, str] = {}  # recordings that were not heard to their end: key → name

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
        if (self._job is None) != (type(payload) is ev.JobOpened):
            what = "a job is opened once, by its first event"
            raise ChainError(what, where=f"event {event.seq}", to_do="Restore the log from a backup")
        if type(payload) is not ev.Heard:  # words by themselves change nothing
            self._take(payload, event)
        self._settle_sign_off(event)
        self._hash = event.hash

    def _take(self, payload: ev.Payload, event: ev.Event) -> None:
        """Change what the event changes; what comes most often is asked for first."""
        match payload:
            case ev.Understood():
                self._items.update(self._understood(payload, event))
            case ev.JobOpened() | ev.JobDescribed():
                self._describe(payload, event)
            case ev.AudioAdded():
                self._hear(payload)
            case ev.PhotoAdded():
                self._add_picture(payload, event.seq)
            case ev.PhotoChecked():
                self._recheck(payload, event.seq)
            case ev.PhotoPlaced() if payload.confidence is not None:
                self._put(payload, event)
            case ev.PhotoMeasured():
                self._measure(payload, event.seq)
            case ev.PhotoAnnotated():
                self._annotate(payload, event)
            case ev.MeasurementEntered():
                self._enter(payload, event)
            case _ if isinstance(payload, REVERSIBLE):
                self._by_person(payload, event)

    def item(self, item_id: str) -> Item:
        """The item with this id; NotFoundError otherwise. A placed picture is found at its mark."""
        return self._find(item_id)

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
            open_items=(*self._explained.values(), *self._cut_off()),
            sign_off=self._sign_off,
            record_hash=self._hash,
        )

    # What follows is one step an event kind.

    def _by_person(self, payload: Reversible, event: ev.Event) -> None:
        """A change that can be undone: what it changed is remembered."""
        was = self._photograph()
        match payload:
            case ev.ItemCorrected():
                item, who = self._find(payload.item), event.actor
                item = correct_item(item, payload.changes, actor=who, why=payload.why, sheet=self.sheet)
                self._items[item.id] = dated(item.model_copy(update={"event": event.seq}), event.at)
                self._follow(item.id, event.seq)
            case ev.ItemAccepted():
                item = self._live(payload.item)
                update = {"accepted_by": event.actor, "event": event.seq}
                self._items[item.id] = item.model_copy(update=update)
            case ev.ItemWithdrawn():
                self._withdraw(payload.item, event.seq)
            case ev.ItemAdded() | ev.ItemSplit() | ev.ItemsMerged():
                self._edit(payload, event)
            case ev.ChangeUndone():
                self._undo(payload, event)
            case ev.OpenItemExplained():
                self._explain(payload)
            case ev.PhotoPlaced():
                self._put(payload, event)
            case ev.PhotoChosen():
                self._choose(payload, event.seq)
            case ev.TimeCorrected():
                self._times[f"{payload.component} {payload.stage}"] = event.seq
        self._remember(event.seq, was)

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
            if leaves_item(statement):
                delta[statement.id] = dated(kept(statement, event.seq, self.sheet), event.at)
        for statement in payload.statements:
            if type(statement) is said.Correction:
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
        delta.update(holding_again(correction, self._items, seq))
        delta[correction.id] = correction_words(correction, seq, lost)

    def _withdraw(self, item_id: str, seq: int) -> None:
        delta: dict[str, Item] = {}
        if item_id in self._place:  # the picture goes, the spoken mark stays
            mark = self._items[self._place.pop(item_id)]
            if isinstance(mark, Photo):
                delta[mark.id] = parted(mark, seq)
            item: Item = self._bare(item_id)
        else:
            item = self._live(item_id)
            self._beside.pop(item_id, None)
            if isinstance(item, Photo) and item.id not in self._pictures:
                delta.update(self._parted(item, seq))
                item = parted(item, seq)
        delta[item.id] = item.model_copy(update={"superseded_by": f"event-{seq}", "event": seq})
        self._items.update(delta)

    def _hear(self, payload: ev.AudioAdded) -> None:
        if payload.cut_off:
            self._unheard[payload.recording or payload.sha256] = payload.name
        else:
            self._unheard.pop(payload.recording or payload.sha256, None)

    def _cut_off(self) -> Iterator[OpenItem]:
        for key, name in self._unheard.items():
            text = f"The recording {name} was not heard to its end. Hear it on, or say why it may be left."
            yield OpenItem(id=f"recording:{key[:_KEY_SHOWN]}", kind="recording", text=text)

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
        if type(event.payload) is ev.Signed:
            if event.payload.record_hash != event.previous:
                raise StaleError("the record changed before it was signed", to_do="Read it again, then sign")
            self._sign_off = SignOff(
                by=event.actor,
                at=event.at,
                record_hash=event.payload.record_hash,
                statement=event.payload.statement,
                role=event.payload.role,
            )
        elif self._sign_off is not None and not isinstance(event.payload, QUIET):
            self._sign_off = None
