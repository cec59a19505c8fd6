"""Values said at named places: no repeats of one another; taper and out of round come from them."""

from __future__ import annotations

import pytest

from saywright.bench import Bench
from saywright.judging.derived import derived
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock


def job(store: MemoryStore, sheet: str, *said: str) -> Bench:
    """A job on *sheet* in which all was *said*."""
    bench = Bench.open(store, load_sheet(sheet), clock=Clock())
    for line in said:
        bench.say(line)
    return bench


def told_of(bench: Bench, characteristic: str) -> str:
    """The sentence on a value computed from others."""
    found = derived(bench.record(), bench.sheet)
    return next(one.judgement.sentence for one in found if one.characteristic == characteristic)


def test_places_are_no_repeats(store: MemoryStore) -> None:
    """Two places stand apart; the same place said again is a repeat of it."""
    bench = job(
        store,
        "disc-brake-caliper",
        "bore at the top forty eight point oh two",
        "at the bottom forty eight point oh one",
        "at the top again forty eight point oh two one",
    )
    assert [("top", None), ("bottom", None), ("top", "s1")] == [
        (r.place, r.repeat_of) for r in bench.record().readings
    ]


def test_taper_from_speech(store: MemoryStore) -> None:
    """48.035 at the top less 48.000 at the bottom is a taper of 0.035 mm, past 0.030 mm."""
    bench = job(
        store,
        "disc-brake-caliper",
        "bore top forty eight point oh three five",
        "middle forty eight point oh two oh",
        "bottom forty eight point oh oh oh",
    )
    assert ["48.035", "48.020", "48.000"] == [r.value for r in bench.record().readings]
    assert "bore taper 0.035 mm" in told_of(bench, "taper").lower()


def test_out_of_round_from_speech(store: MemoryStore) -> None:
    """Along and across at one end tell how far the barrel is out of round."""
    bench = job(
        store,
        "hand-pump",
        "barrel bore top along sixty three point one oh",
        "top across sixty three point one two",
        "bottom along sixty three point one oh",
        "bottom across sixty three point one five",
    )
    assert "out of round 0.05 mm" in told_of(bench, "out_of_round").lower()


def test_a_place_not_read_is_missing(store: MemoryStore) -> None:
    """Once one place was read, each other one that the sheet has is asked for by its name."""
    bench = job(store, "disc-brake-caliper", "bore top forty eight point oh three five")
    lacking = [one["sentence"] for one in bench.to_do() if one["characteristic"] == "bore"]
    assert [
        "Caliper body bore at middle is required as found and was not said.",
        "Caliper body bore at bottom is required as found and was not said.",
    ] == lacking


@pytest.mark.parametrize("place", ["top", "rim"])
def test_a_person_may_name_a_place(store: MemoryStore, place: str) -> None:
    """Where the sheet names no places, a person may say where a value was read."""
    bench = job(store, "disc-brake-caliper", "piston diameter forty seven point nine five")
    bench.correct("s1", {"place": place}, why="read there", actor="Ada")
    assert place == bench.record().readings[0].place
