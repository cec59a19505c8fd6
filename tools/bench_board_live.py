"""From the end of speech to the letters on the board: the demo's recording, heard live by a real recogniser.

The board's own way: a recording played as fast as it was spoken, the recogniser, understanding, the log,
the stream, a real browser. For each line that was spoken the time is taken from its last sound to the
frame in which the page shows what it seems to come to (an outline), and to the one that shows it
settled. The limits are those of the board: shown within 2 s, wanted within 0.7 s, 95th percentile. Load and
the processor time of the whole are told too, since the machine may be busy with other things.

Usage: PYTHONPATH=tools:tests python tools/bench_board_live.py [SECONDS]   (of the recording; 75)
"""

from __future__ import annotations

import itertools
import os
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
from accuracy.listening import listener_for
from bench_board import _WATCH, EXECUTABLE, SHEET, clock, served
from bench_hearing import speech_end_s

from saywright.bench import Bench
from saywright.errors import ModelError
from saywright.hearing.adapters.scripted import read_script
from saywright.hearing.audio import read_span, wav_bytes
from saywright.hearing.listener import Listener, Samples
from saywright.hearing.playback import Playback
from saywright.record.events import Heard
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams

_EARLY_S = 0.3  # an outline this much before the last sound may be of it
DEMO = Path(__file__).parent.parent / "demo_audio"
FROM_S = 12.0  # where the talk is in full swing
SECONDS = 75.0
LIMIT_S, WANTED_S = 2.0, 0.7
_WAIT_S = 4.0  # after the last sound


class Timed(Playback):
    """Notes when its first sound would be spoken."""

    began_s = 0.0  # by the clock of the page

    def blocks(self) -> Iterator[Samples]:
        """Blocks as fast as they were spoken."""
        self.began_s = time.time()
        yield from super().blocks()


def ends(until_s: float) -> list[tuple[float, float]]:
    """Start and last sound of each line spoken in the stretch, seconds from its beginning."""
    starts = [one.start_s or 0.0 for one in read_script(DEMO / "commentary.txt")]
    found = []
    for start_s, next_s in itertools.pairwise(starts):
        if start_s >= FROM_S and next_s <= until_s:
            spoken = read_span(DEMO / "bench-job.opus", start_s, next_s)
            found.append((start_s - FROM_S, start_s - FROM_S + speech_end_s(spoken)))
    return found


def played(browser: Any, listener: Listener, recording: Path, seconds: float) -> tuple[Bench, Timed, Any]:
    """The job, what was played, and what the page drew when."""
    store = MemoryStore()
    streams = Streams(store)
    bench = Bench.open(streams.store, load_sheet(SHEET), clock=clock, listener=listener)
    playback = Timed(recording)
    session = bench.playing(lambda _device, _anew: playback)
    playback.ended = session.stop
    sitting = BoardSitting(bench, streams, session)
    app = create_app(streams.store, clock, streams=streams, sitting=sitting)
    with served(app, streams) as address:
        page = browser.new_page(viewport={"width": 1920, "height": 1080})
        page.add_init_script(_WATCH)
        page.goto(f"{address}/jobs/{bench.job_id}/board")
        page.wait_for_function("document.documentElement.dataset.seq")
        with sitting:
            page.wait_for_timeout(1000 * (seconds + _WAIT_S))
        page.wait_for_timeout(1000)
        drawn = page.evaluate("window.drawn")
        page.close()
    return bench, playback, drawn


def waits(
    bench: Bench, began_s: float, drawn: Any, spoken: list[tuple[float, float]]
) -> dict[str, list[float]]:
    """Seconds from the last sound of each line to what the page shows of it."""
    settled_at = [(seq, at_ms / 1000) for kind, seq, at_ms in drawn if kind == "seq"]
    outlines = [at_ms / 1000 for kind, _, at_ms in drawn if kind == "outline"]
    found: dict[str, list[float]] = {"shown": [], "settled": []}
    for start_s, end_s in spoken:
        heard = [
            event.seq
            for event in bench.events()
            if isinstance(event.payload, Heard)
            and start_s - 0.5 < sum(event.payload.utterance.span) / 2 < end_s + 0.5
        ]
        at = [at_s for seq, at_s in settled_at if heard and seq > heard[-1]]
        if not at:
            continue
        last_s = began_s + end_s
        first = [at_s for at_s in outlines if last_s - _EARLY_S < at_s < at[0]]
        found["settled"].append(at[0] - last_s)
        found["shown"].append((first[-1] if first else at[0]) - last_s)
    return found


def main(seconds: float) -> None:
    """Print the figures, or why there are none."""
    if not EXECUTABLE.exists():
        print(f"board, live: left out: no browser at {EXECUTABLE}")
        return
    try:
        listener = listener_for(SHEET, "whisper", threads=2)
    except ModelError as error:
        print(f"board, live: left out: {error}")
        return
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  only where there is a browser

    before, worked_s = os.getloadavg()[0], time.process_time()
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        browser = playwright.chromium.launch(
            executable_path=str(EXECUTABLE), args=["--no-sandbox", "--disable-gpu"]
        )
        recording = Path(folder) / "stretch.wav"
        recording.write_bytes(wav_bytes(read_span(DEMO / "bench-job.opus", FROM_S, FROM_S + seconds)))
        bench, playback, drawn = played(browser, listener, recording, seconds)
        browser.close()
    spoken = ends(FROM_S + seconds)
    found = waits(bench, playback.began_s, drawn, spoken)
    print(f"board, live, {listener.name}, {len(found['settled'])} of {len(spoken)} lines, load {before:.1f}")
    print(f"  this process worked {time.process_time() - worked_s:.0f} s in {seconds:.0f} s of talk")
    for name, values in found.items():
        half, most = (float(np.percentile(values, share)) for share in (50, 95))
        print(
            f"  end of speech to {name}: {half:.2f} s (50 %), {most:.2f} s (95 %);"
            f" limit {LIMIT_S:.1f} s, ratio {most / LIMIT_S:.2f};"
            f" wanted {WANTED_S:.1f} s, ratio {most / WANTED_S:.2f}"
        )


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS)
