"""The one way in: wires the stages. Faces (`cli`, `web`) call `Bench` and nothing deeper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from saywright.errors import ModelError, SaywrightError, StaleError, TextError
from saywright.hearing.adapters.scripted import decode, parse_script, read_script, script_words
from saywright.hearing.listener import Listener, Samples
from saywright.hearing.words import Utterance, typed
from saywright.judging.judge import judge
from saywright.record.events import Event, JobDescribed, JobOpened, PhotoAdded, PhotoPlaced, Reported
from saywright.record.types import Record, SignOff
from saywright.sheets.model import Sheet
from saywright.store.protocol import Store
from saywright.understanding.statements import Statement
from saywright.wiring import live, measuring, output, pictures, review, sound
from saywright.wiring.log import MACHINE, Clock, JobLog
from saywright.wiring.understanding import Understander
from saywright.wiring.verify import verify_job

__all__ = ["Bench", "Clock"]


class Bench:
    """One job, from the first word to the report."""

    def __init__(self, log: JobLog, *, listener: Listener | None = None, actor: str = "technician") -> None:
        """Use `open` or `resume`."""
        self._log = log
        self._actor = review.named(actor)
        self._ears = sound.Ears(log, self._understander, listener) if listener else None
        self._built: Understander | None = None
        self._judged: tuple[int, Record] | None = None
        self.job_id = log.job_id
        self.sheet: Sheet = log.sheet

    @classmethod
    def open(
        cls,
        store: Store,
        sheet: Sheet,
        *,
        clock: Clock,
        listener: Listener | None = None,
        title: str | None = None,
        item: str | None = None,
        serial: str | None = None,
        customer: str | None = None,
        actor: str = "technician",
    ) -> Bench:
        """Begin a job. Its id is the day and a number: "20260301-1"."""
        at = clock()
        taken = {job.id for job in store.jobs()}
        number = 0
        while True:
            number += 1
            job_id = f"{at:%Y%m%d}-{number}"
            if job_id in taken:
                continue
            opened = JobOpened(
                job=job_id,
                title=title or sheet.title,
                sheet=sheet,
                item=item,
                serial=serial,
                customer=customer,
            )
            try:
                store.append(job_id, [opened], at=at, actor=review.named(actor), after_seq=0)
            except StaleError:  # another bench opened it in this moment
                continue
            return cls(JobLog(store, job_id, clock), listener=listener, actor=actor)

    @classmethod
    def resume(
        cls,
        store: Store,
        job_id: str,
        *,
        clock: Clock,
        listener: Listener | None = None,
        actor: str = "technician",
    ) -> Bench:
        """Go on with a job. Recordings that a crash cut off are taken in; `hear_rest` hears them."""
        log = JobLog(store, job_id, clock)
        sound.adopt(log)
        return cls(log, listener=listener, actor=actor)

    def events(self) -> tuple[Event, ...]:
        """Everything that happened so far."""
        self._log.refresh()
        return tuple(self._log.events)

    def record(self) -> Record:
        """The record as it stands: folded, judged, with what is open."""
        self._log.refresh()
        seq = self._log.last.seq
        if self._judged is None or self._judged[0] != seq:
            self._judged = (seq, judge(self._log.folder.record(), self.sheet))
        return self._judged[1]

    def verify(self) -> str:
        """Hash of the last event; ChainError where the log was altered, StoreError where a file was."""
        return verify_job(self._log.store, self.job_id)[0]

    def describe(
        self,
        *,
        title: str | None = None,
        item: str | None = None,
        serial: str | None = None,
        customer: str | None = None,
        actor: str | None = None,
    ) -> Event:
        """Tell more about the job; None leaves a field as it was."""
        payload = JobDescribed(title=title, item=item, serial=serial, customer=customer)
        return self._log.keep(payload, actor=review.named(actor or self._actor))

    # Hearing and saying.

    def hear_file(self, path: Path, *, progress: sound.Progress | None = None) -> list[Utterance]:
        """Keep a recording, hear it, understand it, utterance by utterance."""
        return self._listening().hear_file(Path(path), progress)

    def hear_rest(self, *, progress: sound.Progress | None = None) -> list[Utterance]:
        """Hear on the recordings that were cut off."""
        return self._listening().hear_rest(progress)

    def hear(self, samples: Samples) -> list[Utterance]:
        """The next stretch from the microphone; the utterances that ended in it."""
        return self._listening().hear(samples)

    def microphone(self, device: str | None = None) -> live.Session:
        """A sitting at the microphone; None: the system's own."""
        return live.Session(self._listening(), device)

    def finish_hearing(self) -> list[Utterance]:
        """The microphone is closed; the utterances still open."""
        return self._listening().finish()

    def say(
        self, text: str, *, start_s: float | None = None, line: int | None = None
    ) -> tuple[Statement, ...]:
        """Typed words, understood like spoken ones; TextError where there are none."""
        utterance = typed(_words(text), start_s=start_s, line=line)
        return self._understander().take(utterance, actor=self._actor)

    def say_file(self, path: Path) -> tuple[Statement, ...]:
        """A text file, one utterance a line; TextError where it is no text."""
        return self.say_all(read_script(Path(path)))

    def say_bytes(self, data: bytes, *, where: str) -> tuple[Statement, ...]:
        """What such a file holds; *where* is used in errors."""
        return self.say_all(parse_script(decode(data, where=where), where=where))

    def say_all(self, utterances: Sequence[Utterance]) -> tuple[Statement, ...]:
        """Utterances that came as text. Where the store fails midway, the error tells what is kept."""
        return self._understander().take_all(utterances, actor=self._actor)

    # Photos.

    def add_photos(
        self, paths: Sequence[Path], *, progress: pictures.Progress | None = None
    ) -> list[PhotoAdded]:
        """Take in pictures; one already there is passed over.

        The first that cannot be read is told after all the others were taken in.
        """
        added, refused = pictures.add_photos(self._log, [Path(path) for path in paths], progress)
        if refused:
            raise refused[0]
        return added

    def take_photos(
        self, paths: Sequence[Path], *, progress: pictures.Progress | None = None
    ) -> tuple[list[PhotoAdded], list[SaywrightError]]:
        """`add_photos` that gives what could not be read along with what could."""
        return pictures.add_photos(self._log, [Path(path) for path in paths], progress)

    def match_photos(self) -> list[PhotoPlaced]:
        """Bring pictures and spoken marks together; what a person placed stays."""
        return pictures.place_by_match(self._log)

    def place_photo(
        self,
        photo_id: str,
        *,
        mark: str | None = None,
        component: str | None = None,
        which: str | None = None,
        actor: str | None = None,
    ) -> Event:
        """Put a picture at a mark, on a part, or (nothing named) take it off its place."""
        who = actor or self._actor
        return review.place(self._log, photo_id, mark=mark, component=component, which=which, actor=who)

    def measure_photo(self, photo_id: str, shown: measuring.Shown, *, actor: str) -> Event:
        """Measure in a picture. What comes out stays with it as a candidate, and is no reading."""
        return measuring.measure_photo(self._log, photo_id, shown, actor=review.named(actor))

    def photo_jpeg(self, photo_id: str, *, max_px: int = 1600) -> bytes:
        """A picture without its camera's data, its longer side at most *max_px*."""
        return pictures.jpeg(self._log, photo_id, max_px)

    # Review.

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

    def reword(
        self, item_id: str, text: str, *, actor: str, seen: int | None = None
    ) -> tuple[Statement, ...]:
        """Typed words in the place of an item; it stays as it is where *text* holds no words."""
        words = _words(text)
        start_s = self._log.folder.item(item_id).start_s
        self.withdraw(item_id, why=f"entered in words: {words}", actor=actor, seen=seen)
        return self.say(words, start_s=start_s)

    def explain(self, open_item_id: str, why: str, *, actor: str) -> Event:
        """State why an open item may stay open."""
        return review.explain(self._log, self.record(), open_item_id, why, actor=actor)

    def sign(self, *, actor: str, statement: str) -> SignOff:
        """Stand for the record; refused while something is open and not explained."""
        review.sign(self._log, self.record(), actor=actor, statement=statement)
        sign_off = self.record().sign_off
        if sign_off is None:
            where = f"job {self.job_id}"
            raise StaleError("the record changed as it was signed", where=where, to_do="Sign again")
        return sign_off

    # Out.

    def correct_time(self, component: str | None, stage: str, minutes: str, *, why: str, actor: str) -> Event:
        """Give the right bench time of a part at a stage."""
        return review.correct_time(self._log, component, stage, minutes, why=why, actor=actor)

    def time_data(self) -> dict[str, Any]:
        """How long each part was worked on, as plain data."""
        return output.time_data(self._log, self.record())

    def report(
        self, formats: Sequence[str] = ("pdf", "html"), *, with_time: bool = False
    ) -> dict[str, bytes]:
        """The report for the customer, by format; with the bench time where wished."""
        made = output.report(self._log, self.record(), formats, with_time=with_time)
        for name, content in made.items():
            self._log.keep(Reported(sha256=self._log.media.put_bytes(content), format=name), actor=MACHINE)
        return made

    def export(self, format_name: str) -> bytes:
        """The record in another form: json, csv, parts, text."""
        return output.export(self._log, self.record(), format_name)

    def clip_wav(self, item_id: str, *, before_s: float = 2.0, after_s: float = 1.0) -> bytes:
        """The audio in which an item was said."""
        self._log.refresh()
        return sound.clip(self._log, item_id, before_s=before_s, after_s=after_s)

    def told(self, utterance: Utterance) -> list[str]:
        """What an utterance came to, a line an item, with what it asks."""
        return output.told(self._log, self.record(), utterance)

    def _understander(self) -> Understander:
        if self._built is None:
            self._built = Understander(self._log)
        return self._built

    def _listening(self) -> sound.Ears:
        if self._ears is None:
            raise ModelError("this bench has no listener", to_do="Open it with one to hear audio")
        return self._ears


def _words(text: str) -> str:
    """The words in *text*, one space between; TextError where there are none."""
    words = script_words(text)
    if not words:
        raise TextError("no words were given", to_do="Type what you would say")
    return " ".join(words)
