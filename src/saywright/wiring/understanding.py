"""Utterance → Heard → Understood: each committed before the next is begun."""

from __future__ import annotations

from saywright.hearing.words import Utterance
from saywright.record.events import Event, Heard, Understood
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Statement, Unclear
from saywright.wiring.log import JobLog


class Understander:
    """Follows the log: what was heard and not yet understood is understood, in order.

    The discourse state is rebuilt from the utterances, which gives the same state each time.
    """

    def __init__(self, log: JobLog) -> None:
        """Follow *log* from its first event. Work begins with `settle`."""
        self._log = log
        self._lexicon = build_lexicon(log.sheet)
        self._state = Discourse()
        self._done = 0  # events of the log already followed
        self._known: dict[int, tuple[Statement, ...]] = {}  # by sequence number of what was heard
        self._next = 1  # number of the next statement

    def take(self, utterance: Utterance, *, actor: str) -> tuple[Statement, ...]:
        """Keep what was heard, then understand it."""
        heard = self._log.keep(Heard(utterance=utterance), actor=actor)
        self.settle()
        return self._known[heard.seq]

    def settle(self) -> None:
        """Understand everything that was heard and is not yet understood."""
        self._log.attempt(self._follow)

    def _note(self) -> None:
        """Read off the log what was already understood, by whomever."""
        for event in self._log.events[self._done :]:
            if isinstance(event.payload, Understood):
                self._note_one(event.payload)

    def _note_one(self, payload: Understood) -> None:
        if payload.heard is not None:
            self._known[payload.heard] = payload.statements
        for statement in payload.statements:
            if statement.id[:1] == "s" and statement.id[1:].isdigit():
                self._next = max(self._next, int(statement.id[1:]) + 1)

    def _follow(self) -> None:
        self._note()
        while self._done < len(self._log.events):
            event = self._log.events[self._done]
            if isinstance(event.payload, Heard):
                self._follow_one(event, event.payload.utterance)
            self._done += 1

    def _follow_one(self, event: Event, utterance: Utterance) -> None:
        if event.seq in self._known:
            state, _ = self._understood(self._state, utterance, event.seq)
            self._state = state
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
            return understand(utterance, state, self._lexicon, heard=seq)
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
