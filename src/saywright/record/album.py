"""The pictures in the fold: where each is, what was measured in it and drawn on it.

A picture is at a mark (the two are one item), beside a mark (an item of its own, on the mark's part), on a
part, or nowhere. Each placement undoes the one before.
"""

from __future__ import annotations

from typing import Any

from saywright.errors import ChainError, NotFoundError, RefusedError
from saywright.record import events as ev
from saywright.record.pictures import (
    besides,
    check_flags,
    joined,
    parted,
    picture_item,
    put_on_part,
    reading_of,
    with_measurement,
    without_checks,
)
from saywright.record.types import Item, Measurement, Photo
from saywright.sheets.model import Sheet


class Album:
    """The part of the folder that knows pictures. Its state is held in dicts of frozen values only."""

    def __init__(self) -> None:
        self._sheet: Sheet | None = None
        self._items: dict[str, Item] = {}
        self._pictures: dict[str, tuple[ev.PhotoAdded, int]] = {}  # id → how it came, sequence number
        self._place: dict[str, str] = {}  # picture id → mark id
        self._beside: dict[str, ev.PhotoPlaced] = {}  # picture id → how it came beside its mark
        self._measured: dict[str, tuple[Measurement, ...]] = {}  # picture id → what was measured in it
        self._left_out: dict[str, int] = {}  # pictures that a person left out of the report → event
        self._drawn: dict[str, tuple[dict[str, Any], ...]] = {}  # picture id → what was drawn on it

    @property
    def sheet(self) -> Sheet:
        """The sheet the job was opened with."""
        if self._sheet is None:
            raise ChainError("the log does not begin with the opening of a job")
        return self._sheet

    def picture(self, photo_id: str) -> ev.PhotoAdded:
        """How this picture came, with the checks that hold; NotFoundError otherwise."""
        if photo_id not in self._pictures:
            raise NotFoundError(f"no picture '{photo_id}'", to_do="Take the id from the list of photos")
        return self._pictures[photo_id][0]

    def pictures(self) -> tuple[tuple[ev.PhotoAdded, str | None], ...]:
        """Every picture taken in, with the mark it is at (None: at no mark)."""
        return tuple((added, self._place.get(key)) for key, (added, _) in self._pictures.items())

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

    def _bare(self, photo_id: str) -> Photo:
        """The item of a picture at no place."""
        bare = picture_item(*self._pictures[photo_id], self._measured.get(photo_id, ()))
        chosen = {"annotations": self._drawn.get(photo_id, ()), "in_report": photo_id not in self._left_out}
        return bare.model_copy(update=chosen)

    def _parted(self, mark: Photo, seq: int) -> dict[str, Item]:
        """The picture that was at *mark*, an item of its own again; nothing where there was none."""
        for photo_id, mark_id in list(self._place.items()):
            if mark_id == mark.id:
                del self._place[photo_id]
                return {photo_id: self._bare(photo_id).model_copy(update={"event": seq})}
        return {}

    def _add_picture(self, payload: ev.PhotoAdded, seq: int) -> None:
        if payload.photo in self._items or payload.photo in self._pictures:
            raise RefusedError(f"the id '{payload.photo}' is already in the record", where=f"event {seq}")
        self._pictures[payload.photo] = (payload, seq)
        self._items[payload.photo] = picture_item(payload, seq)

    def _recheck(self, payload: ev.PhotoChecked, seq: int) -> None:
        added = self.picture(payload.photo).model_copy(update={"checks": payload.checks})
        self._pictures[payload.photo] = (added, self._pictures[payload.photo][1])
        item = self._find(payload.photo)
        flags = (*without_checks(item.flags), *check_flags(payload.checks))
        self._items[item.id] = item.model_copy(
            update={"checks": payload.checks, "flags": flags, "event": seq}
        )

    def _measure(self, payload: ev.PhotoMeasured, seq: int) -> None:
        self.picture(payload.photo)
        item = self._find(payload.photo)
        found = with_measurement(self._measured, payload, seq)
        self._measured[payload.photo] = found
        self._items[item.id] = item.model_copy(update={"measurements": found, "event": seq})

    def _enter(self, payload: ev.MeasurementEntered, event: ev.Event) -> None:
        self.picture(payload.photo)
        if payload.measurement in self._items:
            what = "this measurement is a reading already"
            raise RefusedError(what, where=payload.measurement, to_do="Correct that one, or measure again")
        known = self._measured.get(payload.photo, ())
        found = next((one for one in known if one.id == payload.measurement), None)
        if found is None:
            told = ", ".join(one.id for one in known) or "none yet"
            what = f"the picture has no measurement '{payload.measurement}'"
            raise NotFoundError(what, where=payload.photo, to_do=f"Measurements: {told}")
        self._items[found.id] = reading_of(found, payload, event, self.sheet)

    def _annotate(self, payload: ev.PhotoAnnotated, event: ev.Event) -> None:
        self.picture(payload.photo)
        item = self._find(payload.photo)
        self._drawn[payload.photo] = payload.annotations
        self._items[item.id] = item.model_copy(
            update={"annotations": payload.annotations, "event": event.seq}
        )

    def _choose(self, payload: ev.PhotoChosen, seq: int) -> None:
        self.picture(payload.photo)
        item = self._find(payload.photo)
        if payload.in_report:
            self._left_out.pop(payload.photo, None)
        else:
            self._left_out[payload.photo] = seq
        self._items[item.id] = item.model_copy(update={"in_report": payload.in_report, "event": seq})

    def _put(self, placed: ev.PhotoPlaced, event: ev.Event) -> None:
        """Join picture and mark, put it beside the mark, or on a part. What was before is undone."""
        self.picture(placed.photo)
        mark = self._mark(placed.mark) if placed.mark is not None else None
        if placed.component is not None and self.sheet.get(placed.component) is None:
            raise RefusedError(f"the sheet has no component '{placed.component}'", where=placed.photo)
        free = self._bare(placed.photo)
        self._beside.pop(placed.photo, None)
        former = self._items.get(self._place.pop(placed.photo, ""))
        if isinstance(former, Photo):
            self._items[former.id] = parted(former, event.seq)
            mark = self._mark(placed.mark) if placed.mark is not None else None
        if mark is None:
            self._items[placed.photo] = put_on_part(free, placed, event.seq, event.actor)
            return
        if placed.beside:
            self._beside[placed.photo] = placed
            self._items[placed.photo] = besides(mark, free, placed, event.seq, event.actor)
            return
        if other := self._parted(mark, event.seq):
            self._items.update(other)
            mark = parted(mark, event.seq)
        self._items.pop(placed.photo, None)
        self._place[placed.photo] = mark.id
        self._items[mark.id] = joined(mark, free, placed, event.seq, event.actor)

    def _follow(self, mark_id: str, seq: int) -> None:
        """Pictures beside a mark go where a person says that it belongs."""
        mark = self._items[mark_id]
        for photo_id, placed in self._beside.items():
            now = self._items.get(photo_id)
            if placed.mark == mark_id and isinstance(mark, Photo) and isinstance(now, Photo):
                again = besides(mark, now, placed, seq, "")
                kept = {"flags": now.flags, "accepted_by": now.accepted_by}
                self._items[photo_id] = again.model_copy(update=kept)

    def _mark(self, mark_id: str) -> Photo:
        mark = self._live(mark_id)
        if not isinstance(mark, Photo) or mark.id in self._pictures:
            to_do = "Take the id of a spoken photo mark"
            raise RefusedError("this is no spoken photo mark", where=mark_id, to_do=to_do)
        return mark
