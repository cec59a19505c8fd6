"""One utterance being walked over: where the walk is, what it holds, what it has found so far."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.bench_words import NOT_ITS_NOUN
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Selector, Subject


class Walk:
    """Mutable while the phrases of one utterance are read from left to right."""

    def __init__(self, found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> None:
        self.phrases = found
        self.last_index = len(found) - 1
        # The phrase before the one at an index, and the one behind it: asked so often that a method is dear.
        self.before: Callable[[int], Phrase | None] = (None, *found).__getitem__
        self.after: Callable[[int], Phrase | None] = (*found[1:], None, None, None).__getitem__
        self.texts = texts
        self.sheet = sheet
        self.out = Told()
        self.segment = 0  # a clause, roughly; marks reach as far as their own
        self.current: list[Subject] = []
        self.used = False  # something was said of the current subjects
        self.waiting: list[Fact] = []  # facts without a subject yet
        self.carried: list[Fact] = []  # waiting facts of a list that goes on behind a comma
        self.extendable: list[Fact] = []  # facts whose objects may go on with "and the …"
        self.listed: list[Fact] = []  # the same, of a row that goes on behind a comma
        self.claims: list[Fact] = []  # facts that take the next subject
        self.characteristic: tuple[CharacteristicKey, ...] = ()
        self.characteristic_at: tuple[int, int] | None = None
        self.left_open: tuple[CharacteristicKey, ...] = ()  # named before a part on which nothing is read
        self.each: Selector = ""  # said behind a value, for the subject that follows it
        self.denying = False  # "no screws", "neither wiper": what is said of the subject is denied
        self.denied: Subject | None = None  # "no latch": the subject denied last
        self.glue: set[str] = set()  # what stood since the last subject or fact
        self.last: Fact | None = None
        self.joined_by_and = False  # the last subject stands behind an "and"
        self.row: Fact | None = None  # a movement that a part with its size before it goes on with
        self.owner: tuple[str, ...] = ()  # the side that has what is named: "rear has a new disc and …"
        self.taken: set[int] = set()  # phrases used ahead of their turn

    def put_by(self, subject: Subject) -> None:
        """ "float height before I touch anything, carb upside down": what was named still waits."""
        parts = [part for part in map(self.sheet.get, subject.components) if part is not None]
        if self.characteristic and not any(part.characteristic for part in parts):
            self.left_open = self.characteristic

    def hold(self, subjects: list[Subject], *, used: bool) -> None:
        """These are the current subjects from here on."""
        self.current = subjects
        self.used = used

    def take(self, fact: Fact, subjects: Sequence[Subject]) -> None:
        """*fact* is said of *subjects* too."""
        fact.subjects = [*fact.subjects, *subjects]
        for subject in subjects:
            fact.cover(subject.start, subject.end)

    def border(self) -> None:
        """A clause ends: what still waits may only go on as a list."""
        self.segment += 1
        self.glue.add("BREAK")
        self.carried = [*self.carried, *self.waiting]
        self.waiting = []
        self.claims = []
        self.listed = self.extendable
        self.extendable = []
        self.owner = ()

    def turn_side(self, phrase: Phrase) -> None:
        """Where *phrase* turned to a side, what was named before is spoken of as it is there."""
        if "TURN" in phrase.tags:
            self.current = [replace(s, which=()) for s in self.current if s.components]

    def put_mark(self, tags: frozenset[str], phrase: Phrase) -> None:
        """Keep bench talk that colours what is said around it."""
        written = self.texts[phrase.start] == "?"
        self.out.marks.append(Mark(tags, self.segment, phrase.start, phrase.end, written))

    def unknown_noun_behind(self, index: int) -> bool:
        """ "both bores": a noun that the sheet does not know takes the lead at *index*."""
        after = self.after(index)
        return (
            after is not None
            and after.kind == "word"
            and not after.tags
            and after.start == self.phrases[index].end
            and self.texts[after.start]
            not in NOT_ITS_NOUN  # "for the idler which is under", "both of them there"
            and self.texts[after.start - 1] not in {"one", "ones"}  # "first one pulls three newtons"
            and self.texts[self.phrases[index].start] != "number"  # "number two pulls three newtons"
        )
