"""What people enter and undo, and what understanding makes of it afterwards."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from saywright.bench import Bench
from saywright.errors import RefusedError, StaleError
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore


@pytest.fixture
def bench():
    """A job on the carburetor."""
    store = MemoryStore()
    sheet = load_sheet("outboard-float-carburetor")
    yield Bench.open(store, sheet, clock=lambda: datetime(2026, 3, 14, tzinfo=UTC))
    store.close()


def turns(bench):
    """Values of the air screw in force, as found and as left."""
    found = [r for r in bench.record().readings if r.superseded_by is None and r.component == "air_screw"]
    return [(r.value, r.stage) for r in found]


def test_back_where_it_was_is_the_value_before_an_undone_correction(bench):
    """What was undone does not come back through talk."""
    bench.say("air screw one and a half turns out")
    item = bench.record().readings[0].id
    bench.correct(item, {"value": "1.75"}, why="", actor="Ada")
    bench.undo(actor="Ada")
    bench.say("air screw back where it was")
    assert [("1.5", "as_found"), ("1.5", "as_left")] == turns(bench)


def test_what_is_entered_and_what_is_said_never_share_an_id(bench):
    """Numbers go on from whichever came last, in a bench that was open before and in a new one."""
    fields = {
        "kind": "reading",
        "component": "float",
        "characteristic": "height",
        "value": "18.4",
        "unit": "mm",
    }
    bench.say("float height is eighteen point four two")
    bench.add_item(fields, actor="Ada")
    bench.say("float height is eighteen point four three")
    bench.split("s2", [{"value": "18.41"}, {"value": "18.45"}], actor="Ada")
    bench.by("Ben").say("float height is eighteen point four four")
    assert ["s1", "s2", "s3", "s4", "s5", "s6"] == [r.id for r in bench.record().readings]


def test_of_two_who_change_one_item_the_second_is_refused(bench):
    """Whoever shows an item as it no longer is changes nothing, by whatever act."""
    bench.say("float height is eighteen point four two")
    seen = bench.record().readings[0].event
    bench.correct("s1", {"value": "18.44"}, why="", actor="Ada", seen=seen)
    before = bench.events()[-1].seq
    for act in (
        lambda: bench.accept("s1", actor="Ben", seen=seen),
        lambda: bench.withdraw("s1", why="x", actor="Ben", seen=seen),
        lambda: bench.split("s1", [{}, {"value": "18"}], actor="Ben", seen=seen),
        lambda: bench.merge("s1", {"s1": seen}, actor="Ben", seen=seen),
    ):
        with pytest.raises(StaleError):
            act()
    assert before == bench.events()[-1].seq


def test_an_undo_without_a_change_is_refused(bench):
    """Nobody takes back what they did not do."""
    bench.say("float height is eighteen point four two")
    with pytest.raises(RefusedError, match="no change of Ada"):
        bench.undo(actor="Ada")


def test_the_report_tells_the_value_before_after_an_undo(bench):
    """A correction after an undo starts from the value that was brought back."""
    bench.say("float height is eighteen point four two")
    bench.correct("s1", {"value": "18.44"}, why="", actor="Ada")
    bench.undo(why="a slip", actor="Ada")
    bench.correct("s1", {"value": "18.40"}, why="", actor="Ada")
    page = bench.proof("html").decode()
    assert "value: 18.42 → 18.40" in page
    assert "value: 18.44 → 18.40" not in page
    assert "event 4 undone" in page
