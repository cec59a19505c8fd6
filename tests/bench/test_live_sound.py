"""A sitting at a real PortAudio device, with made speech in real time and the real recogniser."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator

import numpy as np
import pytest

import sound_server
from hearing_support import speech
from saywright.bench import Bench
from saywright.hearing.adapters.cut import CutListener
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import wheel_folder
from saywright.hearing.cutting import Piece
from saywright.hearing.feed import Commanded, Live, Microphone, Partial, Provisional, Settled
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.vocabulary import prompt
from saywright.hearing.words import Hypothesis, typed
from saywright.record.events import AudioAdded
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.live import Session
from sound_server import DEVICE, SoundServer

from .conftest import SHEET, Clock

LACKING = sound_server.missing()
pytestmark = [pytest.mark.slow, pytest.mark.skipif(bool(LACKING), reason=LACKING)]

QUIET = np.zeros(2 * SAMPLE_RATE_HZ, np.float32)
HEIGHT = "float height eighteen point four two"
CLEAN = "the strainer is clean"
WAIT_S = 20.0


@pytest.fixture(scope="module")
def server() -> Iterator[SoundServer]:
    """One sound server for all tests. Where its programs are there and it does not start, they fail."""
    with SoundServer() as running:
        yield running


class AtOnce(CutListener):
    """Knows what is said, so that no load on the machine comes between."""

    name = "at once"

    def __init__(self) -> None:
        super().__init__()
        self.words = ""

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        return typed(self.words).hypotheses

    def sketch(self, samples: Samples, wanted: Callable[[], bool] = lambda: True) -> str:
        return ""


class Sitting:
    """A session in a thread of its own, and what it told."""

    def __init__(self, bench: Bench, server: SoundServer, listener: Listener) -> None:
        self.bench, self.server, self._listener = bench, server, listener
        self.session: Session = bench.microphone(DEVICE)
        self.told: list[Live] = []
        self._new = threading.Condition()
        self._thread = threading.Thread(target=self.session.run, args=(self._take,))

    def __enter__(self) -> Sitting:
        self._thread.start()
        self.until(lambda: self.state() == "listening")
        return self

    def __exit__(self, *_: object) -> None:
        self.session.stop()
        self._thread.join(WAIT_S)
        assert not self._thread.is_alive()

    def _take(self, one: Live) -> None:
        with self._new:
            self.told.append(one)
            self._new.notify_all()

    def until(self, holds: Callable[[], bool]) -> None:
        """Wait until *holds*; fails with what was told where it never does."""
        with self._new:
            met = self._new.wait_for(holds, WAIT_S)
        assert met, [getattr(one, "words", "") or one for one in self.told if not isinstance(one, Microphone)]

    def say(self, text: str) -> None:
        """Say *text* with a pause around it; returns when it is said."""
        if isinstance(self._listener, AtOnce):
            self._listener.words = text
        self.server.say(np.concatenate([QUIET[: len(QUIET) // 2], speech(text), QUIET])).wait(WAIT_S)

    def state(self) -> str:
        """What was told last of the microphone."""
        return next((one.state for one in reversed(self.told) if isinstance(one, Microphone)), "")

    def settled(self) -> list[str]:
        """Words that have settled."""
        return [one.utterance.best.text for one in self.told if isinstance(one, Settled)]


@pytest.fixture
def sitting(store: MemoryStore, sheet: Sheet, clock: Clock, server: SoundServer) -> Iterator[Sitting]:
    """A new job at the microphone."""
    listener = AtOnce()
    bench = Bench.open(store, sheet, clock=clock, listener=listener)
    with Sitting(bench, server, listener) as made:
        yield made


def test_words_come_while_they_are_spoken(
    store: MemoryStore, sheet: Sheet, clock: Clock, server: SoundServer
) -> None:
    """With the recogniser that ships: partial words, then settled ones, kept and understood."""
    folder = wheel_folder()
    assert folder is not None
    listener = WhisperListener(folder, prompt=prompt(SHEET))
    bench = Bench.open(store, sheet, clock=clock, listener=listener)
    with Sitting(bench, server, listener) as sitting:
        sitting.say(HEIGHT)
        sitting.until(lambda: sitting.settled() == [HEIGHT])
    kinds = [type(one) for one in sitting.told if not isinstance(one, Microphone)]
    assert Partial in kinds
    assert Settled == kinds[-1]
    assert ["18.42"] == [reading.value for reading in bench.record().readings]


def test_a_provisional_utterance_is_understood_without_a_trace(sitting: Sitting) -> None:
    """It comes before it settles; `preview` tells what it would be read as and changes nothing."""
    sitting.say(HEIGHT)
    sitting.until(lambda: bool(sitting.settled()))
    words = [one for one in sitting.told if isinstance(one, Provisional | Settled)]
    assert [Provisional, Settled] == [type(one) for one in words]
    first, last = (one.utterance for one in words)
    assert first.model_copy(update={"media": last.media}) == last
    before = sitting.bench.events()
    assert ["18.42"] == [one.value for one in sitting.bench.preview(first) if one.kind == "reading"]
    assert before == sitting.bench.events()


def test_pulled_out_and_plugged_in_again(sitting: Sitting) -> None:
    """A device that goes is told and looked for; what is said when it is back is heard."""
    sitting.say(CLEAN)
    sitting.until(lambda: sitting.settled() == [CLEAN])
    sitting.server.pull_out()
    sitting.until(lambda: sitting.state() == "unplugged")
    sitting.server.plug_in()
    sitting.until(lambda: sitting.state() == "listening")
    sitting.say(HEIGHT)
    sitting.until(lambda: sitting.settled() == [CLEAN, HEIGHT])
    kept = [e.payload for e in sitting.bench.events() if isinstance(e.payload, AudioAdded)]
    assert 2 == len({one.recording for one in kept})


def test_a_pause_by_key_hears_nothing(sitting: Sitting) -> None:
    """What is said while paused is in no recording and on no record; after it, hearing goes on."""
    sitting.session.pause()
    sitting.until(lambda: sitting.state() == "paused")
    sitting.say(CLEAN)
    sitting.session.resume()
    sitting.until(lambda: sitting.state() == "listening")
    sitting.say(HEIGHT)
    sitting.until(lambda: sitting.settled() == [HEIGHT])


def test_a_pause_by_voice_waits_for_the_word(sitting: Sitting) -> None:
    """After "pause listening" words are not kept; "resume listening" is, and hearing goes on."""
    sitting.say("pause listening")
    sitting.until(lambda: sitting.state() == "paused")
    before = len(sitting.bench.events())
    sitting.say(CLEAN)
    assert before + 1 >= len(sitting.bench.events())  # the recording that ended
    sitting.say("resume listening")
    sitting.until(lambda: sitting.state() == "listening")
    sitting.say(HEIGHT)
    sitting.until(lambda: HEIGHT in sitting.settled())
    assert ["pause", "resume"] == [one.command for one in sitting.told if isinstance(one, Commanded)]
    assert CLEAN not in sitting.settled()
    assert ["18.42"] == [reading.value for reading in sitting.bench.record().readings]


def test_the_microphone_is_shut_while_the_program_speaks(sitting: Sitting) -> None:
    """What comes in meanwhile is silence in the recording, which goes on in true time."""
    sitting.session.mute()
    sitting.until(lambda: sitting.state() == "paused")
    sitting.say(CLEAN)
    sitting.session.unmute()
    sitting.say(HEIGHT)
    sitting.until(lambda: sitting.settled() == [HEIGHT])
    (settled,) = [one.utterance for one in sitting.told if isinstance(one, Settled)]
    assert (settled.start_s or 0.0) > len(speech(CLEAN)) / SAMPLE_RATE_HZ
