"""A sitting at the microphone, with a microphone that plays what it is given."""

from __future__ import annotations

import time
from collections.abc import Iterator
from itertools import groupby

import numpy as np
import pytest

from fake_microphone import FakeMicrophone
from saywright.bench import Bench
from saywright.errors import DeviceError, DiskFullError
from saywright.hearing.feed import Answered, Commanded, Live, Microphone, Settled
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.record.events import AudioAdded, Heard, ItemAccepted
from saywright.sheets.model import Sheet
from saywright.store.media import FileJournal
from saywright.store.memory import MemoryStore

from .conftest import Clock, Player

SAID = ((1.0, 3.0, "float height is eighteen point four two"), (4.0, 5.0, "strainer is clean"))


class Breaking(FakeMicrophone):
    """Seven seconds of sound, as fast as they are taken; then it waits for `stop`, or breaks."""

    breaks = False

    def __init__(self, device: str | int | None = None, *, anew: bool = False) -> None:
        super().__init__(device, anew=anew)
        if anew and self.breaks:
            raise DeviceError("the microphone cannot be opened")

    def blocks(self) -> Iterator[Samples]:
        for level in (0.001, 0.1, 0.1, 0.001, 0.1, 0.001, 0.001):
            yield np.full(SAMPLE_RATE_HZ, level, np.float32)
        if self.breaks:
            raise DeviceError("the microphone went away; what was recorded before is kept")
        assert self.ended.wait(20)


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock, monkeypatch: pytest.MonkeyPatch) -> Bench:
    """A new job at such a microphone."""
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Breaking)
    return Bench.open(store, sheet, clock=clock, listener=Player(*SAID))


def states(told: list[Live]) -> list[str]:
    """The states of the microphone in the order told, each once."""
    every = [one.state for one in told if isinstance(one, Microphone)]
    return [state for state, _ in groupby(every)]


def last_recording(bench: Bench) -> AudioAdded:
    """What the log says last of a recording."""
    return [e.payload for e in bench.events() if isinstance(e.payload, AudioAdded)][-1]


def test_a_sitting(bench: Bench) -> None:
    """Utterances are told as they end; after `stop` the recording is whole and in the store."""
    session = bench.microphone()
    told: list[Live] = []

    def hear(one: Live) -> None:
        told.append(one)
        if isinstance(one, Settled) and one.utterance.best.text == SAID[-1][2]:
            session.stop()

    session.run(hear)
    settled = [one for one in told if isinstance(one, Settled)]
    assert [text for _, _, text in SAID] == [one.utterance.best.text for one in settled]
    heard = {e.seq: e.payload for e in bench.events()}
    assert [one.utterance for one in settled] == [heard[one.heard_seq].utterance for one in settled]
    assert 7.0 == last_recording(bench).duration_s
    assert ["18.42"] == [reading.value for reading in bench.record().readings]
    assert ["listening", "closed"] == states(told)


def test_a_spoken_answer_is_told(
    store: MemoryStore, sheet: Sheet, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the words, what they did to the question; the event names them, and who is at the bench."""
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Breaking)
    said = ((1.0, 3.0, "float height is about eighteen point four"), (4.0, 5.0, "that's right"))
    at = clock()  # stands still, so that the question was there when the answer began
    bench = Bench.open(store, sheet, clock=lambda: at, listener=Player(*said), actor="Ada")
    session = bench.microphone()
    told: list[Live] = []

    def hear(one: Live) -> None:
        told.append(one)
        if isinstance(one, Answered):
            session.stop()

    session.run(hear)
    (answered,) = [one for one in told if isinstance(one, Answered)]
    assert isinstance(told[told.index(answered) - 1], Settled)
    (reading,) = bench.record().readings
    assert (reading.id, True, "Ada") == (answered.item, answered.accepted, reading.accepted_by)
    event = next(event for event in bench.events() if isinstance(event.payload, ItemAccepted))
    heard = bench.events()[(event.payload.heard or 0) - 1].payload  # type: ignore[union-attr]
    assert isinstance(heard, Heard)
    assert ("that's right", 4.0) == (heard.utterance.best.text, heard.utterance.start_s)


def test_the_disk_does_not_wait_for_the_listener(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """While somebody thinks about the first second, all that was said is on disk already."""
    written: list[int] = []
    real = FileJournal.write

    def write(journal: FileJournal, pcm: bytes) -> None:
        real(journal, pcm)
        written.append(len(pcm))

    monkeypatch.setattr(FileJournal, "write", write)
    session = bench.microphone()
    seen: list[int] = []

    def think(_: Live) -> None:
        if not seen:
            for _attempt in range(200):
                if len(written) == 7:
                    break
                time.sleep(0.05)
            seen.append(len(written))
            session.stop()

    session.run(think)
    assert [7] == seen


def test_a_microphone_that_goes_away_and_comes_back(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was said before is understood and put away; it is told, looked for, and heard again."""
    monkeypatch.setattr(Breaking, "breaks", True)
    monkeypatch.setattr("saywright.wiring.capture.RETRY_S", 0.01)
    session = bench.microphone()
    told: list[Live] = []

    def hear(one: Live) -> None:
        told.append(one)
        if states(told) == ["listening", "unplugged"] and Breaking.breaks:
            assert 7.0 == last_recording(bench).duration_s
            monkeypatch.setattr(Breaking, "breaks", False)
        if len([one for one in told if isinstance(one, Settled)]) == 2 * len(SAID):
            session.stop()

    session.run(hear)
    assert ["listening", "unplugged", "listening", "closed"] == states(told)
    assert 2 == len({one.utterance.media for one in told if isinstance(one, Settled)})


def test_a_disk_that_fills_up(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """When there is no room for more sound the words so far are understood, then it is told."""
    real = FileJournal.write
    count = iter(range(100))

    def write(journal: FileJournal, pcm: bytes) -> None:
        if next(count) >= 4:
            raise DiskFullError("the disk is full")
        real(journal, pcm)

    monkeypatch.setattr(FileJournal, "write", write)
    with pytest.raises(DiskFullError):
        bench.microphone().run(lambda _: None)
    assert ["18.42"] == [reading.value for reading in bench.record().readings]
    assert 4.0 == last_recording(bench).duration_s


def test_hearing_that_fails_leaves_the_rest_to_be_heard(
    bench: Bench, store: MemoryStore, clock: Clock
) -> None:
    """What was recorded and not yet heard when a sitting broke off is heard when the job is resumed."""

    def fail(one: Live) -> None:
        if isinstance(one, Settled):
            raise BrokenPipeError

    with pytest.raises(BrokenPipeError):
        bench.microphone().run(fail)
    again = Bench.resume(store, bench.job_id, clock=clock, listener=Player(*SAID))
    assert [SAID[1][2]] == [utterance.best.text for utterance in again.hear_rest()]
    assert 7.0 == last_recording(again).duration_s


def test_a_fault_of_the_recording_thread_is_raised(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sitting does not end as if all were well when recording failed in a way nobody foresaw."""

    def write(_: FileJournal, __: bytes) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(FileJournal, "write", write)
    with pytest.raises(ZeroDivisionError):
        bench.microphone().run(lambda _: None)


def test_a_key_ends_a_pause_by_voice_on_record_too(
    store: MemoryStore, sheet: Sheet, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else all that is said after it would be taken for words said while paused."""
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Breaking)
    bench = Bench.open(store, sheet, clock=clock, listener=Player((1.0, 2.0, "pause listening")))
    session = bench.microphone()
    told: list[str] = []

    def hear(one: Live) -> None:
        if isinstance(one, Commanded):
            told.append(one.command)
            assert (one.command == "pause") == bench.paused()
            if one.command == "pause":
                assert session.paused
                session.resume()
            else:
                session.stop()

    session.run(hear)
    assert ["pause", "resume"] == told
    assert not bench.paused()


def test_a_new_sitting_ends_a_pause_of_the_last(
    store: MemoryStore, sheet: Sheet, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who opens the microphone wants to be heard: the pause on record is over before the first word."""
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Breaking)
    bench = Bench.open(store, sheet, clock=clock, listener=Player(*SAID))
    bench.say("pause listening")
    assert bench.paused()
    session = bench.microphone()

    def hear(one: Live) -> None:
        if isinstance(one, Settled) and one.utterance.best.text == SAID[-1][2]:
            session.stop()

    session.run(hear)
    assert ["18.42"] == [reading.value for reading in bench.record().readings]
