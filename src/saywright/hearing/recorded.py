"""A recording that is there already → its utterances, in order, several worked out at a time.

A `Reader` hears one recording from its first sample. What is known from an earlier run is passed
over without being worked out again, so that hours that were cut off are heard on in minutes.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, runtime_checkable

from saywright.hearing.listener import Listener, Samples
from saywright.hearing.words import Utterance

Known = Callable[[float, float], bool]  # (start, end) in seconds: was that stretch heard before


class Reader(Protocol):
    """Hears one recording. Times are seconds from the first sample fed."""

    @property
    def wordless(self) -> tuple[float, ...]:
        """Starts in seconds of what sounded like speech and gave no words, as far as it got."""
        ...

    def feed(self, samples: Samples) -> list[Utterance]:
        """The next stretch, any length; what is done. Waits where it has got too far ahead."""
        ...

    def finish(self) -> list[Utterance]:
        """No more audio: waits for what is still worked out. The reader is then done with."""
        ...

    def drop(self) -> None:
        """No more is wanted. Does nothing to a reader that is done with."""
        ...


@runtime_checkable
class Recorded(Protocol):
    """A listener that can do better than hear block by block."""

    def recorded(self, known: Known) -> Reader:
        """A new recording. *known* is asked about each stretch before it is worked out."""
        ...


def recorded(listener: Listener, known: Known) -> Reader:
    """*listener* over a whole recording; one that knows no better way hears what is known again."""
    return listener.recorded(known) if isinstance(listener, Recorded) else PlainReader(listener, known)


class PlainReader:
    """Any listener, block by block."""

    def __init__(self, listener: Listener, known: Known) -> None:
        self._listener = listener
        self._known = known
        self._over = False
        self.wordless: tuple[float, ...] = ()

    def feed(self, samples: Samples) -> list[Utterance]:
        """What ended in this stretch."""
        return self._new(self._listener.feed(samples))

    def finish(self) -> list[Utterance]:
        """What was still open."""
        self._over = True
        return self._new(self._listener.finish())

    def drop(self) -> None:
        """Leave the listener ready for another recording."""
        if not self._over:
            self._over = True
            self._listener.finish()

    def _new(self, utterances: list[Utterance]) -> list[Utterance]:
        return [one for one in utterances if not self._known(*one.span)]
