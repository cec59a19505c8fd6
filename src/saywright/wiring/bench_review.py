"""Review: the part of `Bench` in which a person corrects, stands for and signs the record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saywright.errors import StaleError
from saywright.hearing.words import typed
from saywright.record.events import Event
from saywright.record.revisions import Revisions, revisions
from saywright.record.types import SignOff
from saywright.understanding.statements import Statement
from saywright.wiring import checking, output, review, sound
from saywright.wiring.bench_part import Part, given_words
from saywright.wiring.checking import Check


@dataclass(frozen=True)
class Proof:
    """A report to be looked at before it is signed."""

    record_hash: str  # of the record it was made from; printed on each page
    pdf: bytes
    pages: tuple[bytes, ...]  # PNG


class ReviewPart(Part):
    """What a person does to the record of a job."""

    def correct(
        self, item_id: str, changes: Mapping[str, Any], *, why: str, actor: str, seen: int | None = None
    ) -> Event:
        """Other values for an item. *seen* is its `event` as the person saw it."""
        return review.correct(self._log, item_id, changes, why=why, actor=actor, seen=seen)

    def accept(self, item_id: str, *, actor: str, seen: int | None = None) -> Event:
        """Stand for an item as it is."""
        return review.accept(self._log, item_id, actor=actor, seen=seen)

    def withdraw(self, item_id: str, *, why: str, actor: str, seen: int | None = None) -> Event:
        """Take an item out of the record."""
        return review.withdraw(self._log, item_id, why=why, actor=actor, seen=seen)

    def add_item(self, fields: Mapping[str, Any], *, why: str = "", actor: str) -> Event:
        """Enter what was not said: the fields of a statement with its `kind`, without `id` and `heard`."""
        return review.add(self._log, fields, why=why, actor=actor)

    def split(
        self,
        item_id: str,
        pieces: Sequence[Mapping[str, Any]],
        *,
        why: str = "",
        actor: str,
        seen: int | None = None,
    ) -> Event:
        """Make several items of one; each of *pieces* holds the fields in which it differs from it."""
        return review.split(self._log, item_id, pieces, why=why, actor=actor, seen=seen)

    def merge(
        self,
        into: str,
        others: Mapping[str, int | None],
        *,
        why: str = "",
        actor: str,
        seen: int | None = None,
    ) -> Event:
        """Take *others* (id → `event` as seen) for the same thing as *into*, which stays."""
        return review.merge(self._log, into, others, why=why, actor=actor, seen=seen)

    def undo(self, event: int | None = None, *, why: str = "", actor: str) -> Event:
        """Take back what *event* changed; None: the last change of this person."""
        return review.undo(self._log, event, why=why, actor=actor)

    def reversible(self) -> tuple[int, ...]:
        """The events that can be undone as things stand, oldest first."""
        self._log.refresh()
        return self._log.folder.reversible()

    def reword(
        self, item_id: str, text: str, *, actor: str, seen: int | None = None
    ) -> tuple[Statement, ...]:
        """Typed words in the place of an item; it stays as it is where *text* holds no words."""
        words = given_words(text)
        start_s = self._log.folder.item(item_id).start_s
        self.withdraw(item_id, why=f"entered in words: {words}", actor=actor, seen=seen)
        return self._understander().take(typed(words, start_s=start_s), actor=self._actor)

    def explain(self, open_item_id: str, why: str, *, actor: str) -> Event:
        """State why an open item may stay open."""
        return review.explain(self._log, self.record(), open_item_id, why, actor=actor)

    def sign(
        self, *, actor: str, statement: str, role: str | None = None, seen: str | None = None
    ) -> SignOff:
        """Stand for the record; refused while something is open and not explained.

        *role* is that of a person who proved who they are; None where nobody was asked to. *seen* is the
        record hash that stood on what the person read: StaleError where it is no longer that of the record.
        """
        sound.adopt(self._log)  # what a crash cut off is then open, and not signed away
        record = self.record()
        if seen is not None and seen != record.record_hash:
            raise StaleError(
                "the record changed since you read it, so it was not signed",
                where=f"job {self.job_id}",
                to_do="Read the pages as they are now, then sign",
            )
        review.sign(self._log, record, actor=actor, statement=statement, role=role)
        sign_off = self.record().sign_off
        if sign_off is None:
            where = f"job {self.job_id}"
            raise StaleError("the record changed as it was signed", where=where, to_do="Sign again")
        return sign_off

    def check(self) -> Check:
        """The record beside what its sheet asks for: missing, parts off and on, orders, time, past visits."""
        record = self.record()
        return checking.check(self._log, record)

    def revisions(self) -> Revisions:
        """What was signed, and what changed since."""
        self._log.refresh()
        return revisions(self._log.events)

    def proof(self, format_name: str) -> bytes:
        """The report as it would be made now; nothing is kept of it."""
        return output.report(self._log, self.record(), (format_name,))[format_name]

    def proof_pages(self) -> Proof:
        """The report as it would be printed now, page by page; nothing is kept of it."""
        record = self.record()
        made = output.pages(self._log, record)
        return Proof(record.record_hash or "", made.pdf, made.pictures)

    def correct_time(self, component: str | None, stage: str, minutes: str, *, why: str, actor: str) -> Event:
        """Give the right bench time of a part at a stage."""
        return review.correct_time(self._log, component, stage, minutes, why=why, actor=actor)
