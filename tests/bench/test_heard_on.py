"""Long recordings that were cut off: heard on to the same words, without working out again what is known."""

from __future__ import annotations

import multiprocessing
import os
import signal
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf

from hearing_support import recording
from saywright.bench import Bench
from saywright.errors import RefusedError
from saywright.hearing.adapters.cut import CutListener, always
from saywright.hearing.choose import choose_listener
from saywright.hearing.cutting import Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.record.events import AudioAdded, Heard
from saywright.sheets.model import Sheet
from saywright.store.eventlog import SqliteStore
from saywright.store.memory import MemoryStore

from .conftest import SHEET, Clock

LINES = (
    "float height eighteen point four two",
    "the strainer is clean",
    "air screw one and a half turns out",
    "photo of the strainer",
)


class Loud(CutListener):
    """Hears how loud an utterance is; nothing in what is quieter than 0.2."""

    name = "loud"
    at_once = 2

    def __init__(self) -> None:
        super().__init__()
        self._detector = Loudness()  # type: ignore[assignment]
        self.given: list[float] = []

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        self.given.append(piece.start_s)
        loudness = float(piece.samples.max())
        word = Word(text=f"loud{round(loudness * 10)}")
        return (Hypothesis(words=(word,), probability=1.0),) if loudness > 0.2 else ()

    def sketch(self, samples: Samples, wanted: object = always) -> str:
        return ""


class Loudness:
    """Takes any loud frame for speech."""

    def reset(self) -> None:
        """Nothing is carried."""

    def probability(self, frame: Samples) -> float:
        return float(np.abs(frame).max() > 0.05)


@pytest.fixture
def loud(tmp_path: Path) -> Path:
    """Ten stretches of half a second, the third and the eighth of them too quiet to hear."""
    half, silence = np.ones(SAMPLE_RATE_HZ // 2, np.float32), np.zeros(SAMPLE_RATE_HZ, np.float32)
    levels = [0.1 if number in (2, 7) else 0.3 + 0.1 * (number % 5) for number in range(10)]
    path = tmp_path / "long.wav"
    sf.write(path, np.concatenate([p for one in levels for p in (half * one, silence)]), SAMPLE_RATE_HZ)
    return path


def heard(bench: Bench) -> list[Utterance]:
    """Every utterance on record."""
    return [e.payload.utterance for e in bench.events() if isinstance(e.payload, Heard)]


def told(bench: Bench) -> AudioAdded:
    """What was last said of the recording."""
    return [e.payload for e in bench.events() if isinstance(e.payload, AudioAdded)][-1]


def stop_at(moment_s: float) -> object:
    """Progress that is interrupted there."""

    def progress(done_s: float, _: float | None) -> None:
        if done_s > moment_s:
            raise KeyboardInterrupt

    return progress


@pytest.mark.parametrize("moment_s", [2.5, 6.5, 9.5])
def test_heard_on_wherever_it_was_cut_off(
    store: MemoryStore, sheet: Sheet, clock: Clock, loud: Path, moment_s: float
) -> None:
    """The same utterances and wordless moments as without a stop; what was kept is not decoded again."""
    whole = Bench.open(store, sheet, clock=clock, listener=Loud())
    whole.hear_file(loud)
    bench = Bench.open(store, sheet, clock=clock, listener=Loud())
    with pytest.raises(KeyboardInterrupt):
        bench.hear_file(loud, progress=stop_at(moment_s))  # type: ignore[arg-type]
    kept = heard(bench)
    assert 0 < len(kept) < 8
    listener = Loud()
    Bench.resume(store, bench.job_id, clock=clock, listener=listener).hear_rest()
    assert heard(whole) == heard(bench)
    assert told(whole) == told(bench)
    assert 2 == len(told(bench).wordless)
    assert min(listener.given) > (kept[-1].start_s or 0.0)


def test_what_is_not_heard_out_is_open(store: MemoryStore, sheet: Sheet, clock: Clock, loud: Path) -> None:
    """Such a recording waits for a person, so that it cannot be signed away; heard on, nothing waits."""
    bench = Bench.open(store, sheet, clock=clock, listener=Loud())
    with pytest.raises(KeyboardInterrupt):
        bench.hear_file(loud, progress=stop_at(5.0))  # type: ignore[arg-type]
    (item,) = [one for one in bench.record().open_items if one.kind == "recording"]
    assert (
        "The recording long.wav was not heard to its end. Hear it on, or say why it may be left." == item.text
    )
    with pytest.raises(RefusedError, match=r"long\.wav was not heard to its end"):
        bench.sign(actor="Kim", statement="all done")
    bench.hear_rest()
    assert [] == [one for one in bench.record().open_items if one.kind == "recording"]


def test_it_may_be_left_with_a_reason(store: MemoryStore, sheet: Sheet, clock: Clock, loud: Path) -> None:
    """A reason that a person gives stays with the open item."""
    bench = Bench.open(store, sheet, clock=clock, listener=Loud())
    with pytest.raises(KeyboardInterrupt):
        bench.hear_file(loud, progress=stop_at(5.0))  # type: ignore[arg-type]
    (item,) = [one for one in bench.record().open_items if one.kind == "recording"]
    bench.explain(item.id, "the wrong file", actor="Kim")
    (item,) = [one for one in bench.record().open_items if one.kind == "recording"]
    assert "the wrong file" == item.explained
    assert "Recording" in bench.export("text").decode()
    assert "May stay open: the wrong file" in " ".join(bench.export("text").decode().split())
    assert b"May stay open: the wrong file" in bench.report(("html",))["html"]


def test_a_crash_of_the_microphone_is_not_signed_away(tmp_path: Path, clock: Clock) -> None:
    """Whoever signs learns of the recording that a dead process left; one still running is no matter."""
    store = SqliteStore(tmp_path)
    bench = Bench.open(store, SHEET, clock=clock, listener=Loud())
    pid = os.fork()
    if pid == 0:
        bench.hear(np.zeros(SAMPLE_RATE_HZ, np.float32))
        os.kill(os.getpid(), signal.SIGKILL)
    os.waitpid(pid, 0)
    assert [] == [one for one in bench.record().open_items if one.kind == "recording"]
    with pytest.raises(RefusedError, match=r"microphone .* was not heard to its end"):
        bench.sign(actor="Kim", statement="all done")
    store.close()


@pytest.mark.slow
def test_killed_and_heard_on_by_the_default_listener(tmp_path: Path, clock: Clock) -> None:
    """A process killed midway and one that hears on keep what one alone keeps, to the probability."""
    path = tmp_path / "job.wav"
    sf.write(path, recording(*LINES * 3), SAMPLE_RATE_HZ)
    store = SqliteStore(tmp_path / "data")
    listener, _ = choose_listener(SHEET, engine="whisper")
    whole = Bench.open(store, SHEET, clock=clock, listener=listener)
    whole.hear_file(path)
    bench = Bench.open(store, SHEET, clock=clock)
    spawn = multiprocessing.get_context("spawn")
    worker = spawn.Process(target=hear_until_killed, args=(tmp_path / "data", bench.job_id, path))
    worker.start()
    worker.join(60)
    assert -signal.SIGKILL == worker.exitcode
    again = Bench.resume(store, bench.job_id, clock=clock, listener=listener)
    assert 0 < len(heard(again)) < 3 * len(LINES)
    again.hear_rest()
    assert [one.best.text for one in heard(whole)] == [one.best.text for one in heard(again)]
    assert heard(whole) == heard(again)
    store.close()


def hear_until_killed(folder: Path, job: str, path: Path) -> None:
    """In a process of its own: hear, and die when two utterances are on record."""
    store = SqliteStore(folder)
    listener: Listener = choose_listener(SHEET, engine="whisper")[0]
    bench = Bench.resume(store, job, clock=lambda: datetime.now(UTC), listener=listener)

    def progress(*_: object) -> None:
        if len(heard(bench)) >= 2:
            os.kill(os.getpid(), signal.SIGKILL)

    bench.hear_file(path, progress=progress)
