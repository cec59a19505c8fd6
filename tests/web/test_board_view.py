"""What the board shows, worked out from the record."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from saywright.bench import Bench
from saywright.record.types import OpenItem, Photo
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.board_told import Gauge
from saywright.web.board_view import CAUTION_UTTERANCES, MAX_ASKS, MAX_TO_DO, Ask, ToDo, board, things_to_do


def clock():
    """One moment, UTC."""
    return datetime(2026, 3, 1, 9, 30, tzinfo=UTC)


@pytest.fixture
def bench():
    """A fresh job of a carburetor."""
    store = MemoryStore()
    yield Bench.open(store, load_sheet("outboard-float-carburetor"), clock=clock)
    store.close()


def shown(bench, *said):
    """The board after these words."""
    for words in said:
        bench.say(words)
    return board(bench.record(), bench.sheet, bench.events())


def test_a_fresh_job(bench):
    """Nothing said: nothing is shown as understood, every caution is, and what must be measured."""
    found = shown(bench)
    assert (1, 0, "as found", (), (), "") == (
        found.seq,
        found.said,
        found.stage,
        found.last,
        found.asks,
        found.hand,
    )
    assert next(c.text for c in bench.sheet.caution if c.text).startswith(found.cautions[0].title)
    assert len([c for c in bench.sheet.caution if c.text]) == len(found.cautions)
    assert MAX_TO_DO == len(found.to_do) < found.to_do_count


def test_a_reading_in_limits(bench):
    """Part, characteristic, digits, unit, limits, verdict, and where it lies between them."""
    (told,) = shown(bench, "float height is eighteen point four zero").last
    assert ("float", "height", "18.40", "mm") == (told.part, told.name, told.value, told.unit)
    assert ("18.0 to 18.8 mm", "conforms", "in limits", ()) == (
        told.limits,
        told.decision,
        told.verdict,
        told.asks,
    )
    assert "typed" == told.by
    gauge = told.gauge
    assert (18.0, 18.8, 18.4, False) == (gauge.lower, gauge.upper, gauge.value, gauge.beyond)
    assert (pytest.approx(17.4), pytest.approx(19.4)) == (gauge.low, gauge.high)


@pytest.mark.parametrize(
    ("said", "verdict"),
    [
        ("float height is nineteen point zero zero", "out of limits, 0.2 mm over"),
        ("float height is seventeen point five", "out of limits, 0.5 mm under"),
        ("main jet is one thirty two", "out of limits"),
        ("throttle shaft diameter is seven point nine five one", "too near the limit"),
        ("float weight is nine point seven grams", "in limits"),
    ],
)
def test_the_verdict_says_by_how_much(bench, said, verdict):
    """What is out says on which side and how far, in the unit of the sheet."""
    assert verdict == shown(bench, said).last[0].verdict


def test_a_value_off_the_scale_stands_at_its_end(bench):
    """The gauge shows that it is beyond."""
    gauge = shown(bench, "float height is twenty five").last[0].gauge
    assert (gauge.high, True) == (gauge.value, gauge.beyond)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("bowl flatness is zero point zero four", Gauge(0.0, pytest.approx(0.16), None, 0.1, 0.04, False)),
        ("main jet is one twenty eight", None),
    ],
)
def test_one_limit_or_permitted_sizes(bench, said, expected):
    """With one limit one side is open; permitted sizes are no scale."""
    assert expected == shown(bench, said).last[0].gauge


@pytest.mark.parametrize(
    ("said", "part", "name", "value"),
    [
        ("main jet badly scored", "main jet", "as found", "scored, severe"),
        ("float bowl off", "float bowl", "", "off"),
        ("four bowl screws out", "bowl screw", "", "4 off"),
        ("replace the bowl gasket", "bowl gasket", "to be done", "replace"),
        ("photo of the float", "float", "picture", "photo"),
        ("it's about eighteen something", "", "not understood", "it's about eighteen something"),
    ],
)
def test_what_is_no_reading(bench, said, part, name, value):
    """Conditions, parts, actions, pictures and what was not understood, in few words."""
    told = shown(bench, said).last[0]
    assert (part, name, value, "", None) == (told.part, told.name, told.value, told.verdict, told.gauge)


def test_several_from_one_utterance_begin_with_the_reading(bench):
    """The value stands large, the rest beside it."""
    last = shown(bench, "main jet chewed up and it is a one twenty eight").last
    assert ["reading", "condition"] == [told.kind for told in last]


def test_talk_leaves_what_was_understood_last(bench):
    """A remark changes the words heard, and not the value on the board."""
    found = shown(bench, "float height is eighteen point four", "watch the cat on the bench")
    assert ("18.4", "watch the cat on the bench") == (found.last[0].value, found.heard)


def test_what_is_withdrawn_is_not_shown(bench):
    """The board goes back to what stands."""
    shown(bench, "float height is eighteen point four", "float drop is twenty seven")
    bench.withdraw("s2", why="misheard", actor="Ada")
    assert "18.4" == shown(bench).last[0].value


def test_the_newest_question_first(bench):
    """The question apart from its reasons; the rest is counted."""
    for words in ("float height", "float drop", "needle length", "seat bore"):
        bench.say(f"{words} is about nine")
    found = shown(bench)
    assert MAX_ASKS == len(found.asks) < found.asks_count
    first = found.asks[0]
    assert Ask(first.id, "Is the inlet seat bore 9 mm?", first.why, "s4", "inlet seat bore") == first
    assert "Said as approximate" in first.why


def test_an_answered_question_is_gone(bench):
    """Once a person stands for it, nothing asks."""
    shown(bench, "float height is about eighteen point four")
    bench.accept("s1", actor="Ada")
    found = shown(bench)
    assert () == found.asks
    assert () == found.last[0].asks


def test_the_part_in_hand_comes_first(bench):
    """What is missing or off of the part spoken of last stands at the top."""
    found = shown(bench, "main jet out", "pilot jet out")
    assert "pilot jet" == found.hand
    assert found.to_do[:2] == (
        ToDo("measure", "pilot jet size", "as found", in_hand=True),
        ToDo("put back", "pilot jet", "", in_hand=True),
    )


def test_the_stage_follows_the_talk(bench):
    """Going back together, the board says so."""
    assert "as left" == shown(bench, "going back together now", "new bowl gasket on").stage


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("blow out the jet", "compressed_air"),
        ("carb cleaner on it", "solvent"),
        ("brake fluid", "brake_cleaner"),
    ],
)
def test_a_caution_comes_when_its_trigger_is_spoken(bench, said, key):
    """Compressed air, solvent, brake fluid."""
    found = shown(bench, "float out", said)
    assert key == found.caution.key
    assert found.caution_seq in [event.seq for event in bench.events()]


def test_a_caution_goes_by_itself_after_a_while(bench):
    """It stands for as many utterances as the constant says, and part of a word does not trigger it."""
    found = shown(bench, "carb cleaner on it", *["float out"] * CAUTION_UTTERANCES)
    assert "solvent" == found.caution.key
    assert shown(bench, "float out").caution is None
    assert shown(bench, "the refuelled one").caution is None


def test_a_caution_is_past_once_the_work_is_done(bench):
    """Back together with nothing left to do, it goes to one line with the next words; signed, it goes."""
    done = ("going back together now", "new bowl gasket on", "nothing leaking at the drain screw")
    found = shown(bench, *done)
    assert ("bowl_fuel", False) == (found.caution.key, found.caution_past)
    for item in bench.record().open_items:
        bench.explain(item.id, "not today", actor="Ada")
    assert not shown(bench).caution_past
    assert shown(bench, "that's everything").caution_past
    bench.sign(actor="Ada", statement="as recorded")
    assert (None, 0) == (shown(bench).caution, shown(bench).caution_seq)


def test_a_caution_stands_while_there_is_work(bench):
    """Apart, or with a question open, more words do not push it to the foot."""
    assert not shown(bench, "drain screw out", "float out").caution_past
    assert not shown(bench, "going back together now", "drain screw in", "float in").caution_past


def test_what_is_for_the_desk_is_still_to_do(bench):
    """A loose picture or a recording not heard out stops the signature, so the board names it."""
    loose = Photo(id="p7", stage="as_found", heard="", sha256="a" * 64, name="loose.jpg")
    waiting = (
        OpenItem(id="photo:p7", kind="photo", text="What does it show?", item="p7"),
        OpenItem(id="recording:ab", kind="recording", text="It was not heard to its end."),
    )
    assert [
        ToDo("place picture", "loose.jpg", "", in_hand=False),
        ToDo("hear on", "recording", "", in_hand=False),
    ] == things_to_do(waiting, {"p7": loose}, bench.sheet, None)


def test_the_signature_is_shown(bench):
    """Who signed."""
    for item in bench.record().open_items:
        bench.explain(item.id, "not today", actor="Ada")
    bench.sign(actor="Ada", statement="as recorded")
    assert "Ada" == shown(bench).signed_by
