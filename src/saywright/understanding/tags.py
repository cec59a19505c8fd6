"""A stretch of words with the one tag it has in its place."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import Meaning
from saywright.understanding.quantities.measures import Measure

# Kinds of bench talk that several modules ask for.
AGES: Final = frozenset({"NEW", "OLD"})
DEGREES: Final = frozenset({"SLIGHT", "MODERATE", "SEVERE"})
MOVES: Final = frozenset({"MOVE_OFF", "MOVE_ON", "MOVE_LOOSE_ON"})


@fixed
class Tag:
    """A stretch of tokens with its one tag."""

    kind: str  # a terminal of statements.lark
    start: int  # tokens [start, end)
    end: int
    meaning: Meaning
    measure: Measure | None = None
    count: int | None = None  # how many, said before a noun
    order: int | None = None  # which of several, by number
    orders: tuple[int, ...] = ()  # several of them: "diodes one, two and four"

    @property
    def tags(self) -> frozenset[str]:
        """Its tags of bench talk."""
        return self.meaning.tags


def shifted(one: Tag, by: int) -> Tag:
    """The tag *by* tokens further on: the head of the utterance was read already."""
    measure = one.measure
    moved = replace(measure, start=measure.start + by, end=measure.end + by) if measure is not None else None
    return replace(one, start=one.start + by, end=one.end + by, measure=moved)
