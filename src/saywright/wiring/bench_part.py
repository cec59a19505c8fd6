"""What the parts of `Bench` share: the job's log, who acts, how words are understood."""

from __future__ import annotations

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
        self._built: Understander | None = None
        self._judged: tuple[int, Record] | None = None
        self.job_id = log.job_id
        self.sheet: Sheet = log.sheet

    def record(self) -> Record:
        """The record as it stands: folded, judged, with what is open."""
        self._log.refresh()
        seq = self._log.last.seq
        if self._judged is None or self._judged[0] != seq:
            self._judged = (seq, judge(self._log.folder.record(), self.sheet))
        return self._judged[1]

    def _understander(self) -> Understander:
        if self._built is None:
            self._built = Understander(self._log)
        return self._built


def given_words(text: str) -> str:
    """The words in *text*, one space between; TextError where there are none."""
    words = script_words(text)
    if not words:
        raise TextError("no words were given", to_do="Type what you would say")
    return " ".join(words)
