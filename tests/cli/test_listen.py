"""`listen`, with a microphone that plays what it is given."""

from __future__ import annotations

import json
import signal
from collections.abc import Callable, Iterator

import numpy as np
import pytest

from fake_microphone import FakeMicrophone
from saywright.errors import DeviceError
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples

from .conftest import HEIGHT, SHEET, Ran


class Interrupted(FakeMicrophone):
    """Six seconds of sound; then somebody presses Ctrl-C."""

    def __init__(self, device: str | int | None = None, *, anew: bool = False) -> None:
        super().__init__(device, anew=anew)
        if device == "gone":
            raise DeviceError("the microphone cannot be opened", where=device)

    def blocks(self) -> Iterator[Samples]:
        for _ in range(6):
            yield np.full(SAMPLE_RATE_HZ, 0.1, np.float32)
        signal.raise_signal(signal.SIGINT)
        assert self.ended.wait(20)


@pytest.fixture(autouse=True)
def microphone(monkeypatch: pytest.MonkeyPatch) -> None:
    """No real device and no real recogniser."""

    def scripted(*_: object) -> Listener:
        return ScriptedListener(parse_script(f"[00:01.0] {HEIGHT}\n[00:04.0] main jet one twenty eight"))

    monkeypatch.setattr("saywright.wiring.capture.Microphone", Interrupted)
    monkeypatch.setattr("saywright.wiring.live.Microphone", Interrupted)
    monkeypatch.setattr("saywright.cli.hear.make_listener", scripted)


def test_words_and_what_they_came_to(saywright: Callable[..., Ran]) -> None:
    """Each utterance is a line with its reading below; Ctrl-C ends it, and all is kept."""
    ran = saywright("listen", "--sheet", SHEET)
    assert 0 == ran.code
    first, below, second, _ = ran.out.splitlines()
    assert (f"[00:01.0] {HEIGHT}", "[00:04.0] main jet one twenty eight") == (first, second)
    assert "18.42 mm" in below.replace("\xa0", " ")
    (job,) = json.loads(saywright("jobs", "--json").out)
    assert f"Kept in job {job['id']}" in ran.err
    assert 2 == len(json.loads(saywright("export", job["id"]).out)["readings"])


def test_no_microphone_opens_no_job(saywright: Callable[..., Ran]) -> None:
    """Without a microphone there is one line and no empty job."""
    ran = saywright("listen", "--sheet", SHEET, "--device", "gone")
    assert (3, "saywright: gone: the microphone cannot be opened\n") == (ran.code, ran.err)
    assert [] == json.loads(saywright("jobs", "--json").out)


def test_reading_back_needs_a_voice(saywright: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a synthesiser the line says what to install, and no job is opened."""
    monkeypatch.setattr("saywright.cli.sitting.find_speaker", lambda *_: None)
    ran = saywright("listen", "--sheet", SHEET, "--read-back")
    assert 3 == ran.code
    assert "espeak-ng, which reads back, is not installed. Run 'apt-get install espeak-ng'" in ran.err
    assert [] == json.loads(saywright("jobs", "--json").out)


def test_readings_are_read_back(saywright: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch) -> None:
    """Each utterance that gave something is spoken once it is on record."""
    spoken: list[str] = []

    class Voice:
        def say(self, text: str) -> None:
            spoken.append(text)

    monkeypatch.setattr("saywright.cli.sitting.find_speaker", lambda *_: Voice())
    assert 0 == saywright("listen", "--sheet", SHEET, "--read-back").code
    assert ["18.42", "128"] == [next(v for v in ("18.42", "128") if v in text) for text in spoken]
