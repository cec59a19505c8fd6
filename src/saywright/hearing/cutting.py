"""Samples → spans: where one utterance ends and the next begins.

Pure: it is given frames of audio together with the probability that each holds speech, and
keeps no more than the utterance that is open. The figures were chosen by measurement: with
0.8 s of hangover a hesitation inside a reading seldom cuts it in two, and with 0.3 s of
pre-roll no first sound is clipped, as a voice detector fires up to 0.2 s late.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

FRAME_SAMPLES = 512
FRAME_S = FRAME_SAMPLES / SAMPLE_RATE_HZ  # 0.032


@dataclass(frozen=True, slots=True)
class CutSettings:
    """When speech begins and ends."""

    on: float = 0.5  # probability from which a frame is speech
    off: float = 0.35  # below it a frame is silence; in between it stays what it was
    hangover_s: float = 0.8  # silence that ends an utterance
    pre_roll_s: float = 0.3  # kept before the first speech frame
    post_roll_s: float = 0.3  # kept after the last speech frame; pre- and post-roll never overlap
    min_speech_s: float = 0.09  # less speech than this is a click
    max_s: float = 25.0  # an open utterance is cut when it gets this long
    search_s: float = 10.0  # … at the quietest place of its last 10 s


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One utterance's audio. Times are seconds from the start of the recording."""

    samples: Samples  # (n_samples,) float32 mono, −1…1, 16 kHz
    start_s: float  # of the samples
    end_s: float
    speech_start_s: float  # first and last moment at which the detector heard speech
    speech_end_s: float


@dataclass(slots=True)
class _Frame:
    samples: Samples  # (512,)
    probability: float  # 0…1
    speech: bool


class Cutter:
    """Frames in, finished utterances out. Times count from the first frame after `flush`."""

    def __init__(self, settings: CutSettings | None = None) -> None:
        self.settings = settings or CutSettings()
        self._hangover = _frames(self.settings.hangover_s)
        self._pre = _frames(self.settings.pre_roll_s)
        self._post = _frames(self.settings.post_roll_s)
        self._min = max(1, _frames(self.settings.min_speech_s))
        self._max = _frames(self.settings.max_s)
        self._search = _frames(self.settings.search_s)
        self.clicks: list[
            float
        ] = []  # starts in seconds of what was too short for speech; the owner's to empty
        self._reset()

    def _reset(self) -> None:
        self._held: list[_Frame] = []  # pre-roll while silent, else the open utterance
        self._first = 0  # number of the first frame held
        self._open = False
        self._silent = 0  # frames since the last speech frame

    def push(self, samples: Samples, probability: float) -> Piece | None:
        """Take a frame, (512,) float32, and its speech probability 0…1; the utterance that ended with it."""
        limit = self.settings.off if self._open and self._silent == 0 else self.settings.on
        speech = probability >= limit
        self._held.append(_Frame(samples, probability, speech))
        if not self._open:
            if speech:
                self._open, self._silent = True, 0
            else:
                self._drop(len(self._held) - self._pre)
            return None
        self._silent = 0 if speech else self._silent + 1
        if self._silent >= self._hangover:
            return self._close()
        if len(self._held) >= self._max:
            return self._cut_long()
        return None

    def flush(self, total_samples: int | None = None) -> Piece | None:
        """No more frames: the utterance still open.

        *total_samples* is the true length of the recording, where the last frame was filled up.
        """
        piece = self._close() if self._open else None
        self._reset()
        if piece is None or total_samples is None:
            return piece
        total_s = total_samples / SAMPLE_RATE_HZ
        if piece.end_s <= total_s:
            return piece
        keep = max(1, total_samples - round(piece.start_s * SAMPLE_RATE_HZ))
        return Piece(
            piece.samples[:keep],
            piece.start_s,
            total_s,
            min(piece.speech_start_s, total_s),
            min(piece.speech_end_s, total_s),
        )

    @property
    def silent_s(self) -> float | None:
        """How long the open utterance has been silent; None where none is open."""
        return self._silent * FRAME_S if self._open else None

    def seeming(self) -> Piece | None:
        """The open utterance as it will be cut if no more speech comes.

        That is known for sure from the end of its post-roll on, well before the hangover is over.
        """
        return self._piece(self._upto()) if self._open else None

    def open_samples(self) -> Samples:
        """Audio of the utterance being spoken, (n_samples,); empty where nobody speaks."""
        if not self._open:
            return np.zeros(0, dtype=np.float32)
        return np.concatenate([frame.samples for frame in self._held])

    def _drop(self, count: int) -> None:
        if count > 0:
            del self._held[:count]
            self._first += count

    def _close(self) -> Piece | None:
        """End the open utterance; what follows its post-roll stays held as the next one's pre-roll."""
        upto = self._upto()
        piece = self._piece(upto)
        if piece is None:
            self.clicks.append(self._first * FRAME_S)
        keep = min(self._pre, len(self._held) - upto)
        self._drop(len(self._held) - keep)
        self._open, self._silent = False, 0
        return piece

    def _upto(self) -> int:
        """Frames held up to the end of the post-roll."""
        last = max(i for i, frame in enumerate(self._held) if frame.speech)
        return min(len(self._held), last + 1 + self._post)

    def _cut_long(self) -> Piece | None:
        """Cut where it is quietest, so that an hour of noise never grows; the rest stays open."""
        window = self._held[-self._search : -1]
        quiet = [
            (round(frame.probability, 2), float(np.abs(frame.samples).mean()), -i)
            for i, frame in enumerate(window)
        ]
        at = len(self._held) - 1 - len(window) + (-min(quiet)[2]) + 1
        piece = self._piece(at)
        self._drop(at)
        if not any(frame.speech for frame in self._held):
            self._open, self._silent = False, 0
            self._drop(len(self._held) - self._pre)
        return piece

    def _piece(self, count: int) -> Piece | None:
        """The first *count* frames held as a piece; None where they hold no more speech than a click."""
        frames = self._held[:count]
        spoken = [i for i, frame in enumerate(frames) if frame.speech]
        if len(spoken) < self._min:
            return None
        return Piece(
            samples=np.concatenate([frame.samples for frame in frames]),
            start_s=self._first * FRAME_S,
            end_s=(self._first + count) * FRAME_S,
            speech_start_s=(self._first + spoken[0]) * FRAME_S,
            speech_end_s=(self._first + spoken[-1] + 1) * FRAME_S,
        )


def _frames(seconds: float) -> int:
    return round(seconds / FRAME_S)


class Framer:
    """Blocks of any length in, frames of 512 samples out; so that nothing depends on the block size."""

    def __init__(self) -> None:
        self.total_samples = 0
        self._rest: npt.NDArray[np.float32] = np.zeros(0, dtype=np.float32)

    def push(self, samples: Samples) -> list[Samples]:
        """The frames that *samples*, (n_samples,), complete."""
        self.total_samples += len(samples)
        joined = np.concatenate([self._rest, np.asarray(samples, dtype=np.float32)])
        count = len(joined) // FRAME_SAMPLES
        self._rest = joined[count * FRAME_SAMPLES :].copy()
        return list(joined[: count * FRAME_SAMPLES].reshape(count, FRAME_SAMPLES))

    def flush(self) -> tuple[list[Samples], int]:
        """The last frame, filled up with silence, and how many samples were fed; then it starts anew."""
        rest, total = self._rest, self.total_samples
        self._rest, self.total_samples = np.zeros(0, dtype=np.float32), 0
        if not len(rest):
            return [], total
        return [np.pad(rest, (0, FRAME_SAMPLES - len(rest))).astype(np.float32)], total
