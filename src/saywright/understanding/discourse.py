"""What is known from the talk so far: the stage, the part in hand, what waits to be completed.

Never changed: understanding an utterance gives the next state. Its size is bounded by the sheet,
so that the ten-thousandth utterance costs what the tenth did.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from dataclasses import field, replace
from types import MappingProxyType

from saywright.sheets.model import Stage
from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.statements import Reading, Statement

_REMEMBERED = 12  # utterances that a correction can reach back over

# Component, which, characteristic; at a named place the characteristic is as in a formula: "bore@top".
ReadingKey = tuple[str, str | None, str]


def reading_key(reading: Reading) -> ReadingKey:
    """What *reading* is a value of."""
    return placed_key((reading.component, reading.which, reading.characteristic), reading.place)


def placed_key(key: ReadingKey, place: str | None) -> ReadingKey:
    """*key* at a named place; None: the key itself."""
    return key if place is None else (key[0], key[1], f"{key[2]}@{place}")


@fixed
class Mentioned:
    """A part named in talk that is kept aside."""

    component: str
    which: str | None
    elsewhere: bool = False  # one of another job: gone on about by "ours", "this one" alone


@fixed
class Hand:
    """The part that was last spoken of."""

    component: str
    which: str | None
    utterance: int  # index of the utterance in which it was named
    side: str | None = None  # a position that what follows is on, until another is named
    side_at: int = 0  # index of the utterance in which that was last said
    turned_to: str | None = None  # the side that was said to come now: "now the left one"
    row: str | None = None  # of two rows of parts the one worked on, "inlet"; or an end, "pump" of its cover
    side_left: str | None = None  # the side that is done with, until one is turned to: "that's the left done"

    @property
    def side_words(self) -> frozenset[str]:
        """The words of the side, and of the position of the part in hand."""
        return frozenset(f"{self.side or ''} {self.which or ''}".split()) if self.side else frozenset()

    @property
    def turned(self) -> bool:
        """The side was turned to; else only the part named last was on it."""
        return self.side is not None and self.side == self.turned_to


@fixed
class OpenNumber:
    """A number at the very end of an utterance; the next one may go on with it."""

    words: tuple[str, ...]  # its tokens
    reading: str | None  # id of the reading or unclear item made from it
    component: str | None
    which: str | None
    characteristic: str | None
    utterance: int
    end_s: float | None
    heard: str  # words of the statement it belongs to
    start_s: float | None


@fixed
class Counting:
    """Turns being counted aloud over several utterances."""

    component: str | None
    which: str | None
    count: str | None  # reached so far, as a value; None before the first
    heard: str  # the words so far
    start_s: float | None
    utterance: int
    reading: str | None = None  # id of the reading made from the count so far, where one was


@fixed
class Step:
    """What one utterance changed, so that it can be undone: what it gave, and how things stood before."""

    given: frozenset[str]  # ids of its statements, remarks aside
    replaced: frozenset[str]  # ids of earlier statements that it replaced
    stage: Stage
    turned: bool  # it changed the stage, or went on with a count
    counting: Counting | None
    first: Mapping[tuple[ReadingKey, Stage], Reading]
    latest: Mapping[tuple[ReadingKey, Stage], Reading]
    seen: frozenset[tuple[str | None, str | None, str, bool]]
    off: Mapping[str, int]
    refitted: frozenset[tuple[str, str | None]] = frozenset()
    came_off: frozenset[tuple[str, str | None]] = frozenset()
    planned: frozenset[tuple[str, str | None, str]] = frozenset()


@fixed
class Discourse:
    """State between utterances. A fresh one begins a job."""

    next_number: int = 1
    utterances: int = 0
    stage: Stage = "as_found"
    hand: Hand | None = None
    awaited: CharacteristicKey | None = None  # a characteristic named without its value
    awaited_at: int = 0
    # of the last utterance, all of which is kept aside
    mentioned: Mentioned | None = None
    place: str | None = None  # a place named at the very end, without its value
    open_number: OpenNumber | None = None
    counting: Counting | None = None
    recent: tuple[tuple[Statement, ...], ...] = ()  # statements of the last utterances, newest last
    first: Mapping[tuple[ReadingKey, Stage], Reading] = field(default_factory=lambda: MappingProxyType({}))
    latest: Mapping[tuple[ReadingKey, Stage], Reading] = field(default_factory=lambda: MappingProxyType({}))
    gone: frozenset[str] = frozenset()  # ids superseded among the remembered ones
    seen: frozenset[tuple[str | None, str | None, str, bool]] = frozenset()  # conditions on record
    off: Mapping[str, int] = field(
        default_factory=lambda: MappingProxyType({})
    )  # component → how many are off
    refitted: frozenset[tuple[str, str | None]] = frozenset()  # parts back on while the rest comes apart
    came_off: frozenset[tuple[str, str | None]] = frozenset()  # parts that were off at some time
    last_side: str | None = None  # the side, or the place of the part, that was told last
    order: tuple[str, ...] = ()  # of a row of places, as it was told or they were worked on
    planned: frozenset[tuple[str, str | None, str]] = frozenset()  # component, which, action: to be done
    steps: tuple[Step, ...] = ()  # what "undo" takes back, newest last
    paused: bool = False  # told to listen no more, until told to resume

    def renumbered(self, next_number: int) -> Discourse:
        """The same state with the next free statement number."""
        return replace(self, next_number=next_number)

    def remember(self, statements: tuple[Statement, ...]) -> tuple[tuple[Statement, ...], ...]:
        """The remembered utterances with one more."""
        return (*self.recent, statements)[-_REMEMBERED:]


def still_known(
    ids: Set[str], recent: Iterable[Iterable[Statement]], steps: Iterable[Step]
) -> frozenset[str]:
    """Those of *ids* that belong to the utterances remembered, or to what an undo could bring back."""
    if not ids:
        return frozenset()
    known = {s.id for group in recent for s in group}
    return frozenset(ids & known.union(*[step.given for step in steps]))
