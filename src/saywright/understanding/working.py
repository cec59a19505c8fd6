"""The utterance at work: its words, the state as it changes, and the statements made so far."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from itertools import chain
from typing import Any, TypeVar

from saywright.flags import Flag, FlagKind, flag
from saywright.hearing.words import Utterance, Word
from saywright.sheets.model import Sheet, Stage
from saywright.understanding.counting.mixed_ages import Told
from saywright.understanding.discourse import (
    Counting,
    Discourse,
    Hand,
    Mentioned,
    OpenNumber,
    ReadingKey,
    reading_key,
    still_known,
)
from saywright.understanding.facts import Fact
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.sides.guessed import last_side
from saywright.understanding.sides.hand_sides import kept_in_hand, taken_up
from saywright.understanding.sides.row_order import gone_over
from saywright.understanding.statements import ConditionNote, Correction, Reading, Remark, Said, Statement
from saywright.understanding.steps import CUES
from saywright.understanding.subjects.machine_ends import at_its_end
from saywright.understanding.tokens import Token
from saywright.understanding.undoing import stepped
from saywright.understanding.values.named_places import Spot

_Said = TypeVar("_Said", bound=Said)

# Looked up by class: asking pydantic whether a statement is of another class takes ten times as long.
_TELL_NOTHING = frozenset({Remark, Correction})


class Working:
    """Mutable while one utterance is understood; `state()` freezes it again."""

    def __init__(
        self,
        utterance: Utterance,
        words: Sequence[Word],
        before: Discourse,
        lexicon: Lexicon,
        heard: int | None,
    ) -> None:
        self.utterance = utterance
        self.words = words
        self.timed = bool([w for w in words if w.start_s is not None or w.end_s is not None])
        self.before = before
        self.lexicon = lexicon
        self.heard_event = heard
        self.sheet: Sheet = lexicon.sheet
        self.now = before.utterances + 1
        self.tokens: tuple[Token, ...] = ()
        self.texts: tuple[str, ...] = ()
        self.cues = 0  # the rules that the words of `texts` call
        self._spans: dict[tuple[int, int], tuple[int, int]] = {}  # asked for when made and when kept
        self.mended: frozenset[int] = frozenset()
        self.stage: Stage = before.stage
        self.hand: Hand | None = before.hand
        self.awaited: CharacteristicKey | None = None
        self.mentioned: Mentioned | None = None  # a part named in talk that is kept aside
        self.open_number: OpenNumber | None = None
        self.spots: tuple[Spot, ...] = ()  # places named beside a number
        self.placed: set[Spot] = set()  # those that a reading took
        self.place: str | None = None  # named last, without its value
        self.counting: Counting | None = before.counting
        self.head = 0  # tokens before a count aloud that tell something else
        self.first = dict(before.first)
        self.latest = dict(before.latest)
        self.off = dict(before.off)
        self.refitted: AbstractSet[tuple[str, str | None]] = before.refitted
        self.came_off: AbstractSet[tuple[str, str | None]] = before.came_off
        self.planned: AbstractSet[tuple[str, str | None, str]] = before.planned
        self.gone: set[str] = set(before.gone)
        self.seen = set(before.seen)
        self.out: list[Statement] = []
        self.covered: list[tuple[int, int]] = []
        self.quoted: dict[str, tuple[int, int]] = {}  # id → first word of its quote, and one past the last
        self.said: dict[str, Fact] = {}  # id of a reading → the value fact it was made of
        self.aside: list[tuple[int, int]] = []  # tokens known not to be for the record
        self.ages: Told = {}  # how many are old and how many new, told behind a movement
        self.same: tuple[int, int] | None = None  # tokens that say that the same ones went back
        self.aged: set[int] = set()  # first tokens of those that a movement took
        self._next = before.next_number

    def set_tokens(self, tokens: tuple[Token, ...], mended: frozenset[int] = frozenset()) -> None:
        """The tokens to read; spans count in them. *mended* are those put right by their sound."""
        self.mended = mended
        self.tokens = tokens
        self.texts = tuple([token.text for token in tokens])
        self.cues = CUES.of(self.texts)
        self._spans.clear()

    def make(
        self,
        kind: type[_Said],
        start: int,
        end: int,
        *,
        flags: Iterable[Flag] = (),
        stage: Stage | None = None,
        **fields: Any,
    ) -> _Said:
        """A statement of the words that tokens [start, end) came from; it is not yet put out."""
        self.covered.append((start, end))
        wrong = [at for at in self.mended if start <= at < end] if self.mended else []
        if wrong and kind is not Remark:
            flags = (*flags, flag(FlagKind.PART_MENDED, self.texts[wrong[0]]))
        span = self.word_span(start, end)
        heard, start_s, end_s = self.quote(*span)
        made = kind(
            id=f"s{self._next}",
            stage=stage or self.stage,
            heard=heard,
            start_s=start_s,
            end_s=end_s,
            line=self.utterance.line,
            utterance=self.heard_event,
            flags=_distinct(flags) if flags else (),
            **fields,
        )
        self._next += 1
        self.quoted[made.id] = span
        return made

    def put(self, statement: Statement) -> None:
        """Put out a statement and remember what it tells."""
        self.out.append(statement)
        if type(statement) is Reading:
            key = reading_key(statement)
            self.first.setdefault((key, statement.stage), statement)
            self.latest[(key, statement.stage)] = statement
        elif type(statement) is ConditionNote:
            self.seen.add((statement.component, statement.which, statement.condition, statement.present))
        elif statement.kind == "action" and statement.component is not None:
            act = {(statement.component, statement.which, statement.action)}
            self.planned = self.planned | act if statement.status == "proposed" else self.planned - act

    def swap(self, old: Reading, new: Reading) -> None:
        """Put *new* in the place of *old*, a reading of this utterance with the same id."""
        self.out = [new if s is old else s for s in self.out]
        for book in (self.first, self.latest):
            for key in [key for key, reading in book.items() if reading is old]:
                book[key] = new

    def swap_note(self, old: ConditionNote, new: ConditionNote) -> None:
        """Put *new* in the place of *old*, a note of this utterance with the same id."""
        self.out = [new if s is old else s for s in self.out]

    def supersede(self, ids: Sequence[str], by: str | None, start: int, end: int) -> None:
        """Earlier statements no longer hold."""
        correction = self.make(Correction, start, end, supersedes=tuple(ids), by=by)
        self.out.append(correction)
        self.gone.update(ids)
        for book in (self.first, self.latest):
            for key in [key for key, reading in book.items() if reading.id in ids]:
                del book[key]

    def remark(self, start: int, end: int, reason: str = "") -> None:
        """Keep words that are not for the record."""
        self.out.append(self.make(Remark, start, end, reason=reason))
        if reason:
            self.aside.append((start, end))

    def word_span(self, start: int, end: int) -> tuple[int, int]:
        """The words that tokens [start, end) came from; (0, 0) where none did."""
        span = self._spans.get((start, end))
        if span is None:
            inside = [token.word for token in self.tokens[start:end] if token.word >= 0]
            span = self._spans[start, end] = (min(inside), max(inside) + 1) if inside else (0, 0)
        return span

    def quote(self, first: int, last: int) -> tuple[str, float | None, float | None]:
        """Words [first, last) as heard, when they begin and end in seconds."""
        words = self.words[first:last]
        said = " ".join([word.text for word in words])
        if not self.timed:
            return said, self.utterance.start_s, self.utterance.end_s
        starts = [word.start_s for word in words if word.start_s is not None]
        ends = [word.end_s for word in words if word.end_s is not None]
        return (
            said,
            min(starts) if starts else self.utterance.start_s,
            max(ends) if ends else self.utterance.end_s,
        )

    def live(self) -> list[Statement]:
        """Statements remembered that still hold, newest last, this utterance's included."""
        every = chain(*self.before.recent, self.out)
        return [s for s in every if type(s) not in _TELL_NOTHING and s.id not in self.gone]

    def newest(self) -> Iterator[Statement]:
        """The same, newest first."""
        for statement in chain(reversed(self.out), *map(reversed, reversed(self.before.recent))):
            if type(statement) not in _TELL_NOTHING and statement.id not in self.gone:
                yield statement

    def last_reading(self) -> Reading | None:
        """The newest reading that still holds."""
        every = chain(reversed(self.out), *map(reversed, reversed(self.before.recent)))
        return next((s for s in every if type(s) is Reading and s.id not in self.gone), None)

    def readings(self) -> list[Reading]:
        """Readings that still hold, newest last: those remembered, before them the latest of each thing."""
        near = [s for s in self.live() if type(s) is Reading]
        known = {s.id for s in near}
        return [r for r in self.latest.values() if r.id not in known and r.id not in self.gone] + near

    def last_group(self) -> list[Statement]:
        """Statements that still hold of the last utterance that made any."""
        for group in reversed(self.before.recent):
            holding: list[Statement] = [
                s for s in group if type(s) not in _TELL_NOTHING and s.id not in self.gone
            ]
            if holding:
                return holding
        return []

    def named(self, component: str, which: str | None) -> None:
        """A part was named: it is in hand now."""
        part = Hand(component, which, self.now)
        hand, ends = taken_up(part, self.hand, self.sheet, self.texts), self.lexicon.machine_ends
        self.hand = at_its_end(hand, ends, self.sheet) if ends else hand

    def go_back(self) -> None:
        """The job goes back together."""
        if self.stage != "as_left":
            self.hand = kept_in_hand(self.hand, self.now)
        self.stage = "as_left"

    def repeat(
        self, key: ReadingKey, stage: Stage, value: str, *, exact: bool
    ) -> tuple[str | None, list[Flag]]:
        """Id of the first reading of the same thing, and an ask where a stamped size differs."""
        first = self.first.get((key, stage))
        if first is None:
            return None, []
        if exact and first.value != value:
            return first.id, [flag(FlagKind.STAMP_DIFFERS, f"{first.value} before, {value} now")]
        return first.id, []

    def begin_anew(self) -> None:
        """Take back the statements made so far, and their numbers."""
        self._next -= len(self.out)
        self.out = []

    def hesitated(self) -> Discourse:
        """The state where nothing but "uh" was said: what was open stays open."""
        number = self.before.open_number
        number = replace(number, utterance=number.utterance + 1) if number is not None else None
        return replace(self.before, utterances=self.now, open_number=number)

    def state(self) -> Discourse:
        """The state for the next utterance."""
        statements = tuple(self.out)
        recent = self.before.remember(statements)
        steps = stepped(self.before, self.stage, self.counting, statements)
        return Discourse(
            next_number=self._next,
            utterances=self.now,
            stage=self.stage,
            hand=self.hand,
            awaited=self.awaited,
            awaited_at=self.now,
            mentioned=self.mentioned,
            place=self.place,
            open_number=self.open_number,
            counting=self.counting,
            recent=recent,
            first=self.first,
            latest=self.latest,
            seen=frozenset(self.seen),
            off=self.off,
            refitted=frozenset(self.refitted),
            came_off=frozenset(self.came_off),
            planned=frozenset(self.planned),
            steps=steps,
            last_side=last_side(self.out, self.hand, self.before.last_side),
            order=gone_over(self.before.order, self.lexicon.row, self.texts, self.out, self.hand),
            gone=still_known(self.gone, recent, steps),
        )


def _distinct(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    seen: dict[FlagKind, Flag] = {}
    for one in flags:
        seen.setdefault(one.kind, one)
    return tuple(seen.values())
