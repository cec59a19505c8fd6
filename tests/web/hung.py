"""A board that hangs over a bench where nobody speaks, for the tests that look at it."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import pytest

from saywright.bench import Bench
from saywright.hearing import feed
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams

WAIT_MS = 20_000  # far more than it takes, also on a machine that is busy with other things
STATES = {
    "listening": "Listening",
    "speaking": "Speaking",
    "paused": "Paused",
    "clipped": "Too loud",
    "too_quiet": "Too quiet",
    "unplugged": "Unplugged",
    "closed": "No microphone",
}


def clock() -> datetime:
    """The time, UTC."""
    return datetime.now(UTC)


@dataclass
class FakeSession:
    """Listens to nothing; the test tells what it would tell."""

    acts: list[str] = field(default_factory=list)
    paused: bool = True

    def run(self, told):
        """Nothing is heard."""

    def pause(self):
        """Noted."""
        self.acts.append("pause")

    def resume(self):
        """Noted."""
        self.acts.append("resume")

    def stop(self):
        """Noted."""


class LiveSitting(BoardSitting):
    """A sitting that counts as running, without a thread."""

    running = True


@dataclass
class Hung:
    """A board on a port, its job, and what listens."""

    address: str
    bench: Bench
    sitting: LiveSitting
    session: FakeSession
    streams: Streams
    chromium: Any
    window: Any

    @property
    def path(self) -> str:
        """Address of the board's page."""
        return f"/jobs/{self.bench.job_id}/board"

    def screen(self, **more: Any) -> Any:
        """A window at it; `with` closes it."""
        return self.window(self.chromium, self.address, **more)

    def microphone(self, state: str, level_dbfs: float = -20.0) -> None:
        """The microphone comes to a state."""
        self.sitting.told(feed.Microphone(state=state, level_dbfs=level_dbfs))

    def settle(self, words: str) -> None:
        """Words are spoken to their end."""
        self.sitting.told(feed.Partial(words))
        self.bench.say(words)
        seq = self.bench.events()[-2].seq
        self.sitting.told(feed.Settled(typed(words), seq))
        if answer := self.bench.answers(seq):
            self.sitting.told(feed.Answered(answer.item, answer.accepted, answer.words, seq))


@pytest.fixture
def hung(chromium, browser_tools) -> Iterator[Hung]:
    """A board over a fresh job of a carburetor."""
    store = MemoryStore()
    streams = Streams(store)
    sheet = load_sheet("outboard-float-carburetor")
    bench = Bench.open(
        streams.store, sheet, clock=clock, title="Carburetor off the harbour launch", serial="HB-2047"
    )
    session = FakeSession()
    sitting = LiveSitting(bench, streams, session)
    app = create_app(streams.store, clock, streams=streams, sitting=sitting)
    with browser_tools.serving(app, streams=streams) as address:
        board = Hung(address, bench, sitting, session, streams, chromium, browser_tools.screen)
        board.microphone("listening")
        yield board
    store.close()


def press_data_key(page, text):
    """An instrument types *text* and Enter: a hundredth of a second a key, however busy the machine is."""
    wire = page.context.new_cdp_session(page)
    began_s = time.time()
    for number, letter in enumerate([*text, "Enter"]):
        enter = (
            {"code": "Enter", "windowsVirtualKeyCode": 13, "text": "\r"}
            if letter == "Enter"
            else {"text": letter}
        )
        key = {"key": letter, "timestamp": began_s + 0.01 * number, **enter}
        wire.send("Input.dispatchKeyEvent", {"type": "keyDown", **key})
        wire.send("Input.dispatchKeyEvent", {"type": "keyUp", "key": letter, "timestamp": key["timestamp"]})
    wire.detach()


def wait_for(page, selector, text):
    """Until an element says *text*."""
    page.wait_for_function(
        "([selector, text]) => (document.querySelector(selector)?.innerText || '').toLowerCase()"
        ".includes(text.toLowerCase())",
        arg=[selector, text],
        timeout=WAIT_MS,
    )
