"""How long judging a job and telling a history take, and how that grows.

Prints the processor time at each length (what others do on the machine does not count) and that for one
reading or visit as a ratio to the shortest: 1.0 throughout means that the last costs what the first one did.
The aims are 50 ms for a job of 500 readings and 1 s for a history of 10,000 visits.

Usage: python tools/bench_judging.py
"""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import partial

from saywright.judging.across import across
from saywright.judging.derived import derived
from saywright.judging.history import Visit, history
from saywright.judging.judge import judge
from saywright.record.types import Job, Reading, Record
from saywright.sheets.load import load_sheet
from saywright.sheets.model import Characteristic, Sheet

READINGS = (50, 500, 5_000)
VISITS = (100, 1_000, 10_000)
JOB_AIM_S, HISTORY_AIM_S = 0.050, 1.0  # at 500 readings, at 10,000 visits
TRIES = 5  # the best counts: others share the caches of the machine
OPENED = datetime(2026, 3, 14, tzinfo=UTC)


def record_of(sheet: Sheet, readings: int, visit: int = 0) -> Record:
    """A job of so many readings: every value of the sheet in turn, each third one repeated."""
    places = [
        (component.id, which, characteristic)
        for component, characteristic in sheet.characteristics()
        if characteristic.formula is None
        for which in component.whiches or (None,)
    ]
    made = []
    for number in range(readings):
        component, which, characteristic = places[(number // 3 * 2 + number % 3 % 2) % len(places)]
        made.append(
            Reading(
                id=f"s{number}",
                stage="as_found" if number % 2 else "as_left",
                heard="",
                component=component,
                which=which,
                characteristic=characteristic.id,
                value=value_of(characteristic, number + visit),
                unit=characteristic.unit,
                repeat_of=f"s{number - 2}" if number % 3 == 2 else None,
            )
        )
    job = Job(id=f"j{visit:05}", title="t", sheet=sheet.id, sheet_revision="A", opened_at=OPENED)
    return Record(job=job, readings=tuple(made))


def value_of(characteristic: Characteristic, number: int) -> str:
    """A value that changes a little from one to the next."""
    if characteristic.allowed:
        return str(characteristic.allowed[number % len(characteristic.allowed)])
    lower, upper = characteristic.limits
    base = float(lower if lower is not None else upper or 1)
    return f"{base * (1 + (number % 17) / 400):.2f}"


def best(work: Callable[[], object]) -> float:
    """Processor seconds of the fastest of a few tries."""
    times = []
    for _ in range(TRIES):
        started = time.process_time()
        work()
        times.append(time.process_time() - started)
    return min(times)


def table(
    title: str, unit: str, lengths: tuple[int, ...], work_of: Callable[[int], Callable[[], object]]
) -> float:
    """Print a line for each length; the seconds at the middle length, or the last of a history."""
    print(f"{title:<28}{unit:>10}        time   each, as a ratio to the first")
    first: float | None = None
    taken: dict[int, float] = {}
    for length in lengths:
        taken[length] = best(work_of(length))
        each = taken[length] / length
        first = first or each
        print(f"{'':<28}{length:10,}   {1000 * taken[length]:6,.1f} ms   {each / first:30.2f}")
    return taken[500] if 500 in taken else taken[lengths[-1]]


def whole(record: Record, sheet: Sheet) -> None:
    """All that is decided on a job."""
    derived(judge(record, sheet), sheet)


def main() -> None:
    """Print the tables and whether the aims are met."""
    sheet = load_sheet("hand-pump")
    judge(record_of(sheet, 50), sheet)  # the first call fills what is kept from one call to the next
    job_s = table("judging a job", "readings", READINGS, lambda n: partial(whole, record_of(sheet, n), sheet))
    visits = [
        Visit(f"j{n:05}", date(2000, 1, 1) + timedelta(days=n // 3), record_of(sheet, 3, n), sheet)
        for n in range(VISITS[-1])
    ]
    history_s = table("history, 3 readings a visit", "visits", VISITS, lambda n: lambda: history(visits[:n]))
    records = [visit.record for visit in visits]
    table("across jobs", "jobs", VISITS[:2], lambda n: lambda: across(records[:n], sheet))
    for what, taken, aim in (
        ("500 readings judged", job_s, JOB_AIM_S),
        ("10,000 visits told", history_s, HISTORY_AIM_S),
    ):
        verdict = "met" if taken < aim else "NOT MET"
        print(f"{what} in {1000 * taken:,.0f} ms; aim {1000 * aim:,.0f} ms: {verdict}")


if __name__ == "__main__":
    main()
