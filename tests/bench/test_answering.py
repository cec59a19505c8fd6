"""What is said to a question of the record: which words answer, which question, and what stays on record."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from saywright.bench import Bench
from saywright.hearing.words import Hypothesis, Utterance, Word, typed
from saywright.record.events import AudioAdded, ItemAccepted, ItemWithdrawn
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.answering import manner_of

ASKS = "float height is about eighteen point four"
START = datetime(2026, 3, 14, 9, 30, tzinfo=UTC)
KEY = "a" * 64


class Clock:
    """A clock that is set by hand."""

    def __init__(self):
        self.now = START

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    """Stands at the start of the recording."""
    return Clock()


@pytest.fixture
def bench(clock):
    """A fresh job of a carburetor, at which Ada works."""
    store = MemoryStore()
    yield Bench.open(store, load_sheet("outboard-float-carburetor"), clock=clock, actor="Ada")
    store.close()


def asking(bench):
    """Ids of the items that wait for an answer."""
    return [one.item for one in bench.record().open_items if one.kind == "ask"]


def heard(*texts, shares=None, confidence=None):
    """An utterance with these hearings."""
    shares = shares or [1 / len(texts)] * len(texts)
    return Utterance(
        hypotheses=tuple(
            Hypothesis(words=tuple(Word(text=w, confidence=confidence) for w in text.split()), probability=p)
            for text, p in zip(texts, shares, strict=True)
        )
    )


@pytest.mark.parametrize(
    ("words", "manner"),
    [
        ("that's right", "plain"),
        ("that’s right", "plain"),
        ("yes that is correct", "plain"),
        ("okay that's right", "plain"),
        ("yes", None),
        ("yeah", None),
        ("yes yes", None),
        ("yes it is", None),
        ("drop the question", "drop"),
        ("please drop that question", "drop"),
        ("drop the bowl", None),
        ("no eighteen four two", "no"),
        ("no", None),
        ("right", None),
        ("that's right on the limit", None),
        ("yes the float is scored", None),
        ("is that right", None),
        ("that's not right", None),
        ("float height eighteen", None),
        ("", None),
    ],
)
def test_which_words_are_an_answer(words, manner):
    """Only whole utterances that talk does not use otherwise."""
    assert manner == manner_of(typed(words))


def test_hearings_must_agree():
    """Where most of the hearings are something else, or a word was hardly heard, it is no answer."""
    assert "plain" == manner_of(heard("that's right", "that is right", shares=[0.5, 0.5]))
    assert manner_of(heard("that's right", "that's not right", shares=[0.55, 0.45])) is None
    assert manner_of(heard("that's right", confidence=0.3)) is None
    assert "plain" == manner_of(heard("that's right", confidence=0.9))


@pytest.mark.parametrize("words", ["that's right", "accept that", "yes that's right"])
def test_yes_accepts_what_is_asked(bench, words):
    """The item is accepted in the name of who is at the bench, and the event names the words."""
    bench.say(ASKS)
    (item,) = asking(bench)
    told = bench.reply(words)
    event = bench.events()[-1]
    assert (item, True) == (told.item, told.accepted)
    assert "18.4" in told.words
    assert ("Ada", ItemAccepted(item=item, heard=event.seq - 2)) == (event.actor, event.payload)
    assert words == bench.events()[event.seq - 3].payload.utterance.best.text
    assert [] == asking(bench)
    assert "Ada" == next(one for one in bench.record().readings if one.id == item).accepted_by


def test_yes_to_nothing_does_nothing(bench):
    """Without a question there is no event but that it was said."""
    bench.say("float height is eighteen point four two")
    before = bench.events()[-1].seq
    assert bench.reply("that's right") is None
    assert ["heard", "understood"] == [one.payload.kind for one in bench.events()[before:]]


def test_a_bare_yes_is_to_somebody_else(bench):
    """It accepts nothing, even said behind the question."""
    bench.say(ASKS)
    assert bench.reply("yes") is None
    assert 1 == len(asking(bench))


def test_the_newest_question_is_meant(bench):
    """As on the board: the one asked last, then the one before it."""
    bench.say(ASKS)
    bench.say("float drop is about twenty seven")
    first, second = asking(bench)
    assert second == bench.reply("that's right").item
    assert first == bench.reply("that's right").item
    assert bench.reply("that's right") is None


def test_no_with_another_value_corrects_what_was_asked(bench):
    """“No, eighteen four two” and, as that can be read in two ways, “that's right”: 18.42 is accepted."""
    bench.say(ASKS)
    bench.reply("no, eighteen four two")
    assert bench.reply("that's right").accepted
    (reading,) = [one for one in bench.record().readings if one.superseded_by is None]
    assert ("18.42", "Ada") == (reading.value, reading.accepted_by)
    assert [] == asking(bench)


def test_an_older_question_is_answered_by_name(bench):
    """“No, the float height is …”: the new value stays, the one that asked goes."""
    bench.say(ASKS)
    bench.say("float height is about eighteen point six")
    item, _ = asking(bench)  # the words alone correct the newest one
    told = bench.reply("no the float height is eighteen point four two")
    assert (item, False) == (told.item, told.accepted)
    payload = bench.events()[-1].payload
    assert isinstance(payload, ItemWithdrawn)
    assert "said anew: “no the float height is eighteen point four two”" == payload.why
    heights = [
        one.value
        for one in bench.record().readings
        if one.characteristic == "height" and not one.superseded_by
    ]
    assert ["18.42"] == heights
    assert [] == asking(bench)


def test_a_denial_that_says_more_takes_nothing_out(bench):
    """“No scoring …, float height …” is a finding and a repeat, not an answer."""
    bench.say(ASKS)
    bench.say("main jet is one twenty eight")
    (item,) = asking(bench)
    assert bench.reply("no scoring on the float, float height is eighteen point four two") is None
    assert item in asking(bench)


def test_what_was_not_understood_is_not_accepted(bench):
    """A question about words that gave no value has no yes."""
    bench.say(ASKS)
    bench.say("it's about eighteen something")
    assert "unclear" in [one.kind for one in bench.record().open_items]
    assert bench.reply("that's right") is None
    told = bench.reply("drop the question")
    assert (False, "said at the bench: “drop the question”") == (
        told.accepted,
        bench.events()[-1].payload.why,
    )
    assert "unclear" not in [one.kind for one in bench.record().open_items]
    assert bench.reply("that's right").accepted


def spoken(bench, clock, words, start_s, settled_s):
    """Event of words in a recording that begin at *start_s* and are understood at *settled_s*."""
    clock.now = START + timedelta(seconds=settled_s)
    utterance = typed(words, start_s=start_s).model_copy(update={"media": KEY, "end_s": start_s + 1.0})
    return bench._understander().keep(utterance, actor="saywright")[0]


def test_words_that_began_before_the_question_stood_there_are_no_answer(bench, clock):
    """Who spoke could not have seen it; said after it, the same words are one."""
    bench._log.keep(AudioAdded(sha256=KEY, recording=KEY, name="microphone", started_at=START))
    spoken(bench, clock, ASKS, 1.0, 5.0)
    assert bench.answers(spoken(bench, clock, "that's right", 4.0, 6.0)) is None
    assert bench.answers(spoken(bench, clock, "that's right", 7.0, 9.0)).accepted


def test_somebody_at_the_desk_was_first(bench):
    """What is settled already is not settled again."""
    bench.say(ASKS)
    (item,) = asking(bench)
    bench.accept(item, actor="Ben")
    assert bench.reply("that's right") is None
    assert "Ben" == next(one for one in bench.record().readings if one.id == item).accepted_by


def test_a_recording_taken_in_later_answers_nothing(bench, tmp_path):
    """Where no board stood by, words are only words."""
    script = tmp_path / "said.txt"
    script.write_text(f"{ASKS}\nthat's right\n")
    bench.say_file(script)
    assert 1 == len(asking(bench))


def test_what_was_settled_meanwhile_leaves_no_question_to_the_words(bench, clock):
    """Said twice before the first was worked out, it answers once: the older question was not shown."""
    bench._log.keep(AudioAdded(sha256=KEY, recording=KEY, name="microphone", started_at=START))
    bench.say(ASKS)
    bench.say("float drop is about twenty seven")
    older, newer = asking(bench)
    begun = spoken(bench, clock, "that's right", 20.0, 22.0)
    assert newer == bench.answers(begun).item
    assert bench.answers(spoken(bench, clock, "that's right", 21.0, 23.0)) is None
    assert [older] == asking(bench)
    assert older == bench.answers(spoken(bench, clock, "that's right", 25.0, 27.0)).item
