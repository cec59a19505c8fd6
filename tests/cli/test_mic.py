"""`mic`, with a microphone that plays what it is given."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest

from saywright.errors import DeviceError
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.microphone import Device
from saywright.hearing.vocabulary import example, reading_name
from saywright.sheets import load_sheet

SHEET = "outboard-float-carburetor"


class Plays:
    """Three quiet seconds, then six with a voice in them."""

    def __init__(self, device: str | None = None) -> None:
        if device == "gone":
            raise DeviceError("the microphone cannot be opened", where=device)
        self.name = "Bench headset"

    def __enter__(self) -> Plays:
        return self

    def __exit__(self, *_: object) -> None:
        return

    def blocks(self) -> Iterator[Samples]:
        noise = np.random.default_rng(7).standard_normal(10 * SAMPLE_RATE_HZ) * 0.001
        voice = np.zeros_like(noise)
        voice[4 * SAMPLE_RATE_HZ : 6 * SAMPLE_RATE_HZ] = 0.1
        yield from np.array_split((noise + voice).astype(np.float32), 100)


def _first_reading() -> str:
    every = load_sheet(SHEET).characteristics()
    part, what = next((p, c) for p, c in every if not c.is_count and c.plausible is not None)
    return f"{reading_name(part, what)} {example(part, what)}"


@pytest.fixture
def heard(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Say what is 'heard'."""

    def say(words: str) -> None:
        def scripted(*_: object) -> Listener:
            return ScriptedListener(parse_script(f"[00:01.0] {words}"))

        monkeypatch.setattr("saywright.cli.mic.make_listener", scripted)

    monkeypatch.setattr("saywright.cli.mic.Microphone", Plays)
    return say


def test_a_good_microphone(saywright: Callable[..., Any], heard: Callable[[str], None]) -> None:
    """Levels, what was heard, and a plain word; nothing is kept."""
    heard(_first_reading())
    ran = saywright("mic", "--sheet", SHEET)
    assert 0 == ran.code
    assert "(right)" in ran.out
    assert ran.out.endswith("\nIt will do.\n")
    assert _first_reading() in ran.err
    assert [] == json.loads(saywright("jobs", "--json").out)


def test_a_reading_heard_wrong(saywright: Callable[..., Any], heard: Callable[[str], None]) -> None:
    """It is told, with what to do."""
    heard("so how about lunch")
    ran = saywright("mic", "--sheet", SHEET)
    assert "(not as asked for)" in ran.out
    assert "- The test reading came out wrong" in ran.out


def test_as_json(saywright: Callable[..., Any], heard: Callable[[str], None]) -> None:
    """The same as data."""
    heard(_first_reading())
    data = json.loads(saywright("mic", "--sheet", SHEET, "--json").out)
    assert ("Bench headset", "good", True) == (data["device"], data["verdict"], data["right"])
    assert -60 == pytest.approx(data["noise_dbfs"], abs=1)


def test_none_there(saywright: Callable[..., Any], heard: Callable[[str], None]) -> None:
    """One line and the exit code of a device."""
    heard("x")
    ran = saywright("mic", "--device", "gone")
    assert (3, "gone: the microphone cannot be opened") == (ran.code, ran.err.splitlines()[-1][11:])


def test_the_microphones_are_listed(saywright: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    """Each with its number, rate and name; none is told too."""
    monkeypatch.setattr("saywright.cli.mic.list_devices", lambda: (Device(2, "Bench headset", 1, 48_000),))
    assert "2       48000 Hz  Bench headset" in saywright("mic", "--list").out
    monkeypatch.setattr("saywright.cli.mic.list_devices", tuple)
    assert "No microphone was found.\n" == saywright("mic", "--list").out
