"""Recordings: kept first, then heard, then understood; and the clip behind any item."""

from __future__ import annotations

import hashlib
import io
import wave
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from saywright.errors import NotFoundError, RefusedError
from saywright.hearing.audio import pcm16, read_audio, read_span, wav_bytes
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.recorded import recorded
from saywright.hearing.words import Utterance
from saywright.record.events import AudioAdded, Heard
from saywright.store.media import wav_bytes as pcm_as_wav
from saywright.store.protocol import Journal
from saywright.understanding.statements import Statement
from saywright.wiring.heard import TAIL_S, HeardSpans
from saywright.wiring.log import MACHINE, JobLog
from saywright.wiring.understanding import Understander

Said = tuple[Statement, ...]
Progress = Callable[[float, float | None], None]  # seconds done, seconds in all (None: not known)


@dataclass(frozen=True, slots=True)
class Recording:
    """A recording in progress."""

    journal: Journal
    added: AudioAdded  # as told to the log when it began

    @property
    def key(self) -> str:
        """What utterances name as their media."""
        return self.journal.recording

    def write(self, samples: Samples) -> None:
        """Put a stretch on disk."""
        self.journal.write(pcm16(samples))


class Ears:
    """Hears into one job."""

    def __init__(self, log: JobLog, understander: Callable[[], Understander], listener: Listener) -> None:
        """*understander* is asked for late, since building it takes time."""
        self._log = log
        self._understander = understander
        self.listener = listener
        self._heard = HeardSpans(log)
        self._recording: Recording | None = None  # of `hear`

    def hear_file(self, path: Path, progress: Progress | None) -> list[Utterance]:
        """Keep the file, then hear it to its end.

        A file that was heard before is refused; one that was cut off is heard on from there.
        """
        read_audio(path)  # what is no audio is refused before anything is kept
        sha256 = self._log.media.put_file(path)
        self._log.refresh()
        known = next((added for added in self._log.recordings() if added.sha256 == sha256), None)
        if known is not None and known.duration_s is not None:
            raise RefusedError(
                f"this recording was already heard in job {self._log.job_id} (as {known.name})",
                where=str(path),
                to_do="Nothing was changed; open another job to hear it again",
            )
        added = known or AudioAdded(sha256=sha256, name=path.name)
        if known is None:
            self._log.keep(added)
        return self._hear_rest(added, progress)

    def hear_rest(self, progress: Progress | None) -> list[Utterance]:
        """Hear on whatever was cut off."""
        adopt(self._log)
        heard: list[Utterance] = []
        for added in self._log.recordings():
            if added.duration_s is None and added.sha256 != added.recording:
                heard += self._hear_rest(added, progress)
        return heard

    def _hear_rest(self, added: AudioAdded, progress: Progress | None) -> list[Utterance]:
        """Hear it to its end. What was heard before is cut again, and not worked out again."""
        key = added.recording or added.sha256
        done_s = self._heard.end_s(key)
        wordless: list[float] = []

        def known(start_s: float, end_s: float) -> bool:
            heard = self._heard.has(key, (start_s, end_s))
            # What lies before the last words kept was worked out then, also where nothing came of it.
            before = start_s < done_s and end_s < done_s + TAIL_S
            if before and not heard:
                wordless.append(start_s)
            return heard or before

        found: list[Utterance] = []
        seconds = 0.0
        audio = read_audio(self._log.media.path(added.sha256))
        reader = recorded(self.listener, known)
        try:
            for block in audio.blocks():
                seconds += len(block) / SAMPLE_RATE_HZ
                found += self._take(reader.feed(block), key)
                if progress:
                    progress(seconds, audio.duration_s)
            found += self._take(reader.finish(), key)
        finally:
            reader.drop()
        told = {"duration_s": round(seconds, 3), "wordless": _rounded([*wordless, *reader.wordless])}
        self._log.keep(added.model_copy(update=told))
        return found

    def _take(self, utterances: list[Utterance], key: str) -> list[Utterance]:
        """Keep and understand those that no other process put on record meanwhile."""
        found = []
        for utterance in utterances:
            if self._heard.has(key, utterance.span):
                continue
            named = utterance.model_copy(update={"media": key})
            self._understander().take(named, actor=MACHINE)
            found.append(named)
        return found

    def begin(self) -> Recording:
        """A new recording, on disk from now on; `keep_begun` puts it into the log. From any thread."""
        started_at = self._log.now()
        key = hashlib.sha256(f"{self._log.job_id} {started_at.isoformat()}".encode()).hexdigest()
        journal = self._log.media.start_journal(self._log.job_id, key, rate_hz=SAMPLE_RATE_HZ)
        name = f"microphone {started_at:%Y-%m-%d %H:%M:%S}"
        return Recording(journal, AudioAdded(sha256=key, recording=key, name=name, started_at=started_at))

    def keep_begun(self, recording: Recording) -> None:
        """The recording into the log, before its first word."""
        self._log.keep(recording.added)

    def hear(self, samples: Samples) -> list[Utterance]:
        """The next stretch from a microphone: on disk first, then to the listener; what ended in it."""
        if self._recording is None:
            self._recording = self.begin()
            self.keep_begun(self._recording)
        self._recording.write(samples)
        return self._take(self.listener.feed(samples), self._recording.key)

    def finish(self) -> list[Utterance]:
        """No more comes through `hear`: the last utterances, and the recording into the media store."""
        recording, self._recording = self._recording, None
        if recording is None:
            return []
        found = self._take(self.listener.finish(), recording.key)
        self.close(recording, heard=True)
        return found

    def take_live(self, utterance: Utterance, recording: Recording) -> tuple[Utterance, int, Said] | None:
        """Keep and understand an utterance of a recording in progress; None where it is on record already."""
        if self._heard.has(recording.key, utterance.span):
            return None
        named = utterance.model_copy(update={"media": recording.key})
        return named, *self._understander().keep(named, actor=MACHINE)

    @property
    def paused(self) -> bool:
        """True where a pause by voice is on record and no word to go on after it."""
        return self._understander().paused

    def preview(self, utterance: Utterance) -> Said:
        """What it would be understood as."""
        return self._understander().preview(utterance)

    def keep_words(self, utterance: Utterance) -> tuple[int, Said]:
        """Keep and understand words that are in no recording; the sequence number of their event."""
        return self._understander().keep(utterance, actor=MACHINE)

    def close(self, recording: Recording, *, heard: bool, wordless: Sequence[float] = ()) -> None:
        """The recording into the media store. Where not all of it was *heard*, `hear_rest` hears on."""
        sha256, seconds = recording.journal.finish()
        told = {"sha256": sha256, "duration_s": round(seconds, 3), "wordless": _rounded(wordless)}
        self._log.keep(recording.added.model_copy(update=told if heard else {"sha256": sha256}))
        self._log.media.drop_journal(recording.key)


def _rounded(moments_s: Sequence[float]) -> tuple[float, ...]:
    """In order, to the hundredth."""
    return tuple(round(moment_s, 2) for moment_s in sorted(moments_s))


def adopt(log: JobLog) -> None:
    """Take recordings that a crash cut off into the media store; they are heard on by `hear_rest`."""
    for left in log.media.adopt_journals(log.job_id):
        try:
            known = log.recording(left.recording)
        except NotFoundError:
            known = AudioAdded(sha256=left.recording, recording=left.recording, name="microphone")
        if known.sha256 == left.recording:
            log.keep(known.model_copy(update={"sha256": left.sha256}))
        log.media.drop_journal(left.recording)


def clip(log: JobLog, item_id: str, *, before_s: float, after_s: float) -> bytes:
    """The stretch of audio in which the item was said, as a WAV file.

    NotFoundError where it was not said into a recording.
    """
    item = log.folder.item(item_id)
    heard = next((e.payload for e in log.events if e.seq == item.utterance), None)
    if not isinstance(heard, Heard) or heard.utterance.media is None:
        raise NotFoundError(
            "there is no recording of this item", where=item_id, to_do="It was typed, not heard"
        )
    utterance = heard.utterance
    start_s = item.start_s if item.start_s is not None else utterance.start_s or 0.0
    end_s = item.end_s if item.end_s is not None else utterance.end_s or start_s
    added = log.recording(utterance.media or "")
    first_s, last_s = max(0.0, start_s - before_s), end_s + after_s
    if added.sha256 != added.recording:
        return wav_bytes(read_span(log.media.path(added.sha256), first_s, last_s))
    wav = log.media.journal_wav(added.sha256)
    if wav is None:
        raise NotFoundError("the recording is gone", where=item_id, to_do="Restore the media folder")
    with wave.open(io.BytesIO(wav)) as recorded:
        rate_hz = recorded.getframerate()
        recorded.setpos(min(recorded.getnframes(), round(first_s * rate_hz)))
        return pcm_as_wav(recorded.readframes(round((last_s - first_s) * rate_hz)), rate_hz)
