"""The check of a job against its sheet, told: what is missing, parts, time, earlier visits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from saywright.judging.benchtime import bench_time
from saywright.judging.orders import Order, orders
from saywright.record.ledger import LedgerLine, ledger
from saywright.record.types import OpenItem, Record
from saywright.report.bench_work import minutes_text
from saywright.report.movement import short_words
from saywright.wiring import history
from saywright.wiring.log import JobLog

EARLIER_VISITS = 3  # shown beside today


@dataclass(frozen=True)
class Moved:
    """One line of the ledger, told."""

    name: str
    line: LedgerLine
    told: tuple[str, ...]  # what does not balance, like "1 not back on"; empty where all does


@dataclass(frozen=True)
class Spent:
    """Bench time of one part at one stage, told."""

    component: str | None
    stage: str  # id
    name: str
    minutes: str  # what counts, as text
    corrected: str  # "" where nobody corrected it
    event: int | None  # that corrected it


@dataclass(frozen=True)
class Visit:
    """One time that the item was on the bench."""

    job: str
    day: date
    today: bool


@dataclass(frozen=True)
class Beside:
    """One characteristic at each visit: as found and as left, as said; None where not read."""

    name: str
    values: tuple[tuple[str | None, str | None], ...]


@dataclass(frozen=True)
class Check:
    """What the sheet asks for beside what the record has."""

    missing: tuple[OpenItem, ...]
    moved: tuple[Moved, ...]
    orders: tuple[Order, ...]
    time: tuple[Spent, ...]
    time_told: str
    visits: tuple[Visit, ...]  # oldest first; empty where the item was never here before
    beside: tuple[Beside, ...]


def check(log: JobLog, record: Record) -> Check:
    """The check of *record*, which is judged."""
    spent = bench_time(record, log.events, log.sheet)
    visits, beside = _past(log, record)
    return Check(
        missing=tuple(item for item in record.open_items if item.kind == "missing"),
        moved=moved(log, record),
        orders=orders(record, log.sheet),
        time=tuple(
            Spent(
                line.component,
                line.stage,
                line.label,
                minutes_text(line.seconds),
                _corrected(line.by, line.computed_s, line.why) if line.corrected_s is not None else "",
                line.event,
            )
            for line in spent.lines
        ),
        time_told=f"Together {minutes_text(spent.total_s)}." if spent.lines else "",
        visits=visits,
        beside=beside,
    )


def moved(log: JobLog, record: Record, up_to: str | None = None) -> tuple[Moved, ...]:
    """Parts off and on; with *up_to*, as they were when the item of that id had been said."""
    label = log.sheet.label
    return tuple(
        Moved(label(line.component, line.which), line, short_words(line))
        for line in ledger(record, log.sheet, up_to=up_to).lines
    )


def _corrected(by: str | None, computed_s: float, why: str) -> str:
    return f"corrected by {by} from {minutes_text(computed_s)}" + (f": {why}" if why else "")


def _past(log: JobLog, record: Record) -> tuple[tuple[Visit, ...], tuple[Beside, ...]]:
    """The last visits up to this job, and each characteristic at them."""
    if record.job.serial is None:
        return (), ()
    until = (record.job.opened_at, record.job.id)
    found = [v for v in history.visits(log.store, record.job.serial) if (v.opened_at, v.job_id) <= until]
    if len(found) < 2:
        return (), ()
    found = found[-1 - EARLIER_VISITS :]
    names: dict[tuple[str, str | None, str, str | None], str] = {}
    told: list[dict[tuple[str, str | None, str, str | None], tuple[str | None, str | None]]] = []
    for visit in found:
        lines = {(x.component, x.which, x.characteristic, x.place): x for x in visit.lines}
        names |= {key: line.name for key, line in lines.items()}
        told.append({key: (line.found, line.left) for key, line in lines.items()})
    visits = tuple(Visit(v.job_id, v.opened_at.date(), v.job_id == record.job.id) for v in found)
    beside = tuple(
        Beside(name, tuple(values.get(key, (None, None)) for values in told)) for key, name in names.items()
    )
    return visits, beside
