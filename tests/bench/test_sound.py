"""Recordings: kept, heard once, heard on after a crash, and played back."""

from __future__ import annotations

import io
import os
import signal
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf

from saywright.bench import Bench
from saywright.errors import AudioError, DiskFullError, NotFoundError, RefusedError
from saywright.hearing.listener import SAMPLE_RATE_HZ
from saywright.record.events import AudioAdded, Heard
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock, Player

SAID = (
    (1.0, 3.0, "float height is eighteen point four two"),
    (4.0, 5.0, "strainer is clean"),
    (7.0, 8.0, "photo of the strainer"),
)


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock) -> Bench:
    """A new job with ears."""
    return Bench.open(store, sheet, clock=clock, listener=Player(*SAID))


def texts(bench: Bench) -> list[str]:
    """The words of every utterance on record."""
    return [e.payload.utterance.best.text for e in bench.events() if isinstance(e.payload, Heard)]


def recordings(bench: Bench) -> list[AudioAdded]:
    """What the log says of recordings."""
    return [e.payload for e in bench.events() if isinstance(e.payload, AudioAdded)]


class TestFile:
    """A recording in a file."""

    def test_kept_then_heard(self, bench: Bench, store: MemoryStore, audio: Path) -> None:
        """The bytes are in the store before the first word, and each utterance names them."""
        seen: list[tuple[float, float | None]] = []
        heard = bench.hear_file(audio, progress=lambda done, total: seen.append((done, total)))
        first, last = recordings(bench)
        assert audio.read_bytes() == store.media.read(first.sha256)
        assert (None, 10.0) == (first.duration_s, last.duration_s)
        assert {first.sha256} == {utterance.media for utterance in heard}
        assert [text for _, _, text in SAID] == texts(bench)
        assert (10.0, 10.0) == seen[-1]

    def test_the_same_recording_does_not_double_the_record(self, bench: Bench, audio: Path) -> None:
        """Heard again, under whatever name, it is refused and nothing changes."""
        bench.hear_file(audio)
        before = bench.events()
        twin = audio.with_name("copy.wav")
        twin.write_bytes(audio.read_bytes())
        with pytest.raises(RefusedError) as error:
            bench.hear_file(twin)
        assert (
            f"{twin}: this recording was already heard in job {bench.job_id} (as strip-down.wav). "
            "Nothing was changed; open another job to hear it again" == str(error.value)
        )
        assert before == bench.events()

    def test_a_recording_that_was_cut_off_is_heard_on(
        self, bench: Bench, store: MemoryStore, clock: Clock, audio: Path
    ) -> None:
        """After a stop in the middle, hearing it again adds what was missing and nothing twice."""

        def stop(done_s: float, _: float | None) -> None:
            if done_s > 5.5:
                raise KeyboardInterrupt

        with pytest.raises(KeyboardInterrupt):
            bench.hear_file(audio, progress=stop)
        assert len(texts(bench)) < len(SAID)
        again = Bench.resume(store, bench.job_id, clock=clock, listener=Player(*SAID))
        again.hear_file(audio)
        assert [text for _, _, text in SAID] == texts(again)

    def test_another_listener_that_cuts_elsewhere_loses_no_word(
        self, bench: Bench, store: MemoryStore, clock: Clock, audio: Path
    ) -> None:
        """Words after the place where hearing stopped are kept, though the utterance began before it."""

        def stop(done_s: float, _: float | None) -> None:
            if done_s > 3.5:
                raise KeyboardInterrupt

        with pytest.raises(KeyboardInterrupt):
            bench.hear_file(audio, progress=stop)
        longer = ((1.0, 5.0, "float height is eighteen point four two strainer is clean"), SAID[2])
        again = Bench.resume(store, bench.job_id, clock=clock, listener=Player(*longer))
        again.hear_file(audio)
        assert [SAID[0][2], longer[0][2], SAID[2][2]] == texts(again)

    def test_not_audio_leaves_no_trace(self, bench: Bench, tmp_path: Path) -> None:
        """A text file named .wav is told, and neither event nor file is kept."""
        path = tmp_path / "notes.wav"
        path.write_text("these are not the samples you look for " * 100)
        before = bench.events()
        with pytest.raises(AudioError, match=r"notes\.wav"):
            bench.hear_file(path)
        assert before == bench.events()


class TestLive:
    """The microphone."""

    def test_kept_as_it_comes(self, bench: Bench, store: MemoryStore) -> None:
        """Samples are on disk before the words, and end as a WAV file that the utterances name."""
        second = np.full(SAMPLE_RATE_HZ, 0.25, np.float32)
        for _ in range(6):
            bench.hear(second)
        (open_one,) = recordings(bench)
        assert open_one.duration_s is None
        assert len(store.media.journal_wav(open_one.sha256) or b"") == 44 + 6 * 2 * SAMPLE_RATE_HZ
        bench.finish_hearing()
        closed = recordings(bench)[-1]
        assert (6.0, open_one.sha256) == (closed.duration_s, closed.recording)
        samples, rate_hz = sf.read(io.BytesIO(store.media.read(closed.sha256)))
        assert (6 * SAMPLE_RATE_HZ, SAMPLE_RATE_HZ) == (len(samples), rate_hz)
        assert [text for _, _, text in SAID[:2]] == texts(bench)

    def test_the_clip_can_be_played_while_recording(self, bench: Bench) -> None:
        """An item said a moment ago has its clip before the recording ends."""
        second = np.full(SAMPLE_RATE_HZ, 0.25, np.float32)
        for _ in range(5):
            bench.hear(second)
        item = bench.record().readings[0]
        live, _ = sf.read(io.BytesIO(bench.clip_wav(item.id)))
        bench.finish_hearing()
        after, _ = sf.read(io.BytesIO(bench.clip_wav(item.id)))
        assert len(live) > SAMPLE_RATE_HZ
        assert np.array_equal(live, after[: len(live)])

    def test_a_crash_loses_no_audio(self, store: MemoryStore, sheet: Sheet, clock: Clock) -> None:
        """A recording whose process died is taken in, and what was not yet heard is heard."""
        bench = Bench.open(store, sheet, clock=clock, listener=Player(*SAID))
        pid = os.fork()
        if pid == 0:
            ears = bench._listening()
            recording = ears.begin()
            ears.keep_begun(recording)
            for _ in range(9):
                recording.write(np.zeros(SAMPLE_RATE_HZ, np.float32))
            os.kill(os.getpid(), signal.SIGKILL)
        os.waitpid(pid, 0)
        again = Bench.resume(store, bench.job_id, clock=clock, listener=Player(*SAID))
        again.hear_rest()
        assert [text for _, _, text in SAID] == texts(again)


class TestClip:
    """From an item back to its sound."""

    def test_the_stretch_in_which_it_was_said(self, bench: Bench, audio: Path) -> None:
        """The clip begins two seconds before the words, or at the start, and ends one after."""
        bench.hear_file(audio)
        item = bench.record().readings[0]
        assert item.start_s is not None
        assert item.end_s is not None
        samples, rate_hz = sf.read(io.BytesIO(bench.clip_wav(item.id, before_s=0.5, after_s=0.25)))
        assert SAMPLE_RATE_HZ == rate_hz
        # The tone's value at a moment is the moment / 20.
        assert pytest.approx(item.start_s - 0.5, abs=0.01) == samples[0] * 20
        assert pytest.approx(item.end_s + 0.25, abs=0.01) == samples[-1] * 20

    def test_typed_words_have_none(self, bench: Bench) -> None:
        """What was typed has no clip, and says so."""
        bench.say("float height is eighteen point four two")
        with pytest.raises(NotFoundError, match="there is no recording of this item"):
            bench.clip_wav(bench.record().readings[0].id)


def test_what_a_crash_left_is_taken_in_by_hearing_only(
    store: MemoryStore, sheet: Sheet, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A job with a recording cut off can be read while the disk is full."""
    bench = Bench.open(store, sheet, clock=clock, listener=Player(*SAID))
    bench.hear(np.zeros(SAMPLE_RATE_HZ, np.float32))

    def full(*_: object) -> tuple[()]:
        raise DiskFullError("the disk is full")

    monkeypatch.setattr(type(store.media), "adopt_journals", full)
    again = Bench.resume(store, bench.job_id, clock=clock, listener=Player(*SAID))
    assert () == again.record().readings
    with pytest.raises(DiskFullError):
        again.hear_rest()
    bench.finish_hearing()
