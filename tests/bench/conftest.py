"""A small bench: a sheet of two parts, a clock that ticks, a listener that plays what it is given."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.store.memory import MemoryStore

SHEET = Sheet(
    id="pump",
    title="Bilge pump",
    source="Invented for the tests",
    component=(
        Component(
            id="float",
            names=("float",),
            characteristic=(
                Characteristic(
                    id="height",
                    names=("float height", "height"),
                    unit="mm",
                    lower=Decimal("18.0"),
                    upper=Decimal("18.8"),
                    plausible=(Decimal(10), Decimal(30)),
                ),
            ),
        ),
        Component(id="strainer", names=("strainer",)),
        Component(
            id="air_screw",
            names=("air screw",),
            characteristic=(
                Characteristic(id="turns_out", names=("turns out", "turns"), unit="turn", restore=True),
            ),
        ),
    ),
)


class Clock:
    """One second later each time it is asked."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(seconds=1)
        return self.at


class Player:
    """A listener that knows what will be said: gives each utterance when its end was fed."""

    name = "player"

    def __init__(self, *said: tuple[float, float, str]) -> None:
        self._said = [spoken(*one) for one in said]
        self._left = list(self._said)
        self._fed_s = 0.0

    def feed(self, samples: Samples) -> list[Utterance]:
        self._fed_s += len(samples) / SAMPLE_RATE_HZ
        return self._until(self._fed_s)

    def partial(self) -> str:
        return ""

    def finish(self) -> list[Utterance]:
        rest = self._until(self._fed_s + 0.5)
        self._left, self._fed_s = list(self._said), 0.0
        return rest

    def _until(self, moment_s: float) -> list[Utterance]:
        ended = [u for u in self._left if (u.end_s or 0.0) <= moment_s]
        self._left = self._left[len(ended) :]
        return ended


def spoken(start_s: float, end_s: float, text: str) -> Utterance:
    """An utterance with its words spread evenly over its time."""
    texts = text.split()
    step_s = (end_s - start_s) / len(texts)
    words = tuple(
        Word(text=one, start_s=start_s + n * step_s, end_s=start_s + (n + 1) * step_s, confidence=0.99)
        for n, one in enumerate(texts)
    )
    hypotheses = (Hypothesis(words=words, probability=1.0),)
    return Utterance(hypotheses=hypotheses, start_s=start_s, end_s=end_s, listener="player")


@pytest.fixture
def sheet() -> Sheet:
    """The sheet of the tests."""
    return SHEET


@pytest.fixture
def clock() -> Clock:
    """A clock that ticks."""
    return Clock()


@pytest.fixture
def store() -> Iterator[MemoryStore]:
    """A store that forgets."""
    made = MemoryStore()
    yield made
    made.close()


@pytest.fixture
def audio(tmp_path: Path) -> Path:
    """Ten seconds of a rising tone: the sample at each moment tells the moment."""
    seconds = np.arange(10 * SAMPLE_RATE_HZ) / SAMPLE_RATE_HZ
    path = tmp_path / "strip-down.wav"
    sf.write(path, (seconds / 20).astype(np.float32), SAMPLE_RATE_HZ, subtype="PCM_16")
    return path
