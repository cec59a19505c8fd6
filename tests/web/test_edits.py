"""Enter, split, merge, undo, bench time, revisions: the forms of the desk beyond a correction."""

from __future__ import annotations

import errno
import html
import re

import pytest

from saywright.record import events as ev

JOB_PAGE = "/jobs/20260314-1"


def last(visit):
    """The newest event."""
    return visit.bench().events()[-1]


def item(visit, item_id):
    """The item as it stands."""
    record = visit.bench().record()
    every = (*record.readings, *record.conditions, *record.actions, *record.movements)
    return next(one for one in every if one.id == item_id)


def seen(visit, item_id):
    """The event a form shows the item at."""
    return str(item(visit, item_id).event)


@pytest.mark.parametrize(
    ("kind", "form", "told"),
    [
        (
            "reading",
            {"value": "4,2", "unit": "", "measurand": "pad / thickness", "which": "left", "stage": "as_left"},
            {"value": "4.2", "unit": "mm", "component": "pad", "which": "left", "stage": "as_left"},
        ),
        (
            "condition",
            {"condition": "scored", "component": "float", "severity": "slight", "stage": "as_found"},
            {"condition": "scored", "component": "float", "severity": "slight", "present": True},
        ),
        (
            "action",
            {"action": "order", "component": "float", "status": "proposed", "quantity": "2"},
            {"action": "order", "component": "float", "status": "proposed", "quantity": 2},
        ),
        (
            "movement",
            {"movement": "fitted", "component": "bowl_gasket", "part": "new", "count": "1"},
            {"movement": "fitted", "component": "bowl_gasket", "part": "new", "count": 1},
        ),
    ],
)
def test_what_was_not_said_is_entered(visit, kind, form, told):
    """One event in the name of who entered it; the item is accepted and says why it is there."""
    answer = visit.post("/add", {"kind": kind, "why": "forgot to say", **form})
    assert f"{JOB_PAGE}?done=entered&event={last(visit).seq}" == answer.headers["location"]
    made = item(visit, last(visit).payload.statement.id)
    assert told == {name: getattr(made, name) for name in told}
    assert ("Ada", "Ada") == (last(visit).actor, made.accepted_by)
    assert "entered by a person, not heard: forgot to say" in made.flags[-1].text


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ({"kind": "reading", "value": ""}, "Value: nothing was given"),
        ({"kind": "reading", "value": "about 18"}, "'about 18' is not a number"),
        ({"kind": "reading", "value": "4", "measurand": "pad / colour"}, "is not one of the choices"),
        (
            {"kind": "reading", "value": "4", "measurand": "float / height", "which": "left"},
            "no float 'left'",
        ),
        ({"kind": "movement", "count": "0"}, "count cannot be so"),
        ({"kind": "boiler"}, "there is no such form"),
        ({}, "Kind: nothing was given"),
    ],
)
def test_what_cannot_be_entered_makes_no_event(visit, form, told):
    """One clear line, and the record as it was."""
    before = last(visit).seq
    answer = visit.post("/add", form)
    assert answer.status_code in (404, 409, 422)
    assert told in re.sub(r"<[^>]+>", "", html.unescape(answer.text))
    assert before == last(visit).seq


def test_one_item_is_split(visit):
    """Each piece names only what differs; the page of the first says what became of it."""
    form = {"seen": seen(visit, "s3"), "a-condition": "scored", "b-condition": "clean", "b-severity": ""}
    answer = visit.post("/items/s3/split", {**form, "back": "item", "why": "two things"})
    assert answer.headers["location"].startswith(f"{JOB_PAGE}/items/s3?done=split&")
    pieces = (ev.Piece(id="s10"), ev.Piece(id="s11", changes={"condition": "clean", "severity": None}))
    assert ev.ItemSplit(item="s3", into=pieces, why="two things") == last(visit).payload
    assert "split into s10, s11" in visit.client.get(f"{JOB_PAGE}/items/s3").text


def test_a_split_into_the_same_is_refused(visit):
    """Two pieces that both say what the item says are no split."""
    form = {"seen": seen(visit, "s3"), "a-condition": "scored", "b-condition": "scored"}
    assert 422 == visit.post("/items/s3/split", form).status_code


def test_two_items_are_merged(visit):
    """The form offers what is of the same kind on the same part; the other is kept, out of force."""
    visit.bench().say("float height is eighteen point four two")
    page = visit.client.get(f"{JOB_PAGE}/items/s1").text
    offered = re.findall(r'name="same" value="([^"]+)"', page)
    assert [f"s10 {seen(visit, 's10')}"] == offered
    answer = visit.post("/items/s1/merge", {"seen": seen(visit, "s1"), "same": offered[0]})
    assert 303 == answer.status_code
    assert ev.ItemsMerged(items=("s10",), into="s1") == last(visit).payload
    assert "s1" == item(visit, "s10").superseded_by


@pytest.mark.parametrize("act", ["split", "merge"])
def test_a_late_split_or_merge_is_told_what_changed(visit, act):
    """Who comes too late sees who did what, and nothing happens."""
    visit.bench().say("float height is eighteen point four two")
    form = {"seen": seen(visit, "s1"), "same": f"s10 {seen(visit, 's10')}", "a-value": "18", "b-value": "19"}
    visit.bench().correct("s1", {"value": "18.44"}, why="listened", actor="Ben")
    before = last(visit).seq
    answer = visit.post(f"/items/s1/{act}", form)
    assert 409 == answer.status_code
    assert "corrected: value → 18.44. Why: listened" in answer.text
    assert before == last(visit).seq


def test_an_undo_of_a_chosen_event(visit):
    """The history of an item offers it for what can be undone, and the item is as before."""
    visit.post("/items/s1/correct", {"value": "18.40", "seen": seen(visit, "s1")})
    changed = last(visit).seq
    page = visit.client.get(f"{JOB_PAGE}/items/s1").text
    assert [str(changed)] == re.findall(r'name="event" value="(\d+)"', page)
    assert 303 == visit.post("/undo", {"event": str(changed), "item": "s1", "back": "item"}).status_code
    assert ev.ChangeUndone(event=changed) == last(visit).payload
    now = item(visit, "s1")
    assert ("18.42", None) == (now.value, now.accepted_by)
    assert f"event {changed} undone" in visit.client.get(f"{JOB_PAGE}/items/s1").text


def test_an_undo_of_the_last_change_is_ones_own(visit):
    """What another person did is not taken back by it."""
    visit.post("/items/s1/accept", {"seen": seen(visit, "s1")})
    mine = last(visit).seq
    visit.bench().accept("s2", actor="Ben")
    visit.post("/undo")
    assert ev.ChangeUndone(event=mine) == last(visit).payload
    assert 409 == visit.post("/undo").status_code


@pytest.mark.parametrize("event", ["1", "99", "x", "-4", "1e3"])
def test_what_is_no_change_is_not_undone(visit, event):
    """An event that nobody can undo, one that never happened, no number: one line, no event."""
    before = last(visit).seq
    assert visit.post("/undo", {"event": event}).status_code in (409, 422)
    assert before == last(visit).seq


def test_bench_time_is_corrected_and_shown(visit):
    """The right minutes, who gave them, and what was computed."""
    form = {"component": "float", "stage": "as_found", "minutes": "12,5", "why": "phone call"}
    answer = visit.post("/time", {**form, "back": "check"})
    assert f"{JOB_PAGE}/check?done=timed&event={last(visit).seq}#time" == answer.headers["location"]
    page = visit.client.get(f"{JOB_PAGE}/check").text
    assert "12 min 30 s" in page
    assert "corrected by Ada from 0 min 05 s: phone call" in page
    assert 409 == visit.post("/time", {**form, "minutes": "long"}).status_code


def test_a_bench_time_is_undone(visit):
    """By the button beside it: what was given before holds again, then what was computed."""
    form = {"component": "float", "stage": "as_found", "back": "check"}
    for minutes in ("12", "20"):
        visit.post("/time", {**form, "minutes": minutes})
    second, first = last(visit).seq, last(visit).seq - 1
    page = visit.client.get(f"{JOB_PAGE}/check").text
    assert ("20 min 00 s" in page, f'name="event" value="{second}"' in page) == (True, True)
    assert 409 == visit.post("/undo", {"event": str(first), "back": "check"}).status_code
    assert 303 == visit.post("/undo", {"event": str(second), "back": "check"}).status_code
    page = visit.client.get(f"{JOB_PAGE}/check").text
    assert ("12 min 00 s" in page, f'name="event" value="{first}"' in page) == (True, True)
    assert 303 == visit.post("/undo", {"event": str(first), "back": "check"}).status_code
    assert "corrected by" not in visit.client.get(f"{JOB_PAGE}/check").text
    undone = last(visit).seq
    assert 303 == visit.post("/undo", {"event": str(undone), "back": "check"}).status_code
    assert "12 min 00 s" in visit.client.get(f"{JOB_PAGE}/check").text


def test_the_place_of_a_picture_is_undone(visit):
    """The notice has the way back; the picture is where it was, and the mark waits for one again."""
    answer = visit.post("/photos/p1/place", {"place": "mark:s4"})
    placed = last(visit).seq
    assert f"done=placed&event={placed}#photos" in answer.headers["location"]
    assert f'name="event" value="{placed}"' in visit.client.get(answer.headers["location"]).text
    assert ["p1", "s4"] != [photo.id for photo in visit.bench().record().photos if photo.sha256 is None]
    assert 303 == visit.post("/undo", {"event": str(placed)}).status_code
    photos = {photo.id: photo for photo in visit.bench().record().photos}
    assert {"s4", "p1", "p2"} == set(photos)
    assert (None, True) == (photos["s4"].sha256, photos["p1"].sha256 is not None)


def signed(visit):
    """Explain all that is open and sign."""
    for open_item in visit.bench().record().open_items:
        if open_item.explained is None:
            visit.bench().explain(open_item.id, "agreed", actor="Ada")
    form = {"name": "Ada", "statement": "It is so.", "seen": visit.record_hash()}
    assert 303 == visit.post("/sign", form).status_code


def test_what_changes_after_the_signature_is_a_new_revision(visit):
    """The page says what changed since, asks for a signature again, and counts on."""
    signed(visit)
    assert "This revision is signed." in visit.client.get(f"{JOB_PAGE}/sign").text
    visit.bench().correct("s1", {"value": "18.44"}, why="listened again", actor="Ben")
    page = html.unescape(visit.client.get(f"{JOB_PAGE}/sign").text)
    assert "Revision 2" in page
    assert "Changed since revision 1" in page
    assert "Float: height 18.44 mm</a>, corrected: value → 18.44 (listened again)" in page
    signed(visit)
    page = visit.client.get(f"{JOB_PAGE}/sign").text
    assert 2 == len(re.findall(r"Revision \d signed by <b>Ada</b>", page))
    assert "Changed since" not in page


def test_a_picture_is_left_out_of_the_report(visit):
    """It is kept, the report says how many it does not show, and it can be shown again or undone."""
    before = visit.bench().proof("html").decode()
    assert 2 == before.count("<img ")
    answer = visit.post("/photos/p1/choose", {"in_report": "no"})
    left = last(visit)
    assert ev.PhotoChosen(photo="p1", in_report=False) == left.payload
    assert f"done=left&event={left.seq}#photos" in answer.headers["location"]
    page = visit.bench().proof("html").decode()
    assert 1 == page.count("<img ")
    assert "1 picture is kept with the record and not shown here." in page
    assert "Not in the report." in visit.client.get(JOB_PAGE).text
    assert "left out of the report" in visit.client.get(f"{JOB_PAGE}/items/p1").text
    assert 303 == visit.post("/photos/p1/place", {"place": "mark:s4"}).status_code
    assert 1 == visit.bench().proof("html").decode().count("<img ")
    assert 303 == visit.post("/undo", {"event": str(last(visit).seq)}).status_code
    assert 303 == visit.post("/undo", {"event": str(left.seq)}).status_code
    assert before.count("<img ") == visit.bench().proof("html").decode().count("<img ")
    visit.post("/photos/p2/choose", {"in_report": "no"})
    visit.post("/photos/p2/choose", {"in_report": "yes"})
    assert 2 == visit.bench().proof("html").decode().count("<img ")
    assert 422 == visit.post("/photos/p1/choose", {"in_report": "perhaps"}).status_code
    assert 404 == visit.post("/photos/p9/choose", {"in_report": "no"}).status_code


@pytest.mark.parametrize(("form", "start"), [("json", b"{"), ("csv", b""), ("parts", b""), ("text", b"")])
def test_the_record_is_exported_from_the_page(visit, form, start):
    """The same bytes as the bench's own export, as a file to keep."""
    answer = visit.client.get(f"{JOB_PAGE}/export/{form}")
    assert visit.bench().export(form) == answer.content
    assert answer.content.startswith(start)
    assert "attachment" in answer.headers["content-disposition"]
    assert f'href="{JOB_PAGE}/export/{form}"' in visit.client.get(f"{JOB_PAGE}/sign").text


def test_an_unknown_export_is_told(visit):
    """A form that is none gets a page."""
    assert 404 == visit.client.get(f"{JOB_PAGE}/export/exe").status_code


@pytest.mark.parametrize("fault", [errno.ENOSPC, errno.EDQUOT])
def test_no_room_for_an_upload_is_told(visit, jpeg, monkeypatch, fault):
    """A full temporary folder gets the page that says so, and nothing is half taken in."""
    import tempfile

    def full(*args, **kwargs):
        raise OSError(fault, "No space left on device")

    before = last(visit).seq
    token = visit.token()
    monkeypatch.setattr(tempfile, "SpooledTemporaryFile", full)
    monkeypatch.setattr("starlette.formparsers.SpooledTemporaryFile", full)
    answer = visit.client.post(
        f"{JOB_PAGE}/photos", data={"token": token}, files=[("files", ("a.jpg", jpeg, "image/jpeg"))]
    )
    assert (507, before) == (answer.status_code, last(visit).seq)
    assert "there is no room for what was sent" in answer.text.lower()
