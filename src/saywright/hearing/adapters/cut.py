"""What listeners that hear one whole utterance at a time have in common: cut first, then recognise."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable

from saywright.hearing.adapters.following import CutFollower
from saywright.hearing.adapters.reading import CutReader
from saywright.hearing.adapters.silero import SpeechDetector
from saywright.hearing.cutting import CutSettings, Cutter, Framer, Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.recorded import Known
from saywright.hearing.words import Hypothesis, Utterance

_PARTIAL_EVERY_SAMPLES = SAMPLE_RATE_HZ  # words so far are worked out anew at most once a second of speech


def always() -> bool:
    return True


class CutListener(ABC):
    """Feeds a voice detector and a cutter; a subclass turns each piece into hypotheses."""

    name: str
    at_once = 1  # utterances that `recognise` may be given at a time, each in a thread of its own

    def __init__(self, settings: CutSettings | None = None) -> None:
        self._framer = Framer()
        self._detector = SpeechDetector()
        self._cutter = Cutter(settings)
        self._partial_text = ""
        self._partial_samples = 0

    def feed(self, samples: Samples) -> list[Utterance]:
        """Take the next stretch of audio, any length; the utterances that ended in it."""
        return self._push(self._framer.push(samples))

    def follow(self, wake: Callable[[], None]) -> CutFollower:
        """A new recording, live. One at a time, and not while `feed` is used."""
        return CutFollower(self, self._detector, self._cutter.settings, wake)

    def recorded(self, known: Known) -> CutReader:
        """A new recording that is there already. One at a time, and not while `feed` is used."""
        return CutReader(
            self.recognise, self.name, self._detector, self._cutter.settings, known, at_once=self.at_once
        )

    def finish(self) -> list[Utterance]:
        """The utterance still open; afterwards a new recording begins."""
        frames, total = self._framer.flush()
        found = self._push(frames)
        piece = self._cutter.flush(total)
        self._cutter.clicks.clear()
        self._detector.reset()
        return found + (self._heard(piece) if piece is not None else [])

    def partial(self) -> str:
        """Words of the utterance being spoken, worked out when asked."""
        samples = self._cutter.open_samples()
        if not len(samples):
            self._partial_text, self._partial_samples = "", 0
        elif (
            not 0 <= len(samples) - self._partial_samples < _PARTIAL_EVERY_SAMPLES
            or not self._partial_samples
        ):
            self._partial_text, self._partial_samples = self.sketch(samples), len(samples)
        return self._partial_text

    def _push(self, frames: list[Samples]) -> list[Utterance]:
        found: list[Utterance] = []
        for frame in frames:
            piece = self._cutter.push(frame, self._detector.probability(frame))
            if piece is not None:
                found += self._heard(piece)
        return found

    def _heard(self, piece: Piece) -> list[Utterance]:
        hypotheses = self.recognise(piece)
        if not hypotheses:
            return []
        return [
            Utterance(hypotheses=hypotheses, start_s=piece.start_s, end_s=piece.end_s, listener=self.name)
        ]

    @abstractmethod
    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        """Best first, at most five, probabilities that sum to 1; empty where nothing was said."""

    @abstractmethod
    def sketch(self, samples: Samples, wanted: Callable[[], bool] = always) -> str:
        """A quick look at an unfinished utterance, (n_samples,): its words so far.

        *wanted* is asked on the way: where it is false, "" at once.
        """
