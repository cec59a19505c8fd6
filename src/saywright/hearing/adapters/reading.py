"""A recording that is there already, for listeners of whole utterances: cut once, worked out side by side.

The cutter runs ahead, its pieces are recognised *at_once* at a time, and what they gave is handed
on in the order in which it was said. Each piece is recognised by itself, so the words are the same
however many are worked on at a time. The cutter stops a few pieces ahead: memory does not grow.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor

from saywright.hearing.adapters.silero import SpeechDetector
from saywright.hearing.cutting import CutSettings, Cutter, Framer, Piece
from saywright.hearing.listener import Samples
from saywright.hearing.recorded import Known
from saywright.hearing.words import Hypothesis, Utterance

Recognise = Callable[[Piece], tuple[Hypothesis, ...]]

_AHEAD = 3  # pieces cut for each that is worked on


class CutReader:
    """A `Reader` over such a listener."""

    def __init__(
        self,
        recognise: Recognise,
        name: str,
        detector: SpeechDetector,
        settings: CutSettings,
        known: Known,
        *,
        at_once: int,
    ) -> None:
        """*recognise* is called from *at_once* threads; *detector* is its own until it is done with."""
        self._recognise = recognise
        self._name = name
        self._framer = Framer()
        self._detector = detector
        self._cutter = Cutter(settings)
        self._known = known
        self._most = at_once * _AHEAD
        self._pool = ThreadPoolExecutor(at_once, thread_name_prefix="recogniser")
        self._begun: deque[tuple[Piece, Future[tuple[Hypothesis, ...]]]] = deque()
        self._wordless: list[float] = []
        detector.reset()

    @property
    def wordless(self) -> tuple[float, ...]:
        """Starts in seconds of what sounded like speech and gave no words, clicks too."""
        return tuple(sorted([*self._wordless, *self._cutter.clicks]))

    def feed(self, samples: Samples) -> list[Utterance]:
        """The next stretch; what is done."""
        found: list[Utterance] = []
        for frame in self._framer.push(samples):
            self._begin(self._cutter.push(frame, self._detector.probability(frame)))
            while len(self._begun) > self._most:
                found += self._next()
        while self._begun and self._begun[0][1].done():
            found += self._next()
        return found

    def finish(self) -> list[Utterance]:
        """What was still open or worked on."""
        found: list[Utterance] = []
        frames, total = self._framer.flush()
        for frame in frames:
            self._begin(self._cutter.push(frame, self._detector.probability(frame)))
        self._begin(self._cutter.flush(total))
        while self._begun:
            found += self._next()
        self.drop()
        return found

    def drop(self) -> None:
        """No more is wanted; what is worked on is left to end."""
        self._begun.clear()
        self._pool.shutdown(cancel_futures=True)
        self._detector.reset()

    def _begin(self, piece: Piece | None) -> None:
        if piece is not None and not self._known(piece.start_s, piece.end_s):
            self._begun.append((piece, self._pool.submit(self._recognise, piece)))

    def _next(self) -> list[Utterance]:
        """What the oldest piece gave; waits for it."""
        piece, given = self._begun.popleft()
        hypotheses = given.result()
        if not hypotheses:
            self._wordless.append(piece.start_s)
            return []
        return [
            Utterance(hypotheses=hypotheses, start_s=piece.start_s, end_s=piece.end_s, listener=self._name)
        ]
