"""Samples as they are spoken → words that still change, words that seem to have ended, utterances.

A `Follower` hears one recording live. `feed` never waits for a recogniser: what takes long is done
beside it, and `wake` is called when there is something new to fetch with the next `feed`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, runtime_checkable

from saywright.hearing.feed import Partial, Provisional
from saywright.hearing.listener import Listener, Samples
from saywright.hearing.words import Utterance

Told = Partial | Provisional | Utterance  # an utterance has settled


class Follower(Protocol):
    """Hears one recording as it is spoken. Times are seconds from the first sample fed."""

    @property
    def wordless(self) -> tuple[float, ...]:
        """Starts in seconds of what sounded like speech and gave no words."""
        ...

    def feed(self, samples: Samples) -> list[Told]:
        """The next stretch, any length, also none; what is new. Utterances come in order, each once."""
        ...

    def finish(self) -> list[Told]:
        """No more audio: waits for what is still worked out. The follower is then done with."""
        ...

    def drop(self) -> None:
        """No more is wanted. The follower is then done with."""
        ...


@runtime_checkable
class Followable(Protocol):
    """A listener that can hear live."""

    def follow(self, wake: Callable[[], None]) -> Follower:
        """A new recording, live. *wake* is called from any thread when there is something to fetch."""
        ...


def follow(listener: Listener, wake: Callable[[], None]) -> Follower:
    """*listener* live; one that knows no other way tells of an utterance when it has ended."""
    return listener.follow(wake) if isinstance(listener, Followable) else PlainFollower(listener)


class PlainFollower:
    """Any listener, heard block by block."""

    def __init__(self, listener: Listener) -> None:
        self._listener = listener
        self._shown = ""
        self.wordless: tuple[float, ...] = ()

    def feed(self, samples: Samples) -> list[Told]:
        """What ended in this stretch, and the words of what goes on where they changed."""
        told: list[Told] = [*self._listener.feed(samples)]
        words = self._listener.partial()
        if told:
            self._shown = ""
        if words != self._shown:
            told.append(Partial(words))
            self._shown = words
        return told

    def finish(self) -> list[Told]:
        """What was still open."""
        return [*self._listener.finish()]

    def drop(self) -> None:
        """Leave the listener ready for another recording."""
        self._listener.finish()
