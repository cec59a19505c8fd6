"""The one way in: wires the stages. Faces (`cli`, `web`) call `Bench` and nothing deeper."""

from __future__ import annotations

from saywright.errors import StaleError
from saywright.hearing.listener import Listener
from saywright.record.events import Event, JobDescribed, JobOpened
from saywright.sheets.model import Sheet
from saywright.store.protocol import Store
from saywright.wiring import review
from saywright.wiring.bench_foretell import ForetellPart
from saywright.wiring.bench_hearing import HearingPart
from saywright.wiring.bench_output import OutputPart
from saywright.wiring.bench_pictures import PicturesPart
from saywright.wiring.bench_review import ReviewPart
from saywright.wiring.bench_wedge import WedgePart
from saywright.wiring.log import Clock, JobLog
from saywright.wiring.verify import verify_job

__all__ = ["Bench", "Clock"]


class Bench(HearingPart, WedgePart, ForetellPart, PicturesPart, ReviewPart, OutputPart):
    """One job, from the first word to the report. Use `open` or `resume`."""

    def __init__(self, log: JobLog, *, listener: Listener | None = None, actor: str = "technician") -> None:
        """Over the log of a job."""
        super().__init__(log, listener=listener, actor=actor)

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
        """Go on with a job. Recordings that a crash cut off are left as they are until `hear_rest`."""
        log = JobLog(store, job_id, clock)
        return cls(log, listener=listener, actor=actor)

    def events(self) -> tuple[Event, ...]:
        """Everything that happened so far."""
        self._log.refresh()
        return tuple(self._log.events)

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
