"""Each form of the desk is one event in the name of who sent it."""

from __future__ import annotations

import html

import pytest

from saywright.record import events as ev

PICTURE_NAMES = ("../../etc/passwd.jpg", "..\\..\\boot.jpg", "/abs/float.jpg", ".hidden.jpg", "a b;c.jpg")


def last(visit):
    """The newest event."""
    return visit.bench().events()[-1]


def reading(visit, item_id="s1"):
    """The reading as it stands."""
    return next(r for r in visit.bench().record().readings if item_id == r.id)


def correction(visit, **changes):
    """The correction form of s1 as the page sends it, with *changes*."""
    form = {"value": "18.42", "unit": "mm", "measurand": "float / height", "which": "", "stage": "as_found"}
    return {**form, "why": "", "seen": str(reading(visit).event), **changes}


def test_accepting_is_an_event(visit):
    """Accepting takes the question away, in the person's name."""
    answer = visit.post("/items/s1/accept", {"seen": str(reading(visit).event)})
    assert (303, f"/jobs/20260314-1?done=accepted&event={last(visit).seq}") == (
        answer.status_code,
        answer.headers["location"],
    )
    assert ("Ada", ev.ItemAccepted(item="s1")) == (last(visit).actor, last(visit).payload)
    assert "Ada" == reading(visit).accepted_by


def test_the_item_page_is_gone_back_to(visit):
    """A form of the item's page leads back to it."""
    answer = visit.post("/items/s1/accept", {"back": "item"})
    assert answer.headers["location"].startswith("/jobs/20260314-1/items/s1?done=accepted&")


def test_the_questions_are_gone_back_to_behind_the_one_answered(visit):
    """A form of the questions leads to the next one."""
    answer = visit.post("/items/s1/accept", {"back": "asks"})
    assert answer.headers["location"].startswith("/jobs/20260314-1/asks?done=accepted&")
    page = visit.client.get(answer.headers["location"]).text
    assert "What was measured in" in page
    assert f'name="event" value="{last(visit).seq}"' in page


def test_a_correction_names_only_what_changed(visit):
    """The event holds the changed field with its digits, and the reason."""
    answer = visit.post("/items/s1/correct", correction(visit, value="18.40", why="listened again"))
    assert 303 == answer.status_code
    assert (
        ev.ItemCorrected(item="s1", changes={"value": "18.40"}, why="listened again") == last(visit).payload
    )
    assert "18.40" == reading(visit).value


def test_a_correction_may_move_a_reading_to_another_part(visit):
    """Part and characteristic change together."""
    form = correction(visit, measurand="pad / thickness", which="left", value="4.1")
    assert 303 == visit.post("/items/s1/correct", form).status_code
    moved = reading(visit)
    assert ("pad", "left", "thickness", "4.1") == (
        moved.component,
        moved.which,
        moved.characteristic,
        moved.value,
    )


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, "nothing was changed"),
        ({"value": "about 18"}, "'about 18' is not a number"),
        ({"value": ""}, "'' is not a number"),
        ({"unit": "furlong"}, "'furlong' is not one of the choices"),
        ({"measurand": "float / colour"}, "is not one of the choices"),
        ({"stage": ""}, "is not one of the choices"),
    ],
)
def test_a_correction_that_cannot_be_read_changes_nothing(visit, changes, told):
    """Bad input gets one clear line and no event."""
    before = last(visit).seq
    answer = visit.post("/items/s1/correct", correction(visit, **changes))
    assert 422 == answer.status_code
    assert told in html.unescape(answer.text).lower()
    assert before == last(visit).seq


@pytest.mark.parametrize("act", ["accept", "correct", "withdraw", "reword"])
def test_a_late_form_is_refused_and_shows_what_changed(visit, act):
    """Who decides on an item that changed meanwhile sees what it is now, and what they sent."""
    form = correction(visit, value="18.50", why="late", words="late words")
    visit.bench().correct("s1", {"value": "18.44"}, why="first", actor="Ben")
    before = last(visit).seq
    answer = visit.post(f"/items/s1/{act}", form)
    assert 409 == answer.status_code
    assert "height 18.44 mm" in answer.text
    assert "accepted by Ben" in answer.text
    assert "Value: 18.50" in answer.text
    assert before == last(visit).seq


def test_withdrawing_needs_a_reason(visit):
    """Without a reason nothing is withdrawn; with one, the item is out and kept."""
    before = last(visit).seq
    assert 422 == visit.post("/items/s2/withdraw", {"why": "  "}).status_code
    assert before == last(visit).seq
    assert 303 == visit.post("/items/s2/withdraw", {"why": "another engine"}).status_code
    assert ev.ItemWithdrawn(item="s2", why="another engine") == last(visit).payload
    assert "Size 135" in visit.client.get("/jobs/20260314-1?show=gone").text.replace("size", "Size")


def test_words_take_the_place_of_what_was_not_understood(visit):
    """The unclear item goes, its words stay as the reason, and the new words are understood."""
    answer = visit.post("/items/s6/reword", {"words": "float height eighteen point five"})
    assert 303 == answer.status_code
    record = visit.bench().record()
    assert record.unclear[0].superseded_by is not None
    assert "18.5" in [r.value for r in record.readings]
    why = [e.payload.why for e in visit.bench().events() if isinstance(e.payload, ev.ItemWithdrawn)]
    assert ["entered in words: float height eighteen point five"] == why


def test_without_a_word_what_was_not_understood_stays_open(visit):
    """Signs that are no words take the place of nothing: the question is still there."""
    before = last(visit).seq
    answer = visit.post("/items/s6/reword", {"words": "???"})
    assert 422 == answer.status_code
    assert "no words were given" in answer.text.lower()
    assert before == last(visit).seq
    assert visit.bench().record().unclear[0].superseded_by is None


def test_words_typed_at_the_desk_are_understood(visit):
    """A typed statement goes into the record like a spoken one."""
    assert 303 == visit.post("/say", {"words": "air screw one and a half turns out"}).status_code
    assert "1.5" in [r.value for r in visit.bench().record().readings]


def test_an_open_item_is_explained(visit):
    """The reason is kept; an unknown open item is not found."""
    open_id = next(o.id for o in visit.bench().record().open_items if "unclear" == o.kind)
    assert 303 == visit.post("/explain", {"open_item": open_id, "why": "cannot be heard"}).status_code
    assert ev.OpenItemExplained(open_item=open_id, why="cannot be heard") == last(visit).payload
    assert "Stays open: cannot be heard" in visit.client.get("/jobs/20260314-1/asks?at=s6").text
    assert 404 == visit.post("/explain", {"open_item": "ask:s77", "why": "x"}).status_code


def test_signing_is_refused_with_the_list_of_what_is_open(visit):
    """No signature while something is open; the page lists it."""
    answer = visit.post("/sign", {"name": "Ada", "statement": "It is so.", "seen": visit.record_hash()})
    assert 409 == answer.status_code
    for item in visit.bench().record().open_items:
        assert item.text.lower() in html.unescape(answer.text).lower()
    assert visit.bench().record().sign_off is None


def test_signing_when_all_is_explained(visit):
    """With everything settled or explained, the signature holds and carries the statement."""
    for item in visit.bench().record().open_items:
        visit.bench().explain(item.id, "agreed with the customer", actor="Ada")
    form = {"statement": "It is so.", "seen": visit.record_hash()}
    assert 422 == visit.post("/sign", {**form, "name": ""}).status_code
    assert 303 == visit.post("/sign", {**form, "name": "Ada Brandt"}).status_code
    sign_off = visit.bench().record().sign_off
    assert ("Ada Brandt", "It is so.") == (sign_off.by, sign_off.statement)


def test_a_picture_is_placed_on_a_mark(visit):
    """The mark has its picture, in the person's name."""
    assert 303 == visit.post("/photos/p1/place", {"place": "mark:s4"}).status_code
    assert ("Ada", ev.PhotoPlaced(photo="p1", mark="s4")) == (last(visit).actor, last(visit).payload)


def test_a_picture_is_placed_on_a_part(visit):
    """A part and which one of it."""
    assert 303 == visit.post("/photos/p2/place", {"place": "part:pad", "which": "left"}).status_code
    assert ev.PhotoPlaced(photo="p2", component="pad", which="left") == last(visit).payload


@pytest.mark.parametrize("place", ["", "mark:", "part:", "shelf:3", "mark:s1", "part:boiler", "part"])
def test_a_picture_is_not_placed_nowhere(visit, place):
    """A place that is none gets a line, and no event."""
    before = last(visit).seq
    assert visit.post("/photos/p1/place", {"place": place}).status_code in {404, 409, 422}
    assert before == last(visit).seq


def test_the_name_goes_into_the_events(visit):
    """Whoever gives a name at the desk is the actor from then on."""
    form = {"token": visit.token(), "name": "  Ben\r\nHarbour ", "job": "20260314-1"}
    answer = visit.client.post("/who", data=form)
    assert "/jobs/20260314-1?done=named" == answer.headers["location"]
    visit.post("/items/s2/accept")
    assert "Ben Harbour" == last(visit).actor


@pytest.mark.parametrize("job", ["//evil.example", "../..", "x?y#z", "https://evil.example"])
def test_the_name_form_leads_nowhere_else(visit, job):
    """The way back stays on the desk, whatever the form says."""
    answer = visit.client.post("/who", data={"token": visit.token(), "name": "Ada", "job": job})
    location = answer.headers["location"]
    assert location.startswith("/jobs/")
    assert "/" not in location.removeprefix("/jobs/")
    assert location.endswith("?done=named")


def test_pictures_are_taken_in_and_a_bad_one_keeps_none_out(visit, jpeg):
    """The good picture is there; the text file named .jpg is told by name."""
    files = [
        ("files", ("bowl.jpg", jpeg, "image/jpeg")),
        ("files", ("notes.jpg", b"no picture", "image/jpeg")),
    ]
    answer = visit.post("/photos", files=files)
    assert 422 == answer.status_code
    assert "1 of 2 were taken in" in answer.text
    assert "notes.jpg" in answer.text
    assert "bowl.jpg" in [
        e.payload.name for e in visit.bench().events() if isinstance(e.payload, ev.PhotoAdded)
    ]


@pytest.mark.parametrize("name", PICTURE_NAMES)
def test_a_file_name_is_never_a_path(visit, jpeg, name):
    """Of the name a picture came with only harmless letters are used."""
    assert 303 == visit.post("/photos", files=[("files", (name, jpeg, "image/jpeg"))]).status_code
    kept = [e.payload.name for e in visit.bench().events() if isinstance(e.payload, ev.PhotoAdded)][-1]
    assert kept in {"passwd.jpg", "boot.jpg", "float.jpg", "hidden.jpg", "a_b_c.jpg"}


def test_no_picture_chosen_is_told(visit):
    """An upload without a file gets a line."""
    assert 422 == visit.post("/photos", files=[("files", ("", b"", "application/octet-stream"))]).status_code


def test_too_much_text_is_told(visit):
    """An input longer than the record should hold gets a line and no event."""
    before = last(visit).seq
    assert 422 == visit.post("/items/s2/withdraw", {"why": "x" * 2001}).status_code
    assert before == last(visit).seq
