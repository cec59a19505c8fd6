"""Entered, split, merged, undone: what the fold makes of it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from saywright.errors import NotFoundError, RefusedError
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import Folder
from saywright.sheets.model import Action, Characteristic, Component, Condition, Sheet
from saywright.understanding import statements as said

SHEET = Sheet(
    id="carburetor",
    title="Carburetor",
    component=(
        Component(
            id="pad",
            names=("pad",),
            count=2,
            positions=("left", "right"),
            characteristic=(Characteristic(id="thickness", names=("thickness",), unit="mm"),),
        ),
    ),
    condition=(Condition(id="scored", names=("scored",)), Condition(id="bent", names=("bent",))),
    action=(Action(id="clean", names=("clean",)),),
)


def reading(item_id: str, value: str = "11.2", **more: object) -> said.Reading:
    """A thickness of a pad."""
    fields = {"stage": "as_found", "heard": f"pads {value}", "component": "pad", "unit": "mm", **more}
    return said.Reading(id=item_id, characteristic="thickness", value=value, **fields)


class Log:
    """A folder that events are fed to."""

    def __init__(self) -> None:
        self.folder = Folder()
        self.last: ev.Event | None = None
        self.at = datetime(2026, 3, 14, tzinfo=UTC)
        self.add(ev.JobOpened(job="20260314-1", title="Pads", sheet=SHEET))

    def add(self, payload: ev.Payload, actor: str = "Ada") -> int:
        """Append it; its sequence number."""
        self.at += timedelta(seconds=1)
        event = link(payload, at=self.at, actor=actor, after=self.last)
        self.folder.check(event)
        self.folder.apply(event)
        self.last = event
        return event.seq

    def item(self, item_id: str):
        """The item as it stands."""
        return self.folder.item(item_id)


@pytest.fixture
def log():
    """A job in which the pads were read once, and a scored one was seen."""
    made = Log()
    scored = said.ConditionNote(
        id="s2", stage="as_found", heard="scored and bent", component="pad", condition="scored"
    )
    made.add(ev.Understood(heard=None, statements=(reading("s1"), scored, reading("s3", "11.3"))))
    return made


def without_event(item):
    """The item, leaving out which event changed it last."""
    return item.model_copy(update={"event": None})


def test_what_is_entered_is_accepted_and_marked(log):
    """An item by a person: accepted by them, with a note that nobody said it."""
    seq = log.add(ev.ItemAdded(statement=reading("s4", "10.9", which="left", heard=""), why="forgot to say"))
    item = log.item("s4")
    assert ("Ada", seq, "10.9", "10.9") == (item.accepted_by, item.event, item.value, item.in_sheet_unit)
    assert ["entered by a person, not heard: forgot to say"] == [f.text for f in item.flags]


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        (reading("s1"), "already in the record"),
        (reading("s4", component="boiler"), "no component 'boiler'"),
        (reading("s4", which="middle"), "no pad 'middle'"),
        (said.PhotoMark(id="s4", stage="as_found", heard=""), "cannot be entered"),
        (said.Correction(id="s4", stage="as_found", heard="", supersedes=("s1",)), "cannot be entered"),
    ],
)
def test_what_cannot_be_entered_is_refused(log, statement, told):
    """Names the sheet does not have, an id twice, kinds that no form makes."""
    with pytest.raises(RefusedError, match=told):
        log.add(ev.ItemAdded(statement=statement))


def test_one_reading_becomes_two(log):
    """Each piece keeps what was heard; the one that was split is replaced, not gone."""
    pieces = (
        ev.Piece(id="s5", changes={"which": "left"}),
        ev.Piece(id="s6", changes={"which": "right", "value": "11.4"}),
    )
    log.add(ev.ItemSplit(item="s1", into=pieces, why="one each"))
    left, right = log.item("s5"), log.item("s6")
    assert [("left", "11.2", "pads 11.2"), ("right", "11.4", "pads 11.2")] == [
        (item.which, item.value, item.heard) for item in (left, right)
    ]
    assert "s5" == log.item("s1").superseded_by
    assert ["Ada", "Ada"] == [left.accepted_by, right.accepted_by]


def test_a_piece_may_stay_as_it_was(log):
    """ "Scored and bent": one stays scored, the other becomes bent."""
    log.add(
        ev.ItemSplit(item="s2", into=(ev.Piece(id="s5"), ev.Piece(id="s6", changes={"condition": "bent"})))
    )
    assert ["scored", "bent"] == [log.item(name).condition for name in ("s5", "s6")]


@pytest.mark.parametrize(
    "pieces",
    [
        (ev.Piece(id="s5"),),
        (ev.Piece(id="s5"), ev.Piece(id="s5")),
        (ev.Piece(id="s5"), ev.Piece(id="s2")),
        (ev.Piece(id="s5"), ev.Piece(id="s6", changes={"value": "thick"})),
    ],
)
def test_a_split_that_cannot_be_leaves_all_as_it_was(log, pieces):
    """Fewer than two, an id twice, an id in use, a value that is none: nothing is changed."""
    before = log.folder.record()
    with pytest.raises(RefusedError):
        log.add(ev.ItemSplit(item="s1", into=pieces))
    assert before == log.folder.record()


def test_duplicates_become_one(log):
    """The one that stays is accepted; the other names it, and what repeated the other now repeats it."""
    log.add(ev.Understood(heard=None, statements=(reading("s4", repeat_of="s3"),)))
    log.add(ev.ItemsMerged(items=("s3",), into="s1", why="said twice"))
    assert "s1" == log.item("s3").superseded_by
    assert "Ada" == log.item("s1").accepted_by
    assert "the same as s3 (said twice)" in log.item("s1").flags[-1].text
    assert "s1" == log.item("s4").repeat_of


@pytest.mark.parametrize(
    ("items", "error"),
    [((), RefusedError), (("s1",), RefusedError), (("s2",), RefusedError), (("s9",), NotFoundError)],
)
def test_what_is_not_the_same_is_not_merged(log, items, error):
    """Nothing, itself, another kind, an unknown one."""
    with pytest.raises(error):
        log.add(ev.ItemsMerged(items=items, into="s1"))


CHANGES = (
    ev.ItemCorrected(item="s1", changes={"value": "11.8"}),
    ev.ItemAccepted(item="s1"),
    ev.ItemWithdrawn(item="s1", why="not this one"),
    ev.ItemSplit(
        item="s1",
        into=(ev.Piece(id="s5", changes={"which": "left"}), ev.Piece(id="s6", changes={"which": "right"})),
    ),
    ev.ItemsMerged(items=("s3",), into="s1"),
)


@pytest.mark.parametrize("payload", CHANGES, ids=lambda payload: payload.kind)
def test_an_undo_brings_back_what_was(log, payload):
    """After the undo each item is as before the change; after the undo of the undo, as after it."""
    before = {name: without_event(log.item(name)) for name in ("s1", "s2", "s3")}
    seq = log.add(payload)
    after = {name: without_event(log.item(name)) for name in ("s1", "s2", "s3")}
    undo = log.add(ev.ChangeUndone(event=seq, why="a slip"))
    assert before == {name: without_event(log.item(name)) for name in before}
    assert undo == log.item("s1").event
    log.add(ev.ChangeUndone(event=undo))
    assert after == {name: without_event(log.item(name)) for name in before}


def test_what_was_entered_is_gone_after_the_undo_and_kept(log):
    """An item that was not there before stays in the record, out of force."""
    undo = log.add(ev.ChangeUndone(event=log.add(ev.ItemAdded(statement=reading("s4")))))
    assert f"event-{undo}" == log.item("s4").superseded_by


def test_several_changes_are_undone_from_the_last(log):
    """The first can be undone once the second is; not before, and not twice."""
    first = log.add(ev.ItemCorrected(item="s1", changes={"value": "11.8"}))
    second = log.add(ev.ItemCorrected(item="s1", changes={"value": "11.9"}))
    with pytest.raises(RefusedError, match=f"changed again by event {second}"):
        log.add(ev.ChangeUndone(event=first))
    assert (second,) == log.folder.reversible()
    log.add(ev.ChangeUndone(event=second))
    assert "11.8" == log.item("s1").value
    log.add(ev.ChangeUndone(event=first))
    assert "11.2" == log.item("s1").value
    with pytest.raises(RefusedError, match="cannot be undone"):
        log.add(ev.ChangeUndone(event=second))


def test_a_reason_why_something_stays_open_is_taken_back(log):
    """The open item is open again."""
    seq = log.add(ev.OpenItemExplained(open_item="missing:pad:left.thickness@as_found", why="not fitted"))
    log.add(ev.ChangeUndone(event=seq))
    assert () == log.folder.record().open_items


@pytest.mark.parametrize("seq", [0, 1, 2, 99])
def test_what_is_no_change_of_a_person_is_not_undone(log, seq):
    """What was heard, and what never happened."""
    with pytest.raises(RefusedError, match="no change that can be undone"):
        log.add(ev.ChangeUndone(event=seq))
