"""Utterance → Heard → Understood: each committed before the next is begun."""

from __future__ import annotations

import threading
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from saywright.errors import StoreError
from saywright.hearing.words import Utterance
from saywright.record.edits import REVERSIBLE
from saywright.record.events import Event, Heard, Understood
from saywright.record.types import Item, Reading
from saywright.sheets.model import Stage
from saywright.understanding import statements as spoken
from saywright.understanding.data_key import marked, whole
from saywright.understanding.discourse import Discourse, ReadingKey, reading_key
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Statement, Unclear
from saywright.wiring.log import JobLog
from saywright.wiring.review import highest_number


class Understander:
    """Follows the log: what was heard and not yet understood is understood, in order.

    The discourse state is rebuilt from the utterances, which gives the same state each time.
    May be used from several threads.
    """

    def __init__(self, log: JobLog) -> None:
        """Follow *log* from its first event. Work begins with `settle`."""
        self._log = log
        self._lexicon = build_lexicon(log.sheet)
        self._state = Discourse()
        self._done = 0  # events of the log already followed
        self._known: dict[int, tuple[Statement, ...]] = {}  # by sequence number of what was heard
        self._next = 1  # number of the next statement
        self._lock = threading.RLock()

    def take(self, utterance: Utterance, *, actor: str) -> tuple[Statement, ...]:
        """Keep what was heard, then understand it."""
        return self.keep(utterance, actor=actor)[1]

    def keep(self, utterance: Utterance, *, actor: str) -> tuple[int, tuple[Statement, ...]]:
        """`take`, with the sequence number of what was heard."""
        with self._lock:
            heard = self._log.keep(Heard(utterance=utterance), actor=actor)
            self.settle()
            return heard.seq, self._known[heard.seq]

    def preview(self, utterance: Utterance) -> tuple[Statement, ...]:
        """What it would be understood as if it were said now. Nothing is kept; the ids are not given away."""
        with self._lock:
            self.settle()
            state = self._state.renumbered(self._next)
            return self._understood(state, utterance, self._log.last.seq + 1)[1]

    def take_all(self, utterances: Sequence[Utterance], *, actor: str) -> tuple[Statement, ...]:
        """`take` one after another. Where the store fails, the error tells from where to go on."""
        said: list[Statement] = []
        for number, utterance in enumerate(utterances, start=1):
            try:
                said.extend(self.take(utterance, actor=actor))
            except StoreError as error:
                at = f"line {utterance.line}" if utterance.line is not None else f"utterance {number}"
                to_do = f"What stood before {at} is kept; mend that, then give only the rest, from there on"
                raise type(error)(error.what, where=error.where, to_do=to_do) from error
        return tuple(said)

    @property
    def hand(self) -> str | None:
        """Id of the component that talk is about; None where it is about none yet."""
        self.settle()
        return self._state.hand.component if self._state.hand is not None else None

    @property
    def paused(self) -> bool:
        """True from "pause listening" until "resume"."""
        self.settle()
        return self._state.paused

    def settle(self) -> None:
        """Understand everything that was heard and is not yet understood."""
        with self._lock:
            self._log.attempt(self._follow)

    def _note(self) -> None:
        """Read off the log what was already understood, by whomever."""
        for event in self._log.events[self._done :]:
            if isinstance(event.payload, Understood):
                self._note_one(event.payload)
            else:  # what people enter takes numbers of the same row
                self._next = max(self._next, 1 + highest_number(event))

    def _note_one(self, payload: Understood) -> None:
        if payload.heard is not None:
            self._known[payload.heard] = payload.statements
        for statement in payload.statements:
            self._next = max(self._next, _number(statement) + 1)

    def _follow(self) -> None:
        self._note()
        while self._done < len(self._log.events):
            event = self._log.events[self._done]
            if isinstance(event.payload, Heard):
                self._follow_one(event, event.payload.utterance)
            elif isinstance(event.payload, REVERSIBLE):
                for item_id in self._log.folder.touched(event.seq):
                    self._state = _as_left_by_people(self._state, self._log.folder.item(item_id))
            self._done += 1

    def _follow_one(self, event: Event, utterance: Utterance) -> None:
        if event.seq in self._known:
            # The numbers given then are given again, so that the state names what is on record.
            first = min((_number(statement) for statement in self._known[event.seq]), default=self._next)
            self._state, _ = self._understood(self._state.renumbered(first), utterance, event.seq)
            return
        state, statements = self._understood(self._state.renumbered(self._next), utterance, event.seq)
        payload = Understood(heard=event.seq, statements=statements)
        self._log.append(payload)
        self._note_one(payload)
        self._state = state

    def _understood(
        self, state: Discourse, utterance: Utterance, seq: int
    ) -> tuple[Discourse, tuple[Statement, ...]]:
        """What the words mean. A fault of ours must not end a session: the words then wait for a person."""
        try:
            found = whole(utterance, state, self._log.sheet)
            following, statements = understand(utterance, found, self._lexicon, heard=seq)
            return following, marked(utterance, state, statements)
        except Exception as error:  # the next utterance still has to be heard
            unclear = Unclear(
                id=f"s{self._next}",
                stage="as_found",
                heard=utterance.best.text,
                start_s=utterance.start_s,
                end_s=utterance.end_s,
                line=utterance.line,
                utterance=seq,
                reason=f"the program failed on these words ({type(error).__name__}: {error})",
            )
            return state, (unclear,)


def _number(statement: Statement) -> int:
    """The number in the statement's id, 0 where it has none."""
    digits = statement.id.removeprefix("s")
    return int(digits) if digits.isdigit() else 0


def _as_left_by_people(state: Discourse, item: Item) -> Discourse:
    """The state with a reading as a person corrected it, or without one that was withdrawn.

    Else "back where it was" would bring back the value that was misheard.
    """
    now = None
    if isinstance(item, Reading) and item.superseded_by is None:
        now = spoken.Reading(**{name: getattr(item, name) for name in spoken.Reading.model_fields})

    def mended(known: Mapping[tuple[ReadingKey, Stage], spoken.Reading]) -> Mapping[Any, spoken.Reading]:
        kept = {key: reading for key, reading in known.items() if reading.id != item.id}
        if now is not None and len(kept) < len(known):
            kept[reading_key(now), now.stage] = now
        return MappingProxyType(kept)

    steps = tuple(replace(s, first=mended(s.first), latest=mended(s.latest)) for s in state.steps)
    gone = state.gone if item.superseded_by is None else state.gone | {item.id}
    return replace(state, first=mended(state.first), latest=mended(state.latest), steps=steps, gone=gone)
