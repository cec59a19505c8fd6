"""The board's share of the time from the end of speech to the letters: from the event in the log to the page.

A real browser watches a job; words are typed into it, and for each the time is taken from the
moment the log holds what they were understood as to the second frame drawn after it. Once on a
fresh job, once on a long one. With it, how long an outline takes that may still change.

Usage: python tools/bench_board.py [COUNT]   (how many utterances each time; 60 where not given)
"""

from __future__ import annotations

import contextlib
import socket
import sys
import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import uvicorn

from saywright.bench import Bench
from saywright.hearing import feed
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams

EXECUTABLE = Path("/usr/bin/chromium")
SHEET = "outboard-float-carburetor"
COUNT = 60
LONG = 500  # utterances in the long job before the clock starts
BETWEEN_S = 0.25
WANTED_S = 0.7  # from the end of speech to the board, 95th percentile; the board must leave most of it

# Told to the page before its own script: when each state of the record and each outline was drawn.
_WATCH = """
window.drawn = [];
const now = () => performance.timeOrigin + performance.now();
const after = (act) => requestAnimationFrame(() => requestAnimationFrame(act));
new MutationObserver((changes) => {
  for (const change of changes) {
    const seq = document.documentElement.dataset.seq;
    if (change.attributeName === "data-seq") after(() => window.drawn.push(["seq", Number(seq), now()]));
    if (change.attributeName === "data-settled" && change.target.dataset.settled === "no")
      after(() => window.drawn.push(["outline", 0, now()]));
  }
}).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-seq", "data-settled"] });
"""


class Silent:
    """A session in which nobody speaks."""

    paused = False

    def run(self, told: Any) -> None:
        """Nothing."""

    def pause(self) -> None:
        """Nothing."""

    def resume(self) -> None:
        """Nothing."""

    def stop(self) -> None:
        """Nothing."""


def clock() -> datetime:
    """The time, UTC."""
    return datetime.now(UTC)


@contextlib.contextmanager
def served(app: Any, streams: Streams) -> Iterator[str]:
    """The app on a free port; its address."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        server = uvicorn.Server(uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=2))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        try:
            yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        finally:
            streams.close()
            server.should_exit = True
            thread.join()


# What a long job is made of, over and over.
TALK = (
    "main jet out",
    "bowl gasket brittle",
    "watch the cat on the bench",
    "photo of the float",
    "upper bush bore is eight point zero two",
    "clean the pilot jet",
    "the needle length is twenty two point five",
    "strainer out and it is full of grit",
)


def words(number: int) -> str:
    """Something measured, another value each time."""
    digit = ("one", "two", "three", "four", "five", "six", "seven")[number % 7]
    return f"float height is eighteen point {digit} {digit}"


def measured(browser: Any, before: int, count: int) -> tuple[list[float], list[float]]:
    """Seconds from the event to the page, and from the outline told to the outline drawn."""
    store = MemoryStore()
    streams = Streams(store)
    bench = Bench.open(streams.store, load_sheet(SHEET), clock=clock)
    for number in range(before):
        bench.say(TALK[number % len(TALK)])
    sitting = BoardSitting(bench, streams, Silent())
    app = create_app(streams.store, clock, streams=streams, sitting=sitting)
    try:
        with served(app, streams) as address:
            page = browser.new_page(viewport={"width": 1920, "height": 1080})
            page.add_init_script(_WATCH)
            page.goto(f"{address}/jobs/{bench.job_id}/board")
            page.wait_for_function("document.documentElement.dataset.seq")
            time.sleep(1.0)
            found = _watched(page, bench, sitting, count)
            page.close()
            return found
    finally:
        store.close()


def _watched(page: Any, bench: Bench, sitting: BoardSitting, count: int) -> tuple[list[float], list[float]]:
    kept, told = {}, []
    for number in range(count):
        told.append(time.time())
        sitting.told(feed.Provisional(typed(words(number))))
        page.wait_for_timeout(1000 * BETWEEN_S)
        bench.say(words(number))
        kept[bench.events()[-1].seq] = time.time()
        sitting.told(feed.Settled(typed(words(number)), bench.events()[-2].seq))
        page.wait_for_timeout(1000 * BETWEEN_S)
    page.wait_for_timeout(1000)
    drawn = page.evaluate("window.drawn")
    states = [(seq, at_ms / 1000) for kind, seq, at_ms in drawn if kind == "seq"]
    outlines = [at_ms / 1000 for kind, _, at_ms in drawn if kind == "outline"]
    settled = [min(at_s for seen, at_s in states if seen >= seq) - since_s for seq, since_s in kept.items()]
    shown = [min(at_s for at_s in outlines if at_s > since_s) - since_s for since_s in told]
    return settled, shown


def line(name: str, waits_s: list[float]) -> str:
    """Name, 50th and 95th percentile, and what is left of the aim."""
    ordered = sorted(waits_s)
    middle_s, high_s = ordered[len(ordered) // 2], ordered[min(len(ordered) - 1, round(0.95 * len(ordered)))]
    ends = f"p50 {1000 * middle_s:4.0f} ms  p95 {1000 * high_s:4.0f} ms"
    return f"{name:<34} {ends} of {1000 * WANTED_S:.0f}, ratio {high_s / WANTED_S:.2f}"


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    if not EXECUTABLE.exists():
        print(f"board: no browser at {EXECUTABLE}, so nothing was measured")
        return
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  only where there is a browser

    with sync_playwright() as playwright:
        arguments = ["--no-sandbox", "--disable-gpu"]
        browser = playwright.chromium.launch(executable_path=str(EXECUTABLE), args=arguments)
        print("Board: from the log to the page")
        for name, before in (("fresh job", 0), (f"job of {LONG} utterances", LONG)):
            settled, shown = measured(browser, before, count)
            print(line(f"  {name}, settled", settled))
            print(line(f"  {name}, outline", shown))
        browser.close()


if __name__ == "__main__":
    main()
