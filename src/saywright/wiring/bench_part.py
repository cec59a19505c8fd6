"""What the parts of `Bench` share: the job's log, who acts, how words are understood."""

from __future__ import annotations

import copy
from typing import Self

from saywright.errors import TextError
from saywright.hearing.adapters.scripted import script_words
from saywright.judging.judge import judge
from saywright.record.types import Record
from saywright.sheets.model import Sheet
from saywright.wiring.log import JobLog
from saywright.wiring.review import named
from saywright.wiring.understanding import Understander


class Part:
    """One job, before anything is done with it."""

    def __init__(self, log: JobLog, *, actor: str) -> None:
        """*actor* is who acts where a call names nobody."""
        self._log = log
        self._actor = named(actor)
        self._built: list[Understander] = []  # none or one; shared with `by`
        self.job_id = log.job_id
        self.sheet: Sheet = log.sheet

    def record(self) -> Record:
        """The record as it stands: folded, judged, with what is open."""
        return self._log.judged(lambda record: judge(record, self.sheet))

    def by(self, actor: str) -> Self:
        """The same job in another person's name; the log and what it came to are shared."""
        other = copy.copy(self)
        other._actor = named(actor)
        return other

    @property
    def seq(self) -> int:
        """Sequence number of the newest event known here, without a look at the store."""
        return self._log.last.seq

    def _understander(self) -> Understander:
        if not self._built:
            self._built.append(Understander(self._log))
        return self._built[0]


def given_words(text: str) -> str:
    """The words in *text*, one space between; TextError where there are none."""
    words = script_words(text)
    if not words:
        raise TextError("no words were given", to_do="Type what you would say")
    return " ".join(words)
