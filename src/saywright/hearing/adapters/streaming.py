"""Live hearing with an engine that gives words as they stream, at two speeds.

At 0.5 s of silence the words so far are told as provisional, without alternatives and without
times, as the engine has those only at the end. The engine ends an utterance by its own rules, as in
a recording; where it has not by 0.9 s of silence it is made to.
"""

from __future__ import annotations

from typing import Protocol

from saywright.hearing.adapters.following import PROVISIONAL_S, SETTLED_S
from saywright.hearing.feed import Partial, Provisional
from saywright.hearing.follow import Told
from saywright.hearing.listener import Samples
from saywright.hearing.words import Hypothesis, Utterance, Word


class Streaming(Protocol):
    """What it takes: a listener that also tells of silence and can be made to end."""

    name: str

    @property
    def silent_s(self) -> float: ...

    def feed(self, samples: Samples) -> list[Utterance]: ...

    def partial(self) -> str: ...

    def end_now(self) -> list[Utterance]: ...

    def finish(self) -> list[Utterance]: ...


class StreamFollower:
    """A `Follower` over such a listener."""

    def __init__(self, listener: Streaming) -> None:
        self._listener = listener
        self._words = ""  # told and not yet replaced
        self._provisional = False  # those are
        self.wordless: tuple[float, ...] = ()  # such an engine does not tell

    def feed(self, samples: Samples) -> list[Told]:
        """What ended in this stretch; else the words so far where they changed or seem to have ended."""
        told: list[Told] = [*self._listener.feed(samples)]
        words, silent_s = self._listener.partial(), self._listener.silent_s
        if words and silent_s >= SETTLED_S:
            told += self._listener.end_now()
            words = self._listener.partial()
        if told:
            self._words, self._provisional = "", False
        if words and silent_s >= PROVISIONAL_S:
            if not self._provisional or words != self._words:
                told.append(Provisional(self._seeming(words)))
            self._words, self._provisional = words, True
        elif words != self._words or self._provisional:
            told.append(Partial(words))
            self._words, self._provisional = words, False
        return told

    def finish(self) -> list[Told]:
        """What was still open."""
        return [*self._listener.finish()]

    def drop(self) -> None:
        """Leave the listener ready for another recording."""
        self._listener.finish()

    def _seeming(self, words: str) -> Utterance:
        said = tuple(Word(text=text) for text in words.split())
        return Utterance(hypotheses=(Hypothesis(words=said, probability=1.0),), listener=self._listener.name)
