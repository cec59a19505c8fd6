"""Live hearing at two speeds, with a recogniser and a detector that are told what to do."""

from __future__ import annotations

import threading
from collections.abc import Callable

import numpy as np
import pytest

from saywright.hearing.adapters.following import CutFollower
from saywright.hearing.cutting import FRAME_SAMPLES, CutSettings, Cutter, Piece
from saywright.hearing.feed import Partial, Provisional
from saywright.hearing.follow import Told
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Hypothesis, Utterance, Word

ONE_FRAME_S = FRAME_SAMPLES / SAMPLE_RATE_HZ


class Loudness:
    """Takes any loud frame for speech."""

    def reset(self) -> None:
        """Nothing is carried."""

    def probability(self, frame: Samples) -> float:
        return float(np.abs(frame).max() > 0.05)


class Recogniser:
    """Hears the length of an utterance; waits at `gate` where that is closed."""

    name = "recogniser"

    def __init__(self) -> None:
        self.pieces: list[Piece] = []
        self.looks: list[int] = []
        self.gate = threading.Event()
        self.gate.set()
        self.words = "float height"
        self.fails = False

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        self.pieces.append(piece)
        assert self.gate.wait(10)
        if self.fails:
            raise ZeroDivisionError
        words = tuple(Word(text=text) for text in self.words.split())
        return (Hypothesis(words=words, probability=1.0),) if words else ()

    def sketch(self, samples: Samples, wanted: Callable[[], bool]) -> str:
        self.looks.append(len(samples))
        assert self.gate.wait(10)
        return "float" if wanted() else ""


class Live:
    """A follower fed frame by frame, and what it told, each with the time fed so far."""

    def __init__(self, recogniser: Recogniser) -> None:
        self.woken = threading.Event()
        self.follower = CutFollower(recogniser, Loudness(), CutSettings(), self.woken.set)
        self.fed_s = 0.0
        self.told: list[tuple[float, Told]] = []

    def feed(self, seconds: float, level: float) -> None:
        """So much sound of that level; after each frame the recogniser gets time to think."""
        for _ in range(round(seconds / ONE_FRAME_S)):
            self.fed_s += ONE_FRAME_S
            self.told += [
                (self.fed_s, one) for one in self.follower.feed(np.full(FRAME_SAMPLES, level, np.float32))
            ]
            self.woken.wait(0.002)
            self.woken.clear()
        self.fetch()

    def fetch(self) -> None:
        """What is new without sound."""
        self.told += [(self.fed_s, one) for one in self.follower.feed(np.zeros(0, np.float32))]

    def kinds(self) -> list[str]:
        """What was told, by name."""
        return [type(one).__name__ for _, one in self.told]


@pytest.fixture
def recogniser() -> Recogniser:
    """One that answers at once."""
    return Recogniser()


def test_provisional_at_half_a_second_then_settled(recogniser: Recogniser) -> None:
    """After 0.5 s of silence an utterance is provisional; at 0.9 s the same has settled, decoded once."""
    live = Live(recogniser)
    live.feed(1.0, 0.0)
    live.feed(0.6, 0.1)
    live.feed(2.0, 0.0)
    (provisional_s, provisional), (settled_s, settled) = live.told
    assert isinstance(provisional, Provisional)
    assert provisional.utterance == settled
    assert 1.6 + 0.5 == pytest.approx(provisional_s, abs=2 * ONE_FRAME_S)
    assert 1.6 + 0.9 == pytest.approx(settled_s, abs=2 * ONE_FRAME_S)
    assert 1 == len(recogniser.pieces)
    assert [] == live.follower.finish()


def test_decoding_begins_when_the_cut_is_known(recogniser: Recogniser) -> None:
    """At the end of the post-roll of 0.22 s, and not before, the recogniser gets the utterance."""
    live = Live(recogniser)
    live.feed(0.6, 0.1)
    live.feed(0.19, 0.0)
    assert [] == recogniser.pieces
    live.feed(0.1, 0.0)
    assert 1 == len(recogniser.pieces)
    live.follower.drop()


def test_what_is_decoded_is_what_a_recording_would_be_cut_to(recogniser: Recogniser) -> None:
    """The samples are those that the cutter of recordings gives, but for two frames of silence at the end."""
    sound = [np.full(FRAME_SAMPLES, level, np.float32) for level in [0.0] * 20 + [0.1] * 30 + [0.01] * 60]
    cutter = Cutter(CutSettings())
    (cut,) = [piece for frame in sound if (piece := cutter.push(frame, float(frame.max() > 0.05)))]
    live = Live(recogniser)
    for frame in sound:
        live.follower.feed(frame)
    live.follower.finish()
    (piece,) = recogniser.pieces
    assert cut.start_s == piece.start_s
    assert np.array_equal(cut.samples[: -2 * FRAME_SAMPLES], piece.samples)


def test_a_hesitation_is_taken_back(recogniser: Recogniser) -> None:
    """Who goes on after 0.6 s takes the provisional back; one utterance settles, over both parts."""
    live = Live(recogniser)
    live.feed(0.9, 0.1)
    live.feed(0.6, 0.0)
    live.feed(0.3, 0.1)
    live.feed(1.0, 0.0)
    kinds = live.kinds()
    first = kinds.index("Provisional")
    assert Partial("float height") == live.told[first + 1][1]
    assert ["Provisional", "Utterance"] == [kind for kind in kinds[first + 1 :] if kind != "Partial"]
    settled = live.told[-1][1]
    assert isinstance(settled, Utterance)
    assert (settled.end_s or 0.0) > 1.8
    live.follower.drop()


def test_a_short_pause_is_not_told(recogniser: Recogniser) -> None:
    """A decoding begun in a pause of 0.4 s is thrown away unseen."""
    live = Live(recogniser)
    live.feed(0.3, 0.1)
    live.feed(0.4, 0.0)
    live.feed(0.2, 0.1)
    live.feed(1.0, 0.0)
    assert ["Provisional", "Utterance"] == live.kinds()
    live.follower.drop()


def test_a_slow_recogniser_holds_up_no_sound(recogniser: Recogniser) -> None:
    """While one utterance is decoded the next ones are cut; all come in order, none is lost."""
    recogniser.gate.clear()
    live = Live(recogniser)
    for _ in range(3):
        live.feed(0.5, 0.1)
        live.feed(1.2, 0.0)
    assert [] == live.told
    recogniser.gate.set()
    told = live.follower.finish()
    starts = [one.start_s for one in told if isinstance(one, Utterance)]
    assert 3 == len(starts)
    assert sorted(starts) == starts


def test_words_so_far(recogniser: Recogniser) -> None:
    """While somebody speaks the words so far are looked at once a second, while nothing else is to do."""
    live = Live(recogniser)
    live.feed(3.5, 0.1)
    assert ["Partial"] == live.kinds()
    assert 3 == len(recogniser.looks)
    live.follower.drop()


def test_a_look_gives_way(recogniser: Recogniser) -> None:
    """A look that is still going on when an utterance ends is asked whether it is wanted, and is not."""
    recogniser.gate.clear()
    live = Live(recogniser)
    live.feed(1.2, 0.1)
    live.feed(0.5, 0.0)
    recogniser.gate.set()
    live.feed(0.6, 0.0)
    assert ["Utterance"] == [kind for kind in live.kinds() if kind != "Provisional"]
    live.follower.drop()


def test_nothing_said(recogniser: Recogniser) -> None:
    """Noise in which no word is heard gives no utterance and takes back the words shown."""
    recogniser.words = ""
    live = Live(recogniser)
    live.feed(1.5, 0.1)
    live.feed(1.5, 0.0)
    assert [Partial("float"), Partial("")] == [one for _, one in live.told]
    live.follower.drop()


def test_a_fault_in_the_recogniser_is_raised(recogniser: Recogniser) -> None:
    """It comes out where the sound is fed, and where the end is waited for."""
    recogniser.fails = True
    live = Live(recogniser)
    with pytest.raises(ZeroDivisionError):
        live.feed(0.5, 0.1) or live.feed(1.0, 0.0)
    with pytest.raises(ZeroDivisionError):
        live.follower.finish()
    live.follower.drop()
