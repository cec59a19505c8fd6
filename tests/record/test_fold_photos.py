"""Pictures and marks, folded into the record."""

from __future__ import annotations

import pytest

from record_support import mark, reading
from saywright.errors import NotFoundError, RefusedError
from saywright.flags import FlagKind
from saywright.record import events as ev
from saywright.record.fold import Folder
from saywright.record.types import PhotoChecks
from saywright.understanding import statements as said


class TestPhotos:
    def test_mark_and_picture_become_one(self, log) -> None:
        """The mark takes on the picture; the separate picture is gone from the list."""
        log.say(mark("s1"))
        log.picture("p1", blurred=True)
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.6, sure=False, by_order=True))
        photo = log.record().photos[0]
        assert 1 == len(log.record().photos)
        assert ("s1", "hash-p1", "p1.jpg", 0.6, "main_jet") == (
            photo.id,
            photo.sha256,
            photo.name,
            photo.match_confidence,
            photo.component,
        )
        kinds = [FlagKind.PHOTO_BLURRED, FlagKind.PHOTO_MATCH_UNCLEAR, FlagKind.PHOTO_BY_ORDER]
        assert kinds == [f.kind for f in photo.flags]
        assert photo.asks

    def test_placing_again_undoes_the_former_place(self, log) -> None:
        """A person moves the picture: the first mark is bare again, the second has it, nothing asks."""
        log.say(mark("s1"), mark("s2", None))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.6, sure=False))
        log.add(ev.PhotoPlaced(photo="p1", mark="s2"), "Ines")
        first, second = log.record().photos
        assert (None, None, ()) == (first.sha256, first.match_confidence, first.flags)
        assert ("hash-p1", "Ines", ()) == (second.sha256, second.accepted_by, second.flags)

    def test_checked_again(self, log) -> None:
        """The new checks and their notes stand in place of the old, and go along to the mark."""
        log.say(mark("s1"))
        log.picture("p1", blurred=True)
        log.add(ev.PhotoChecked(photo="p1", checks=PhotoChecks(glare=True)), "Ines")
        assert [FlagKind.PHOTO_GLARE] == [f.kind for f in log.record().photos[-1].flags]
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        assert [FlagKind.PHOTO_GLARE] == [f.kind for f in log.record().photos[0].flags]
        log.add(ev.PhotoChecked(photo="p1", checks=PhotoChecks()), "Ines")
        assert ((), PhotoChecks()) == (log.record().photos[0].flags, log.record().photos[0].checks)

    def test_what_is_not_there_is_not_checked(self, log) -> None:
        """No such picture."""
        log.add(ev.PhotoChecked(photo="p9", checks=PhotoChecks()))
        with pytest.raises(NotFoundError):
            log.record()

    def test_a_taken_mark_gives_its_picture_back(self, log) -> None:
        """Two pictures for one mark: the later has it, the earlier is a picture without a mark again."""
        log.say(mark("s1"))
        log.picture("p1")
        log.picture("p2")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.PhotoPlaced(photo="p2", mark="s1", confidence=0.9))
        assert {"s1": "hash-p2", "p1": "hash-p1"} == {p.id: p.sha256 for p in log.record().photos}

    def test_on_a_part_without_a_mark(self, log) -> None:
        """A person puts a picture on a part; naming no part takes it off again."""
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", component="float", conditions=("scored",)), "Ines")
        photo = log.record().photos[0]
        assert ("float", ("scored",), "Ines") == (photo.component, photo.conditions, photo.accepted_by)
        log.add(ev.PhotoPlaced(photo="p1"), "Ines")
        assert (None, None) == (log.record().photos[0].component, log.record().photos[0].accepted_by)

    def test_withdrawing_the_mark_keeps_the_picture(self, log) -> None:
        """A mark taken back frees its picture."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.ItemWithdrawn(item="s1"), "Ines")
        found = {p.id: (p.sha256, p.superseded_by) for p in log.record().photos}
        assert {"s1": (None, "event-5"), "p1": ("hash-p1", None)} == found

    def test_withdrawing_the_picture_keeps_the_mark(self, log) -> None:
        """A picture taken out by its own id leaves the mark without one."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.add(ev.ItemWithdrawn(item="p1"), "Ines")
        found = {p.id: (p.sha256, p.superseded_by) for p in log.record().photos}
        assert {"s1": (None, None), "p1": ("hash-p1", "event-5")} == found

    def test_spoken_correction_of_a_mark_frees_its_picture(self, log) -> None:
        """ "Forget that photo" leaves the picture to be placed."""
        log.say(mark("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        log.say(said.Correction(id="s2", stage="as_found", heard="forget that photo", supersedes=("s1",)))
        assert {"s1": None, "p1": "hash-p1"} == {p.id: p.sha256 for p in log.record().photos}

    def test_refuses_what_is_no_mark(self, log) -> None:
        """A picture cannot be placed at a reading."""
        log.say(reading("s1"))
        log.picture("p1")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1"), "Ines")
        with pytest.raises(RefusedError, match=r"^s1: this is no spoken photo mark"):
            log.record()

    def test_knows_where_each_picture_is(self, log) -> None:
        """The folder tells every picture with its mark."""
        log.say(mark("s1"))
        log.picture("p1")
        log.picture("p2")
        log.add(ev.PhotoPlaced(photo="p1", mark="s1", confidence=0.9))
        folder = Folder()
        for event in log.events:
            folder.apply(event)
        assert [("p1", "s1"), ("p2", None)] == [(added.photo, at) for added, at in folder.pictures()]
        assert "s1" == folder.item("p1").id
