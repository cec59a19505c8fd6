"""Live hearing of whole utterances at two speeds.

What will be cut out of the sound is known 0.22 s after the last speech: the utterance's post-roll
is then complete. It is recognised at once, beside the sound that goes on. If nobody spoke on by
0.5 s the result is told as provisional, and by 0.9 s the very same result has settled. So one
recognition serves both. If somebody speaks on, the result is dropped.

A recording is cut with 0.3 s of post-roll. The 0.07 s less are what brings the provisional words
below 0.7 s on two cores. They changed the words of 8 of 66 made clips, all of them at 5 dB of noise,
in reverb or over the telephone; none clean or at 15 dB.

While somebody speaks the words so far are looked at now and then, if the recogniser has nothing
else to do. A look begins only in the midst of speech, so that it is over before the end is due.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import replace
from typing import Protocol

from saywright.hearing.adapters.decoding import Decoder, Job, Sketched
from saywright.hearing.adapters.silero import SpeechDetector
from saywright.hearing.cutting import FRAME_S, CutSettings, Cutter, Framer, Piece
from saywright.hearing.feed import Partial, Provisional
from saywright.hearing.follow import Told
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Hypothesis, Utterance

PROVISIONAL_S = 0.5  # of silence, and an utterance seems to have ended
SETTLED_S = 0.9  # of silence, and it has
POST_ROLL_S = 0.22  # kept after the last speech
_LOOK_EVERY_S = 1.0  # of speech, between looks at the words so far …
_LOOK_SHARE = 0.2  # … and no more of the time than this is spent on them,
_SLOW_SHARE = 0.05  # where they take so long that one could hold up the end


class Cutting(Protocol):
    """What it takes: a listener of whole utterances."""

    name: str

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]: ...

    def sketch(self, samples: Samples, wanted: Callable[[], bool]) -> str: ...


class CutFollower:
    """A `Follower` over such a listener."""

    def __init__(
        self, listener: Cutting, detector: SpeechDetector, settings: CutSettings, wake: Callable[[], None]
    ) -> None:
        """*detector* is its own until it is finished or dropped."""
        self._name = listener.name
        self._framer = Framer()
        self._detector = detector
        settings = replace(
            settings,
            hangover_s=max(SETTLED_S, settings.hangover_s),
            post_roll_s=min(POST_ROLL_S, settings.post_roll_s),
        )
        self._cutter = Cutter(settings)
        self._post_s = round(settings.post_roll_s / FRAME_S) * FRAME_S
        self._decoder = Decoder(listener.recognise, listener.sketch, wake)
        self._ended: deque[Job] = deque()  # utterances that have ended, in order, not yet told
        self._seeming: Job | None = None  # the open utterance, should it have ended
        self._shown: Utterance | None = None  # told as provisional, still open
        self._look: Sketched | None = None
        self._looked_samples = 0  # length of the open utterance at the last look
        self._look_every = _LOOK_EVERY_S
        self._words = ""  # last told as partial and not yet replaced
        self._wordless: list[float] = []  # starts in seconds
        detector.reset()

    @property
    def wordless(self) -> tuple[float, ...]:
        """Starts in seconds of what sounded like speech and gave no words, clicks too."""
        return tuple(sorted([*self._wordless, *self._cutter.clicks]))

    def feed(self, samples: Samples) -> list[Told]:
        """The next stretch; what is new since."""
        went_on = [self._step(frame) for frame in self._framer.push(samples)]
        told = self._fetch()
        return [*[Partial(words) for words in went_on if words is not None], *told]

    def finish(self) -> list[Told]:
        """What was still open or worked out."""
        frames, total = self._framer.flush()
        for frame in frames:
            self._step(frame)
        piece = self._cutter.flush(total)
        if piece is not None:
            self._close(piece)
        for job in self._ended:
            self._decoder.wait(job)
        told = self._fetch()
        self.drop()
        return told

    def drop(self) -> None:
        """No more is wanted."""
        self._decoder.close()
        self._detector.reset()

    def _step(self, frame: Samples) -> str | None:
        """One frame; the words of a provisional utterance that goes on after all."""
        piece = self._cutter.push(frame, self._detector.probability(frame))
        silent_s = self._cutter.silent_s
        if piece is not None:
            self._close(piece)
        elif silent_s is None:
            self._forget()  # a click
        elif silent_s == 0:
            return self._spoken()
        elif self._seeming is None and silent_s >= self._post_s - 1e-9:
            seeming = self._cutter.seeming()
            self._seeming = self._decoder.recognise(seeming) if seeming is not None else None
        return None

    def _spoken(self) -> str | None:
        """A frame of speech in the open utterance."""
        shown = self._shown
        self._forget()
        samples = self._cutter.open_samples()
        if len(samples) - self._looked_samples >= self._look_every * SAMPLE_RATE_HZ:
            look = self._decoder.sketch(samples)
            if look is not None:
                self._look, self._looked_samples = look, len(samples)
        if shown is None:
            return None
        self._words = shown.best.text
        return self._words

    def _forget(self) -> None:
        """The utterance that seemed to have ended has not."""
        if self._seeming is not None:
            self._decoder.drop(self._seeming)
        self._seeming = self._shown = None

    def _close(self, piece: Piece) -> None:
        job = self._seeming
        if job is None or (job.piece.start_s, job.piece.end_s) != (piece.start_s, piece.end_s):
            self._forget()
            job = self._decoder.recognise(piece)
        self._ended.append(job)
        self._seeming = self._shown = self._look = None
        self._looked_samples = 0

    def _fetch(self) -> list[Told]:
        """What the recogniser has done since."""
        self._decoder.check()
        told: list[Told] = []
        while self._ended and self._ended[0].done:
            job = self._ended.popleft()
            utterance = self._utterance(job)
            if utterance is not None:
                told.append(utterance)
            else:
                self._wordless.append(job.piece.start_s)
                told += [Partial("")] if self._words else []
            self._words = ""
        return [*told, *self._sketched(), *self._seems()]

    def _seems(self) -> list[Told]:
        job, silent_s = self._seeming, self._cutter.silent_s
        if job is None or not job.done or self._shown is not None or (silent_s or 0.0) < PROVISIONAL_S:
            return []
        self._shown = self._utterance(job)
        return [] if self._shown is None else [Provisional(self._shown)]

    def _sketched(self) -> list[Told]:
        look = self._look
        if look is None or not look.done:
            return []
        self._look = None
        share = _LOOK_SHARE if look.took_s < self._post_s else _SLOW_SHARE
        self._look_every = max(_LOOK_EVERY_S, look.took_s / share)
        if self._shown is not None or look.words in ("", self._words):
            return []
        self._words = look.words
        return [Partial(look.words)]

    def _utterance(self, job: Job) -> Utterance | None:
        if not job.hypotheses:
            return None
        return Utterance(
            hypotheses=job.hypotheses,
            start_s=job.piece.start_s,
            end_s=job.piece.end_s,
            listener=self._name,
        )
