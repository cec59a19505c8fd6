"""What a person does to items beyond a correction, in the fold: adds, splits, merges, undoes.

An undo brings back what its event changed, as it was before. It is refused where somebody changed one
of the items again since, so that it never takes away more than was asked for.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, get_args

from saywright.errors import RefusedError
from saywright.flags import FlagKind, flag
from saywright.record import events as ev
from saywright.record.album import Album
from saywright.record.changes import check_names, correct_item
from saywright.record.making import dated, kept
from saywright.record.types import Item, OpenItem, Photo, Reading, Remark, Unclear
from saywright.sheets.model import Sheet

Reversible = (
    ev.ItemCorrected
    | ev.ItemAccepted
    | ev.ItemWithdrawn
    | ev.ItemAdded
    | ev.ItemSplit
    | ev.ItemsMerged
    | ev.ChangeUndone
    | ev.OpenItemExplained
    | ev.PhotoPlaced  # by a person; those that the program matched are placed anew
    | ev.PhotoChosen
    | ev.TimeCorrected
)
REVERSIBLE = get_args(Reversible)
T = TypeVar("T")
_ADDED = frozenset({"reading", "condition", "action", "movement", "identifier", "remark"})


@dataclass(frozen=True)
class Before:
    """What an event changed, as it was before; None for what was not there."""

    items: Mapping[str, Item | None]
    explained: Mapping[str, OpenItem | None]
    place: Mapping[str, str | None]  # picture → its mark
    beside: Mapping[str, ev.PhotoPlaced | None]  # picture → how it came beside its mark
    left_out: Mapping[str, int | None]  # picture that is not in the report → event
    times: Mapping[str, int | None]  # part and stage → event that gives the bench time
    gone: frozenset[str]  # items that the event took away: a picture that joined its mark
    times_now: Mapping[str, int | None]  # the same as `times`, as the event left it


class Edits(Album):
    """The part of the folder that knows such changes. Its state is held in dicts of frozen values only."""

    def __init__(self) -> None:
        super().__init__()
        self._explained: dict[str, OpenItem] = {}  # bare: judging fills in the rest
        self._times: dict[str, int] = {}  # part and stage → event that gives the bench time
        self._before: dict[int, Before] = {}  # sequence number → what that event changed
        self._stands: dict[str, tuple[int, int]] = {}  # item brought back → event it is of, of undo

    def reversible(self) -> tuple[int, ...]:
        """The events that can be undone as things stand, oldest first."""
        return tuple(seq for seq in self._before if self._hindrance(seq) is None)

    def touched(self, seq: int) -> tuple[str, ...]:
        """Ids of the items that event *seq*, a person's change, made or changed."""
        before = self._before.get(seq)
        return tuple(before.items) if before is not None else ()

    def _photograph(self) -> tuple[dict[str, Any], ...]:
        return tuple(dict(part) for part in self._parts())

    def _parts(self) -> tuple[dict[str, Any], ...]:
        """All that a person's change may touch, in the order of the fields of `Before`."""
        return self._items, self._explained, self._place, self._beside, self._left_out, self._times

    def _remember(self, seq: int, was: tuple[dict[str, Any], ...]) -> None:
        """Keep what event *seq* changed, told from the state as it *was*."""
        found = [_differences(before, now) for before, now in zip(was, self._parts(), strict=True)]
        items, explained, place, beside, left_out, times = found
        self._before[seq] = Before(
            items=items,
            explained=explained,
            place=place,
            beside=beside,
            left_out=left_out,
            times=times,
            gone=frozenset(items.keys() - self._items.keys()),
            times_now={key: self._times.get(key) for key in times},
        )

    def _hindrance(self, seq: int) -> str | None:
        """Why event *seq* cannot be undone; None where it can."""
        before = self._before.get(seq)
        if before is None or not (before.items or before.explained or before.times):
            return "it is no change that can be undone"
        if any(self._times.get(key) != now for key, now in before.times_now.items()):
            return "the bench time was given anew; undo that one first"
        for item_id in before.items:
            item = self._items.get(item_id)
            if item is None and item_id in before.gone:
                continue
            if item is None or seq not in (item.event, self._standing(item)):
                if item is None:
                    return f"{item_id} is there no more; put it right by hand"
                first = "undo that one first" if item.event in self._before else "put it right by hand"
                return f"{item_id} was changed again by event {item.event}; {first}"
        return None

    def _standing(self, item: Item) -> int | None:
        """The event whose doing the item is as it stands: an undo brings back that of an earlier one."""
        of, undone_by = self._stands.get(item.id, (None, None))
        return of if item.event == undone_by else item.event

    def _edit(self, payload: ev.ItemAdded | ev.ItemSplit | ev.ItemsMerged, event: ev.Event) -> None:
        match payload:
            case ev.ItemAdded():
                delta = {payload.statement.id: added_item(payload, event, self.sheet)}
                self._unused(delta, event)
            case ev.ItemSplit():
                delta = split_items(self._live(payload.item), payload, event, self.sheet)
                self._unused(delta.keys() - {payload.item}, event)
            case ev.ItemsMerged():
                delta = self._merged(payload, event)
        self._items.update(delta)

    def _unused(self, ids: Collection[str], event: ev.Event) -> None:
        for item_id in ids:
            if item_id in self._items or item_id in self._pictures:
                raise RefusedError(f"the id '{item_id}' is already in the record", where=f"event {event.seq}")

    def _merged(self, payload: ev.ItemsMerged, event: ev.Event) -> dict[str, Item]:
        """The one that stays, and those that say the same, marked with its id."""
        into = self._live(payload.into)
        others = [self._live(item_id) for item_id in payload.items]
        ids = {item.id for item in others}
        if not others or into.id in ids or len(ids) < len(payload.items):
            raise RefusedError(
                "two different items are needed", where=payload.into, to_do="Choose another one"
            )
        for item in others:
            if type(item) is not type(into) or isinstance(item, Photo):
                raise RefusedError(
                    f"{item.id} is not the same kind of item",
                    where=payload.into,
                    to_do="Withdraw the one that is wrong instead",
                )
        delta: dict[str, Item] = {
            item.id: item.model_copy(update={"superseded_by": into.id, "event": event.seq}) for item in others
        }
        for item in self._items.values():
            if isinstance(item, Reading) and item.repeat_of in ids and item.id not in ids:
                first = None if item.id == into.id else into.id
                delta[item.id] = item.model_copy(update={"repeat_of": first, "event": event.seq})
        told = f"the same as {', '.join(sorted(ids))}" + (f" ({payload.why})" if payload.why else "")
        stays = delta.get(into.id, into)
        update = {
            "accepted_by": event.actor,
            "event": event.seq,
            "flags": (*stays.flags, flag(FlagKind.BY_PERSON, told)),
        }
        delta[into.id] = stays.model_copy(update=update)
        return delta

    def _undo(self, payload: ev.ChangeUndone, event: ev.Event) -> None:
        hindrance = self._hindrance(payload.event)
        if hindrance is not None:
            raise RefusedError(
                f"event {payload.event} cannot be undone: {hindrance}", to_do="Look at the item's history"
            )
        before = self._before[payload.event]
        for item_id, was in before.items.items():
            if was is None and item_id in self._pictures:  # it is at its mark again
                del self._items[item_id]
                continue
            if was is None:
                update: dict[str, Any] = {"superseded_by": f"event-{event.seq}", "event": event.seq}
                self._items[item_id] = self._items[item_id].model_copy(update=update)
                continue
            self._stands[item_id] = (self._stood(was), event.seq)
            self._items[item_id] = was.model_copy(update={"event": event.seq})
        _restore(self._explained, before.explained)
        _restore(self._place, before.place)
        _restore(self._beside, before.beside)
        _restore(self._left_out, before.left_out)
        _restore(self._times, before.times)

    def _stood(self, was: Item) -> int:
        """The event whose doing *was* is, with earlier undos looked through."""
        of, undone_by = self._stands.get(was.id, (0, None))
        return of if was.event == undone_by else was.event or 0


def _restore(now: dict[str, T], was: Mapping[str, T | None]) -> None:
    """Put back what *was*; None: not there."""
    for key, value in was.items():
        if value is None:
            now.pop(key, None)
        else:
            now[key] = value


def _differences(was: Mapping[str, Any], now: Mapping[str, Any]) -> dict[str, Any]:
    """What is different now, as it was; None for what was not there."""
    changed = {key: was.get(key) for key, value in now.items() if was.get(key) is not value}
    return changed | {key: value for key, value in was.items() if key not in now}


def added_item(payload: ev.ItemAdded, event: ev.Event, sheet: Sheet) -> Item:
    """What a person entered, accepted by them; RefusedError for what the sheet does not know."""
    if payload.statement.kind not in _ADDED:
        what = f"a {payload.statement.kind} cannot be entered in a form"
        raise RefusedError(what, to_do="Enter a reading, a condition, an action or a movement")
    item = dated(kept(payload.statement, event.seq, sheet), event.at)
    check_names(item, sheet)
    flags = (*item.flags, flag(FlagKind.BY_PERSON, payload.why))
    return item.model_copy(update={"accepted_by": event.actor, "flags": flags})


def split_items(item: Item, payload: ev.ItemSplit, event: ev.Event, sheet: Sheet) -> dict[str, Item]:
    """The items that *item* falls into, each accepted, and itself marked as replaced by the first."""
    if isinstance(item, Photo):
        raise RefusedError("a photo cannot be split", where=item.id, to_do="Place its picture instead")
    if len(payload.into) < 2:
        raise RefusedError("a split gives two items or more", where=item.id, to_do="Say what each is")
    delta: dict[str, Item] = {}
    for piece in payload.into:
        copy = item.model_copy(update={"id": piece.id})
        if piece.changes:
            made = correct_item(copy, piece.changes, actor=event.actor, why=payload.why, sheet=sheet)
        elif isinstance(item, Remark | Unclear):
            to_do = "Give each its part, characteristic and value"
            raise RefusedError(
                "words that were not understood cannot stay as they are", where=item.id, to_do=to_do
            )
        else:
            kept_flags = tuple(f for f in item.flags if f.level == "note")
            told = f"split from {item.id}" + (f" ({payload.why})" if payload.why else "")
            made = copy.model_copy(
                update={"accepted_by": event.actor, "flags": (*kept_flags, flag(FlagKind.BY_PERSON, told))}
            )
        if piece.id in delta or piece.id == item.id:
            raise RefusedError(f"the id '{piece.id}' is there twice", where=item.id)
        delta[piece.id] = dated(made.model_copy(update={"event": event.seq}), event.at)
    gone = {"superseded_by": payload.into[0].id, "event": event.seq}
    return {item.id: item.model_copy(update=gone), **delta}
