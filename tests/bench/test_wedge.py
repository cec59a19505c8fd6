"""The data key of an instrument: where its values land, what they carry, what asks."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from saywright.bench import Bench
from saywright.errors import InputError
from saywright.flags import FlagKind
from saywright.hearing.words import DATA_KEY
from saywright.record.events import Heard
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.bench_wedge import sent


def clock():
    """One moment, UTC."""
    return datetime(2026, 3, 1, 9, 30, tzinfo=UTC)


@pytest.fixture
def bench():
    """A fresh job of a carburetor."""
    store = MemoryStore()
    yield Bench.open(store, load_sheet("outboard-float-carburetor"), clock=clock)
    store.close()


def values(bench):
    """What stands: component, which, characteristic, value, unit."""
    return [
        (r.component, r.which, r.characteristic, r.value, r.unit)
        for r in bench.record().readings
        if r.superseded_by is None
    ]


def kinds(reading):
    """The flags of a reading."""
    return {one.kind for one in reading.flags}


def asking(bench):
    """Texts of what asks."""
    return [one.text for one in bench.record().open_items if one.kind in ("ask", "unclear")]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("18.42", "18.42"),
        ("18,42", "18.42"),
        ("18.420", "18.420"),  # a zero that the instrument shows is kept
        ("+0018.42 mm", "18.42 mm"),
        ("  18.42MM\r", "18.42 mm"),
        ("-0.02", "-0.02"),
        ("−0,02 mm", "-0.02 mm"),
        ("000", "0"),
        ("0.7258in", "0.7258 inches"),
        ('0.7258"', "0.7258 inches"),
        ("12 µm", "12 microns"),
    ],
)
def test_what_instruments_send(text, words):
    """Decimal comma, leading zeros, a sign, a unit behind: the same digits come out."""
    utterance = sent(text)
    assert (words, DATA_KEY) == (utterance.best.text, utterance.listener)


@pytest.mark.parametrize(
    "text", ["", "   ", "ERR", "1.234,5", "18.42.1", "18.42 parsecs", "--5", "1e5", "mm", "٣٤", "5" * 30]
)
def test_what_is_no_value_is_refused_in_one_line(bench, text):
    """Nothing is kept, and the line says what came and what to do."""
    before = bench.events()
    with pytest.raises(InputError) as refused:
        bench.measured(text)
    assert "is no value of an instrument. Press the key again, or say the value" in str(refused.value)
    assert "\n" not in str(refused.value)
    assert before == bench.events()


@pytest.mark.parametrize(
    ("said", "text", "landed"),
    [
        ("measuring the float height now", "18.42", ("float", None, "height", "18.42", "mm")),
        ("float height", "18.42", ("float", None, "height", "18.42", "mm")),
        ("strainer out", "18.42", ("strainer", None, "length", "18.42", "mm")),
        ("upper bush", "8.02", ("shaft_bush", "upper", "bore", "8.02", "mm")),
    ],
)
def test_it_lands_on_what_is_in_hand(bench, said, text, landed):
    """The characteristic named last, or the only one of the part in hand; marked as the instrument's."""
    bench.say(said)
    bench.measured(text)
    reading = bench.record().readings[-1]
    assert landed == values(bench)[-1]
    assert FlagKind.BY_INSTRUMENT in kinds(reading)
    assert FlagKind.FIGURES not in kinds(reading)


def test_the_event_tells_the_instrument_and_who_pressed(bench):
    """What came is kept as heard from the data key, under the name of whoever works."""
    bench.say("float height")
    bench.measured("18.42", actor="Ada")
    heard = [event for event in bench.events() if isinstance(event.payload, Heard)][-1]
    assert ("Ada", DATA_KEY, "18.42") == (
        heard.actor,
        heard.payload.utterance.listener,
        heard.payload.utterance.best.text,
    )


@pytest.mark.parametrize("text", ["18.42", "-0.02", "7"])
def test_with_nothing_in_hand_it_is_kept_and_asks(bench, text):
    """A value without a place is an open item, never lost and never guessed."""
    bench.measured(text)
    assert [] == values(bench)
    assert [text] == [one.heard for one in bench.record().unclear]
    assert 1 == len(asking(bench))


def test_where_several_would_fit_it_asks(bench):
    """The part is in hand and not which of its measures: taken as the likeliest, and asked."""
    bench.say("float out")
    bench.measured("18.42")
    assert ("float", None, "height", "18.42", "mm") == values(bench)[-1]
    assert bench.record().readings[-1].provisional


def test_the_only_one_that_is_left_is_taken(bench):
    """All measures of the part that the value would fit are read but one: it lands there, with a note."""
    bench.say("throttle shaft diameter is seven point nine five")
    bench.measured("0.15")
    assert ("throttle_shaft", None, "end_play", "0.15", "mm") == values(bench)[-1]
    bench.say("float height is eighteen point four two")
    bench.say("float weight is eleven grams")
    bench.measured("24.60")
    assert ("float", None, "drop", "24.60", "mm") == values(bench)[-1]
    assert FlagKind.CHARACTERISTIC_FROM_PART in kinds(bench.record().readings[-1])
    assert [] == asking(bench)


def test_a_value_near_one_that_was_read_asks(bench):
    """It may repeat the height as well as be the drop that is left, so it is not taken for the drop alone."""
    bench.say("float height is eighteen point four two")
    bench.say("float weight is eleven grams")
    bench.measured("18.60")
    assert "18.60" == values(bench)[-1][3]
    assert [] != asking(bench)


def test_two_that_are_left_ask(bench):
    """The height is read, drop and weight are not, and the value would fit both: which it is, is asked."""
    bench.say("float height is eighteen point four two")
    bench.measured("24.60")
    assert bench.record().readings[-1].asks


def test_an_equal_value_needs_no_question(bench):
    """Said and then sent: the same amount of the same thing, nothing asks."""
    bench.say("float height is eighteen point four two")
    bench.measured("18.42")
    assert [] == asking(bench)
    assert "s1" == bench.record().readings[-1].repeat_of


@pytest.mark.parametrize("voice_first", [True, False], ids=["said then sent", "sent then said"])
def test_voice_and_instrument_that_disagree_ask(bench, voice_first):
    """Whichever came first, both values ask, with both amounts in the reason."""
    acts = [
        lambda: bench.say("float height is eighteen point two four"),
        lambda: (bench.say("float height"), bench.measured("18.42"))[1],
    ]
    for act in acts if voice_first else reversed(acts):
        act()
    readings = [r for r in bench.record().readings if r.superseded_by is None]
    assert all(FlagKind.INSTRUMENT_DISAGREES in kinds(reading) for reading in readings)
    assert all(reading.provisional for reading in readings)
    assert any("18.24 mm said, 18.42 mm sent" in text for text in asking(bench))


def test_a_voice_that_rounds_asks_too(bench):
    """“Eighteen point four” is not what the caliper shows, and their mean is neither."""
    bench.say("float height is eighteen point four")
    bench.measured("18.42")
    assert any("18.4 mm said, 18.42 mm sent" in text for text in asking(bench))


def test_the_question_goes_when_one_is_withdrawn(bench):
    """Once a person took out the value that was wrong, the other one stands."""
    bench.say("float height is eighteen point two four")
    bench.measured("18.42 mm")
    bench.withdraw("s1", why="misheard", actor="Ada")
    assert FlagKind.INSTRUMENT_DISAGREES not in kinds(bench.record().readings[-1])


def test_other_units_are_compared_by_amount(bench):
    """An inch is 25.4 mm exactly (NIST SP 811, B.6): the two amounts are equal, so nothing asks."""
    bench.say("float drop is twenty five point four")
    bench.say("float drop")
    bench.measured("1 in")
    assert ("float", None, "drop", "1", "in") == values(bench)[-1]
    assert FlagKind.INSTRUMENT_DISAGREES not in kinds(bench.record().readings[-1])


def test_it_goes_on_with_no_number_spoken_before(bench):
    """What an instrument sends is whole: "eighteen" and a sent 0.42 are not 18.42."""
    bench.say("float height is eighteen")
    bench.measured("0.42")
    assert "18.42" not in [value for *_, value, _ in values(bench)]


def test_it_is_taken_while_the_ears_are_shut(bench):
    """A pause by voice stops the listening, not the instrument."""
    bench.say("float height")
    bench.say("pause listening")
    bench.measured("18.42")
    assert ("18.42", "mm") == values(bench)[-1][3:]


def test_a_voice_corrects_what_an_instrument_sent(bench):
    """“No, make that” takes back the sent value like a spoken one."""
    bench.say("float height")
    bench.measured("18.42")
    bench.say("no make that eighteen point five")
    assert [("float", None, "height", "18.5", "mm")] == values(bench)


def test_another_bench_reads_the_same_from_the_log(bench):
    """The log alone gives the same record: nothing of it hangs on who was running."""
    bench.say("float height is eighteen point two four")
    bench.measured("18.42")
    again = Bench.resume(bench._log.store, bench.job_id, clock=clock)
    assert bench.record() == again.record()
    bench.say("float drop is twenty seven")
    again.measured("27.0")
    assert bench.record() == again.record()


def test_what_an_utterance_would_leave(bench):
    """Decided like a kept one, with nothing kept and no id given away."""
    before = bench.events()
    told = bench.foretell(sent("18.42"))
    assert ["unclear"] == [item.kind for item in told]
    bench.say("float height")
    seq = bench.events()[-1].seq
    (item,) = bench.foretell(sent("19.5"))
    assert ("19.5", "does_not_conform") == (item.value, item.decision)
    assert seq == bench.events()[-1].seq
    assert len(before) < seq
