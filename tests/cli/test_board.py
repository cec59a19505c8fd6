"""`board`: the command as it is started at a bench."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
import threading
import time
import urllib.request
from contextlib import contextmanager

import pytest

from saywright.bench import Bench
from saywright.cli import board as command
from saywright.cli.common import now
from saywright.errors import MissingPartError
from saywright.hearing import feed
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore

from .conftest import SHEET


@contextmanager
def started(data, *more):
    """The command in a process of its own: the process, and the address it told."""
    started_as = [sys.executable, "-m", "saywright", "--data", str(data), "board", "--port", "0", *more]
    process = subprocess.Popen(started_as, stderr=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    try:
        yield process, address_of(process)
    finally:
        process.kill()
        process.wait(10)
        for stream in (process.stdout, process.stderr):
            stream.close()


def address_of(process, limit_s=90):
    """The address that the command tells on standard error."""
    watchdog = threading.Timer(limit_s, process.kill)
    watchdog.start()
    told = ""
    try:
        for line in process.stderr:
            told += line
            if found := re.search(r"http://\S+/", line):
                return found[0]
    finally:
        watchdog.cancel()
    raise AssertionError(f"no address was told: {told}")


def fetched(address, path):
    """What is there."""
    with urllib.request.urlopen(f"{address}{path}", timeout=20) as answer:
        return answer.read().decode()


def ended(process):
    """Interrupted as by Ctrl-C: exit code and the rest of what it told."""
    process.send_signal(signal.SIGINT)
    code = process.wait(40)
    return code, process.stderr.read()


@pytest.mark.slow
def test_without_a_microphone_it_says_so_and_serves(tmp_path):
    """Board and desk on one server; with a stream open it still ends cleanly on Ctrl-C."""
    with started(tmp_path, "--sheet", SHEET, "--engine", "sphinx") as (process, address):
        page = fetched(address, "board")
        job = re.search(r'data-path="/jobs/([\w-]+)"', page)[1]
        assert "Single-float outboard carburetor" in fetched(address, "")
        assert 1 == json.loads(fetched(address, f"jobs/{job}/board/state"))["seq"]
        stream = urllib.request.urlopen(f"{address}jobs/{job}/stream", timeout=20)
        told = b""
        while b"microphone" not in told:
            told += stream.readline()
        assert b'"state": "closed"' in told
        code, rest = ended(process)
        stream.close()
    assert 0 == code
    assert f"Kept in job {job}" in rest
    assert "Traceback" not in rest


@pytest.mark.slow
def test_a_recording_in_place_of_a_microphone(tmp_path, audio):
    """It is heard into the job; the same job is gone on with by the next start."""
    with started(tmp_path, "--sheet", SHEET, "--engine", "sphinx", "--from-recording", str(audio)) as (
        process,
        address,
    ):
        job = re.search(r'data-path="/jobs/([\w-]+)"', fetched(address, "board"))[1]
        until_s = time.monotonic() + 20
        while '"seq": 1,' in fetched(address, f"jobs/{job}/board/state").replace('"seq":1,', '"seq": 1,'):
            assert time.monotonic() < until_s
            time.sleep(0.2)
        assert 0 == ended(process)[0]
    with started(tmp_path, "--engine", "sphinx") as (process, address):
        assert f'data-path="/jobs/{job}"' in fetched(address, "board")
        assert 0 == ended(process)[0]


@pytest.mark.parametrize(
    ("arguments", "code", "line"),
    [
        ((), 2, "There is no job yet. Name a bench sheet with --sheet"),
        (("--job", "nowhere"), 5, "nowhere: no such job"),
        (("--sheet", SHEET, "--engine", "sphinx", "--from-recording", "nothing.wav"), 2, "no such file"),
        (("--sheet", SHEET, "--device", "gone", "--engine", "sphinx"), 3, "gone"),
    ],
)
def test_what_cannot_be_is_told_in_one_line(saywright, arguments, code, line):
    """No job, no recording, no such microphone: one line and an exit code."""
    ran = saywright("board", *arguments)
    assert code == ran.code
    assert line in ran.err.splitlines()[-1]


class Speaking:
    """A voice that notes what it says, and a session that notes when its microphone is shut."""

    def __init__(self):
        self.told = []

    def say(self, text):
        """Noted."""
        self.told.append(text)

    def mute(self):
        """Noted."""
        self.told.append("shut")

    def unmute(self):
        """Noted."""
        self.told.append("open")


def test_what_was_understood_is_spoken(tmp_path, monkeypatch):
    """The value and the answer to a command are spoken with the microphone shut; talk is not."""
    both = Speaking()
    monkeypatch.setattr("saywright.cli.sitting.find_speaker", lambda _language: both)
    store = MemoryStore()
    bench = Bench.open(store, load_sheet(SHEET), clock=now)
    with command.reading_back(bench, both) as tell:
        bench.say("watch the cat")
        tell(feed.Settled(typed("watch the cat"), bench.events()[-2].seq))
        bench.say("float height is eighteen point four two")
        tell(feed.Settled(typed("float height is eighteen point four two"), bench.events()[-2].seq))
        tell(feed.Commanded("left", 1))
        tell(feed.Answered("s1", True, "Accepted: float height: 18.42 mm, as found", 3))
        tell(feed.Partial("float"))
    store.close()
    spoken = [text for text in both.told if text not in ("shut", "open")]
    assert 3 == len(spoken)
    assert "18.42" in spoken[0]
    assert "Accepted: float height: 18.42 mm, as found" == spoken[2]
    assert (3, 3) == (both.told.count("shut"), both.told.count("open"))


def test_nothing_to_speak_with(monkeypatch):
    """Said in one line, with what to install."""
    monkeypatch.setattr("saywright.cli.sitting.find_speaker", lambda _language: None)
    store = MemoryStore()
    bench = Bench.open(store, load_sheet(SHEET), clock=now)
    with pytest.raises(MissingPartError, match="espeak-ng"), command.reading_back(bench, Speaking()):
        pass
    with command.reading_back(bench, None) as tell:
        assert tell is None
    store.close()
