"""The command line run in this process, with a data folder of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf

from saywright.cli.main import run
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener

SHEET = "outboard-float-carburetor"
HEIGHT = "float height is eighteen point four two"


@dataclass
class Ran:
    """What a command came to."""

    code: int
    out: str
    err: str


@pytest.fixture
def saywright(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Ran]:
    """Run a command; its data folder and working folder are the test's own."""
    monkeypatch.setenv("SAYWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)

    def call(*args: object) -> Ran:
        code = run([str(arg) for arg in args])
        told = capsys.readouterr()
        return Ran(code, told.out, told.err)

    return call


@pytest.fixture
def notes(tmp_path: Path) -> Path:
    """A text file with two readings and a photo mark."""
    path = tmp_path / "notes.txt"
    path.write_text(
        f"[00:01.0] {HEIGHT}\n[00:04.0] main jet one twenty eight\n[00:07.0] photo of the main jet\n"
    )
    return path


@pytest.fixture
def audio(tmp_path: Path) -> Path:
    """Ten seconds of a faint tone; what is 'heard' in it comes from `ears`."""
    path = tmp_path / "strip.wav"
    seconds = np.arange(10 * SAMPLE_RATE_HZ) / SAMPLE_RATE_HZ
    sf.write(path, (0.1 * np.sin(2 * np.pi * 440 * seconds)).astype(np.float32), SAMPLE_RATE_HZ)
    return path


@pytest.fixture
def ears(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every command hears the same two lines."""

    def scripted(*_: object) -> Listener:
        return ScriptedListener(parse_script(f"[00:01.0] {HEIGHT}\n[00:04.0] main jet one twenty eight"))

    monkeypatch.setattr("saywright.cli.hear.make_listener", scripted)
