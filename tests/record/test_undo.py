"""Places of pictures and bench times, undone: what the fold makes of it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from saywright.errors import RefusedError
from saywright.record import events as ev
from saywright.record.types import PhotoChecks
from saywright.record.undone import undone
from saywright.understanding import statements as said

from .test_edits import Log


def picture(log, name="p1"):
    """A picture comes in."""
    checks = PhotoChecks()
    log.add(ev.PhotoAdded(photo=name, sha256=f"hash-{name}", name=f"{name}.jpg", checks=checks), "saywright")


def photos(log):
    """Id → content, part and mark of each picture and mark that holds."""
    found = [photo for photo in log.folder.record().photos if photo.superseded_by is None]
    return {photo.id: (photo.sha256, photo.component, photo.which) for photo in found}


def marked(log, *names):
    """Spoken photo marks."""
    marks = tuple(said.PhotoMark(id=name, stage="as_found", heard="photo", component="pad") for name in names)
    log.add(ev.Understood(heard=None, statements=marks), "saywright")


PLACES = (
    ev.PhotoPlaced(photo="p1", mark="s1"),
    ev.PhotoPlaced(photo="p1", component="pad", which="left"),
    ev.PhotoPlaced(photo="p1", mark="s2", beside=True),
    ev.PhotoPlaced(photo="p1"),
)


@pytest.mark.parametrize("first", [None, *PLACES])
@pytest.mark.parametrize("second", PLACES)
def test_a_place_of_a_picture_is_undone(first, second):
    """From wherever it was to wherever it went: all is as before, and the undo can be undone."""
    log = Log()
    marked(log, "s1", "s2")
    picture(log)
    picture(log, "p2")
    log.add(ev.PhotoPlaced(photo="p2", mark="s2"))
    if first is not None:
        log.add(first)
    before = photos(log)
    placed = log.add(second)
    after = photos(log)
    undo = log.add(ev.ChangeUndone(event=placed))
    assert before == photos(log)
    log.add(ev.ChangeUndone(event=undo))
    assert after == photos(log)


def test_a_picture_that_took_anothers_place_gives_it_back():
    """Undone, the former picture is at the mark again and the other one free."""
    log = Log()
    marked(log, "s1")
    picture(log)
    picture(log, "p2")
    log.add(ev.PhotoPlaced(photo="p1", mark="s1"))
    before = photos(log)
    placed = log.add(ev.PhotoPlaced(photo="p2", mark="s1"))
    assert "hash-p2" == photos(log)["s1"][0]
    log.add(ev.ChangeUndone(event=placed))
    assert before == photos(log)


def test_a_place_that_was_used_since_is_not_undone():
    """Something was drawn on the picture there: one line says that it is put right by hand."""
    log = Log()
    marked(log, "s1")
    picture(log)
    placed = log.add(ev.PhotoPlaced(photo="p1", mark="s1"))
    log.add(ev.PhotoAnnotated(photo="p1", annotations=()))
    assert placed not in log.folder.reversible()
    with pytest.raises(RefusedError, match="put it right by hand"):
        log.add(ev.ChangeUndone(event=placed))


def test_what_the_program_matched_is_no_persons_change():
    """It is placed anew, not undone."""
    log = Log()
    marked(log, "s1")
    picture(log)
    placed = log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9), "saywright")
    assert placed not in log.folder.reversible()


def test_what_holds_after_undos_of_undos():
    """Each undo takes back one; the newest decides over the one before it."""
    log, events = Log(), []
    log.add(ev.TimeCorrected(component="pad", stage="as_found", minutes=Decimal(5)))
    for target in (2, 3, 4):
        log.add(ev.ChangeUndone(event=target))
        events.append(log.last)
    assert [frozenset({2}), frozenset({3}), frozenset({2, 4})] == [undone(events[:n]) for n in (1, 2, 3)]
