"""Recordings that are there already: side by side, in order, without what is known."""

from __future__ import annotations

import threading
import time

import numpy as np
import pytest

from hearing_support import recording
from saywright.hearing.adapters.reading import CutReader
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.choose import find_whisper
from saywright.hearing.cutting import FRAME_SAMPLES, CutSettings, Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.recorded import recorded
from saywright.hearing.words import Hypothesis, Utterance, Word, typed

SECOND_FRAMES = round(SAMPLE_RATE_HZ / FRAME_SAMPLES)


class Loudness:
    """Takes any loud frame for speech."""

    def reset(self) -> None:
        """Nothing is carried."""

    def probability(self, frame: Samples) -> float:
        return float(np.abs(frame).max() > 0.05)


class Recogniser:
    """Tells how loud an utterance is, in hundredths; the first takes longest. Nothing below 0.2."""

    def __init__(self) -> None:
        self.given: list[float] = []
        self.at_once = self.most_at_once = 0
        self._lock = threading.Lock()

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        with self._lock:
            self.given.append(piece.start_s)
            self.at_once += 1
            self.most_at_once = max(self.most_at_once, self.at_once)
            wait_s = 0.2 if len(self.given) == 1 else 0.01
        time.sleep(wait_s)
        with self._lock:
            self.at_once -= 1
        loudness = float(piece.samples.max())
        word = Word(text=f"{round(loudness * 100)}")
        return (Hypothesis(words=(word,), probability=1.0),) if loudness >= 0.2 else ()


def sound(*levels: float) -> Samples:
    """Half a second at each level, a second of silence after it."""
    half, silence = np.ones(SAMPLE_RATE_HZ // 2, np.float32), np.zeros(SAMPLE_RATE_HZ, np.float32)
    return np.concatenate([part for level in levels for part in (half * level, silence)])


def reader(recogniser: Recogniser, *, known_until_s: float = 0.0, at_once: int = 2) -> CutReader:
    """One that knows what ended before a moment."""
    return CutReader(
        recogniser.recognise,
        "recogniser",
        Loudness(),  # type: ignore[arg-type]
        CutSettings(),
        lambda _start_s, end_s: end_s <= known_until_s,
        at_once=at_once,
    )


def heard(one: CutReader, samples: Samples) -> list[str]:
    """What it hears in *samples*, fed a second at a time."""
    found: list[Utterance] = []
    for start in range(0, len(samples), SAMPLE_RATE_HZ):
        found += one.feed(samples[start : start + SAMPLE_RATE_HZ])
    return [utterance.best.text for utterance in [*found, *one.finish()]]


def test_two_at_a_time_in_the_order_in_which_they_were_said() -> None:
    """Though the first takes longest, it comes first; two are worked on at a time and never more."""
    recogniser = Recogniser()
    assert ["30", "40", "50", "60", "70"] == heard(reader(recogniser), sound(0.3, 0.4, 0.5, 0.6, 0.7))
    assert 2 == recogniser.most_at_once


def test_what_is_known_is_not_worked_out_again() -> None:
    """Only what ended after the known part reaches the recogniser, cut as ever."""
    whole, rest = Recogniser(), Recogniser()
    samples = sound(0.3, 0.4, 0.5, 0.6)
    assert ["30", "40", "50", "60"] == heard(reader(whole), samples)
    assert ["50", "60"] == heard(reader(rest, known_until_s=2.9), samples)
    assert sorted(whole.given)[2:] == sorted(rest.given)


def test_what_gave_no_words_is_told() -> None:
    """Speech without words and a click each leave the moment at which they began."""
    one = reader(Recogniser())
    click = np.concatenate([np.full(FRAME_SAMPLES, 0.9, np.float32), np.zeros(SAMPLE_RATE_HZ, np.float32)])
    assert ["30", "40"] == heard(one, np.concatenate([sound(0.3, 0.1), click, sound(0.4)]))
    assert [1.2, 2.7] == pytest.approx(one.wordless, abs=0.05)


def test_no_further_ahead_than_a_few_utterances() -> None:
    """However much is fed at once, at most seven of eight pieces are begun before the first is done."""
    gate = threading.Event()
    begun: list[float] = []

    def recognise(piece: Piece) -> tuple[Hypothesis, ...]:
        begun.append(piece.start_s)
        assert gate.wait(10)
        return typed("word").hypotheses

    one = CutReader(
        recognise,
        "r",
        Loudness(),
        CutSettings(),
        lambda *_: False,
        at_once=2,  # type: ignore[arg-type]
    )
    worker = threading.Thread(target=one.feed, args=(sound(*[0.5] * 20),))
    worker.start()
    time.sleep(0.2)
    assert worker.is_alive()
    assert len(one._begun) <= 7
    gate.set()
    worker.join(10)
    one.finish()
    assert 20 == len(begun)


def test_dropped_it_works_on_no_further() -> None:
    """What was not begun when it is dropped is never worked out."""
    recogniser = Recogniser()
    one = reader(recogniser, at_once=1)
    one.feed(sound(0.3, 0.4, 0.5))
    one.drop()
    assert len(recogniser.given) <= 2


class Plain:
    """A listener that knows no other way: an utterance a second, at its end."""

    name = "plain"

    def __init__(self) -> None:
        self.second = 0

    def feed(self, samples: Samples) -> list[Utterance]:
        self.second += 1
        return [typed(f"word {self.second}").model_copy(update={"start_s": float(self.second)})]

    def partial(self) -> str:
        return ""

    def finish(self) -> list[Utterance]:
        self.second = 0
        return []


def test_any_listener_hears_a_recording() -> None:
    """One that hears block by block gives all but what is known, and is ready for another afterwards."""
    listener = Plain()
    one = recorded(listener, lambda start_s, _: start_s < 2.0)
    found = [u.best.text for _ in range(3) for u in one.feed(np.zeros(SAMPLE_RATE_HZ, np.float32))]
    assert ["word 2", "word 3"] == found
    one.drop()
    assert 0 == listener.second


@pytest.mark.slow
def test_whisper_hears_the_same_side_by_side() -> None:
    """Each utterance of a recording is the same, to the last probability and time, as heard one at a time."""
    folder = find_whisper("en", ())
    assert folder is not None  # the locks have them
    listener = WhisperListener(folder, prompt="float height twenty one point seven three.")
    samples = recording(
        "float height eighteen point four two", "the strainer is clean", "main jet one twenty"
    )
    alone = [*listener.feed(samples), *listener.finish()]
    for _ in range(2):
        one = recorded(listener, lambda *_: False)
        assert alone == [*one.feed(samples), *one.finish()]
    assert 3 == len(alone)
