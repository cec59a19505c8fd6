"""What one utterance tells, before the discourse settles it."""

from __future__ import annotations

from dataclasses import dataclass, field

from saywright.flags import Flag
from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject


@dataclass(slots=True)
class Fact:
    """One thing said, before the discourse settles it."""

    kind: str  # value, finding, doing, off, on, photo, restore, same, need_new
    phrase: Phrase
    segment: int
    subjects: list[Subject] = field(default_factory=list)  # empty: what is in hand
    characteristics: tuple[CharacteristicKey, ...] = ()  # () where none was named
    negated: bool = False
    participle: bool = False  # a finding in a past form: "worn", not "wear"
    degree: frozenset[str] = frozenset()  # tags SLIGHT, MODERATE, SEVERE
    aux: frozenset[str] = frozenset()  # tags of all its helping words
    listed: bool = False  # one more value of the same thing
    introduced: bool = False  # "it is", "I get", "reads" before a value
    in_order: bool = False  # the first value is of the first one, and so on
    changed: bool = False  # it was so, and the value behind it is now
    changes: bool = False  # the value before it was, and this one is now
    renamed: str = ""  # its part was put right behind it: "told" ("no, the left") or "asked" ("or is that …")
    if_bad: bool = False  # a need only of what has a fault: "new hose then"
    if_off: bool = False  # a movement only of what came off before: "back on its pin"
    measured: bool = False  # an instrument is named beside the value
    doubts: tuple[Flag, ...] = ()  # asks of what was read before, of which this is read once more
    start: int = 0  # tokens it covers, subjects included
    end: int = 0

    @property
    def told_to(self) -> int:
        """The token behind its phrase and all that it is told of."""
        return max((self.phrase.end, *(s.end for s in self.subjects)))

    def cover(self, start: int, end: int) -> None:
        """Widen the tokens it covers."""
        self.start, self.end = min(self.start, start), max(self.end, end)


@fixed
class Mark:
    """Bench talk that colours what is said around it."""

    tags: frozenset[str]
    segment: int
    start: int  # tokens [start, end)
    end: int
    written: bool = False  # a question mark, in typed text


@dataclass(slots=True)
class Told:
    """What one utterance tells: its facts, and the bench talk around them."""

    facts: list[Fact] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    subjects: list[Subject] = field(default_factory=list)  # in the order named
    strays: dict[int, list[int]] = field(default_factory=dict)  # segment → tokens that nothing here knows
    named: tuple[CharacteristicKey, ...] = ()  # a characteristic named last without a value
    renamed: Subject | None = None  # "no, the trailing one": what was said last is of this part

    def spans(self) -> list[tuple[int, int]]:
        """The tokens [start, end) of each value."""
        return [(f.phrase.start, f.phrase.end) for f in self.facts if f.phrase.measure is not None]
