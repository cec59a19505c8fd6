"""Live hearing with an engine that streams, played by a stand-in."""

from __future__ import annotations

import numpy as np

from saywright.hearing.adapters.streaming import StreamFollower
from saywright.hearing.feed import Partial, Provisional
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Utterance, typed

TENTH = np.zeros(SAMPLE_RATE_HZ // 10, np.float32)


class Engine:
    """Hears a word a tenth of a second; "" is silence. Ends when it is told to, or at the tenth `ends`."""

    name = "engine"

    def __init__(self, *heard: str, ends: int | None = None) -> None:
        self._heard, self._ends = list(heard), ends
        self._words: list[str] = []
        self._tenths = 0
        self._silent = 0  # tenths
        self.ended_by_hand = 0

    def feed(self, samples: Samples) -> list[Utterance]:
        if not len(samples):
            return []
        word = self._heard[self._tenths] if self._tenths < len(self._heard) else ""
        self._tenths += 1
        self._words += [word] if word else []
        self._silent = 0 if word else self._silent + 1
        return self._given() if self._tenths == self._ends else []

    @property
    def silent_s(self) -> float:
        return self._silent / 10

    def partial(self) -> str:
        return " ".join(self._words)

    def end_now(self) -> list[Utterance]:
        self.ended_by_hand += 1
        return self._given()

    def finish(self) -> list[Utterance]:
        return self._given()

    def _given(self) -> list[Utterance]:
        words, self._words = self._words, []
        return [typed(" ".join(words))] if words else []


def told(engine: Engine, tenths: int) -> list[tuple[int, str, str]]:
    """What was told after which tenth: its kind and its words."""
    follower = StreamFollower(engine)
    found = []
    for tenth in range(1, tenths + 1):
        for one in follower.feed(TENTH):
            words = one.words if isinstance(one, Partial) else None
            utterance = one.utterance if isinstance(one, Provisional) else one
            found.append((tenth, type(one).__name__, words if words is not None else utterance.best.text))
    return found


def test_partial_provisional_settled() -> None:
    """Words as they come; at 0.5 s of silence provisional; at 0.9 s the engine is made to end."""
    engine = Engine("float", "height")
    assert [
        (1, "Partial", "float"),
        (2, "Partial", "float height"),
        (7, "Provisional", "float height"),
        (11, "Utterance", "float height"),
    ] == told(engine, 14)
    assert 1 == engine.ended_by_hand


def test_who_goes_on_takes_it_back() -> None:
    """Speech after 0.6 s turns provisional words into partial ones."""
    heard = told(Engine("float", *[""] * 6, "height"), 17)
    assert ["Partial", "Provisional", "Partial", "Provisional", "Utterance"] == [kind for _, kind, _ in heard]
    assert (17, "Utterance", "float height") == heard[-1]


def test_an_engine_that_ends_sooner_is_followed() -> None:
    """What the engine itself ends has settled; nothing is told twice."""
    engine = Engine("float", "height", ends=6)
    assert (6, "Utterance", "float height") == told(engine, 20)[-1]
    assert 0 == engine.ended_by_hand


def test_silence_tells_nothing() -> None:
    """Nobody speaks, nothing comes."""
    assert [] == told(Engine(), 20)
