"""How the desk holds up: 50 readers and 5 writers on one job, then an hour of dictation, sped up.

The server is a process of its own over a store on disk; readers and writers are this process. A reader
asks for what asks, the page that is open while people review, about once a second, each with a
connection and a session of their own. A writer enters a reading about once a second. The hour of dictation
is as many sentences as are spoken in it, one in six seconds, sent one after another without the pauses; a
board and a page that follow the job stay open and are read after each. Figures: the 95th percentile of a
read, whether every change that was answered is in the log, and the server's memory at the start, after each
quarter and at the end.

Usage: python tools/bench_desk.py [SECONDS [DICTATED_S]]   (of the crowd, 20; of the talk simulated, 3600)
"""

from __future__ import annotations

import asyncio
import json
import os
import random
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote, urlencode

from desk_client import Browser, watch

from saywright.bench import Bench
from saywright.sheets.load import load_sheet
from saywright.store.eventlog import SqliteStore

READERS, WRITERS = 50, 5
SECONDS = 20.0
PAUSE_S = (0.5, 1.5)  # between two requests of one person
DICTATED_S = 3600.0  # of talk, simulated
SENTENCE_S = 6.0  # from one sentence to the next at the bench
QUARTERS = 4
READ_GOAL_S = 0.050
GROWTH_GOAL = 0.10  # of memory over the second half of the dictation
MOST_FAILED = 0
LINES = (
    "float height is eighteen point four two",
    "main jet is a one twenty eight",
    "air screw one and a half turns out",
    "float bowl scored",
    "bowl gasket out",
    "order one main jet",
)
SERVE = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from saywright.store.eventlog import SqliteStore
from saywright.web.app import serve
store = SqliteStore(Path(sys.argv[1]))
serve(store, lambda: datetime.now(UTC), port=0, announce=lambda line: print(line, flush=True))
"""


@dataclass
class Counts:
    """What was done and how long it took."""

    reads_s: list[float] = field(default_factory=list)
    writes_s: list[float] = field(default_factory=list)
    written: list[int] = field(default_factory=list)  # sequence numbers, as answered
    failed: int = 0


async def read(port: int, job: str, until_s: float, counts: Counts) -> None:
    """One person who looks at what asks."""
    browser = Browser(port)
    await browser.begin()
    await asyncio.sleep(random.uniform(0, PAUSE_S[1]))
    while time.monotonic() < until_s:
        began_s = time.monotonic()
        status, _ = await browser.ask("GET", f"/jobs/{quote(job)}/asks")
        counts.reads_s.append(time.monotonic() - began_s)
        counts.failed += status != 200
        await asyncio.sleep(random.uniform(*PAUSE_S))
    await browser.close()


async def write(port: int, job: str, until_s: float, counts: Counts) -> None:
    """One person who enters readings."""
    browser = Browser(port)
    await browser.begin()
    while time.monotonic() < until_s:
        value = f"18.{random.randrange(10, 80)}"
        fields = {
            "kind": "reading",
            "component": "float",
            "characteristic": "height",
            "value": value,
            "unit": "mm",
        }
        began_s = time.monotonic()
        status, body = await browser.ask(
            "POST", f"/api/jobs/{quote(job)}/items", json.dumps({"fields": fields}).encode()
        )
        counts.writes_s.append(time.monotonic() - began_s)
        if status == 200:
            counts.written.append(json.loads(body)["event"])
        counts.failed += status != 200
        await asyncio.sleep(random.uniform(*PAUSE_S))
    await browser.close()


async def crowd(port: int, job: str, seconds: float) -> Counts:
    """All of them at once."""
    counts = Counts()
    first = Browser(port)
    await first.begin()
    await first.ask("GET", f"/jobs/{quote(job)}/asks")  # reads the log and the templates, once a start
    until_s = time.monotonic() + seconds
    people = [read(port, job, until_s, counts) for _ in range(READERS)]
    people += [write(port, job, until_s, counts) for _ in range(WRITERS)]
    await asyncio.gather(*people)
    await first.close()
    return counts


async def dictate(port: int, job: str, process: int, sentences: int) -> list[float]:
    """So much talk, each sentence looked at; the server's memory, MB, at the start and after each quarter."""
    watching = asyncio.create_task(watch(port, job))
    browser = Browser(port)
    await browser.begin()
    for page in ("asks", "board/state"):
        await browser.ask("GET", f"/jobs/{quote(job)}/{page}")
    sizes = [memory_mb(process)]
    ends = {round(sentences * quarter / QUARTERS) for quarter in range(1, QUARTERS + 1)}
    for number in range(1, sentences + 1):
        form = urlencode({"token": browser.token, "words": LINES[number % len(LINES)]}).encode()
        status, _ = await browser.ask(
            "POST", f"/jobs/{quote(job)}/say", form, "application/x-www-form-urlencoded"
        )
        if status != 303:
            raise SystemExit(f"a sentence was answered with {status}")
        for page in ("asks", "board/state"):
            await browser.ask("GET", f"/jobs/{quote(job)}/{page}")
        if number in ends:
            sizes.append(memory_mb(process))
    if watching.done():
        raise SystemExit("the stream of the board ended before the talk did")
    watching.cancel()
    await asyncio.gather(watching, return_exceptions=True)
    await browser.close()
    return sizes


def memory_mb(process: int) -> float:
    """Resident memory of a process, MB."""
    pages = int(Path(f"/proc/{process}/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def work_s(process: int) -> float:
    """Time that a process worked so far, seconds of one core."""
    fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def quantile(values: Sequence[float], share: float) -> float:
    """The value below which this share lies."""
    return statistics.quantiles(values, n=100)[round(100 * share) - 1]


def filled(folder: Path) -> tuple[str, str]:
    """A store with two jobs of a hundred lines: one to crowd around, one to dictate into."""
    store = SqliteStore(folder)
    sheet = load_sheet("outboard-float-carburetor")
    ids = []
    for _ in range(2):
        bench = Bench.open(store, sheet, clock=lambda: datetime.now(UTC))
        for number in range(100):
            bench.say(LINES[number % len(LINES)])
        ids.append(bench.job_id)
    store.close()
    return ids[0], ids[1]


def lost(folder: Path, job: str, written: Sequence[int]) -> int:
    """How many changes that were answered are not in the log, which is verified."""
    store = SqliteStore(folder)
    store.verify(job)
    kinds = {event.seq: event.payload.kind for event in store.events(job)}
    store.close()
    return sum(kinds.get(seq) != "item_added" for seq in written) + len(written) - len(set(written))


@dataclass
class Run:
    """What a run of all of it gave."""

    counts: Counts
    worked_s: float  # of one core, by the server, under the crowd
    sizes_mb: list[float]  # memory of the server at the start of the dictation and after each quarter
    took_s: float  # to send what was dictated
    gone: int  # changes that were answered and are not in the log

    @property
    def growth(self) -> float:
        """Of memory over the second half of the dictation, as a share."""
        return self.sizes_mb[QUARTERS] / self.sizes_mb[QUARTERS // 2] - 1


def run(seconds: float, sentences: int) -> Run:
    """A crowd for so many seconds, then so many sentences, at a server of their own."""
    random.seed(7)
    with tempfile.TemporaryDirectory(prefix="saywright-bench-") as place:
        folder = Path(place)
        crowded, dictated = filled(folder)
        command = [sys.executable, "-c", SERVE, str(folder)]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            assert server.stdout is not None
            try:
                port = int(re.findall(r":(\d+)/", server.stdout.readline())[0])
                before_s = work_s(server.pid)
                counts = asyncio.run(crowd(port, crowded, seconds))
                worked_s = work_s(server.pid) - before_s
                began_s = time.monotonic()
                sizes_mb = asyncio.run(dictate(port, dictated, server.pid, sentences))
                took_s = time.monotonic() - began_s
            finally:
                server.terminate()
        return Run(counts, worked_s, sizes_mb, took_s, lost(folder, crowded, counts.written))


def main() -> int:
    """Measure; 1 where a goal is missed."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS
    dictated_s = float(sys.argv[2]) if len(sys.argv) > 2 else DICTATED_S
    sentences = max(QUARTERS, round(dictated_s / SENTENCE_S))
    found = run(seconds, sentences)
    counts, growth = found.counts, found.growth
    p95_s = quantile(counts.reads_s, 0.95)
    requests = len(counts.reads_s) + len(counts.written)
    print(
        f"{READERS} readers: {len(counts.reads_s)} reads,"
        f" median {statistics.median(counts.reads_s) * 1e3:.1f} ms, 95th percentile {p95_s * 1e3:.1f} ms"
        f" (goal {READ_GOAL_S * 1e3:.0f}, ratio {p95_s / READ_GOAL_S:.2f})"
    )
    print(
        f"{WRITERS} writers: {len(counts.written)} changes, 95th percentile"
        f" {quantile(counts.writes_s, 0.95) * 1e3:.1f} ms; lost {found.gone}, failed {counts.failed}"
    )
    print(
        f"the server worked {found.worked_s / requests * 1e3:.1f} ms a request,"
        f" {found.worked_s / seconds:.0%} of one core; load {os.getloadavg()[0]:.1f}"
    )
    sizes = ", ".join(f"{size:.0f}" for size in found.sizes_mb)
    print(
        f"{dictated_s:.0f} s of dictation, {sentences} sentences, sent in {found.took_s:.0f} s;"
        f" memory at the start and after each quarter: {sizes} MB"
        f" (second half {growth:+.1%}, goal {GROWTH_GOAL:.0%}, ratio {growth / GROWTH_GOAL:.2f})"
    )
    held = p95_s < READ_GOAL_S and not found.gone and counts.failed <= MOST_FAILED and growth < GROWTH_GOAL
    return 0 if held else 1


if __name__ == "__main__":
    sys.exit(main())
