"""How long each part was worked on, from when things were said.

The time from one utterance to the next belongs to the part in hand after the first: the one its statements
are about, or the one before where it names none. A silence longer than the pause allowed is left out whole.
A person's correction takes the place of what was computed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from saywright.record.events import Event, Heard, TimeCorrected
from saywright.record.types import Item, Record
from saywright.record.undone import undone
from saywright.sheets.model import Sheet, Stage

PAUSE_S = 120.0  # seconds of silence; longer ones are breaks, not work


@dataclass(frozen=True, slots=True)
class TimeLine:
    """The time spent on one part at one stage."""

    component: str | None  # None: before any part was named
    stage: Stage
    label: str
    computed_s: float  # seconds, from the utterances
    corrected_s: float | None  # as a person gave it; None: not corrected
    by: str | None  # who corrected it
    why: str
    event: int | None = None  # that corrected it

    @property
    def seconds(self) -> float:
        """What counts."""
        return self.computed_s if self.corrected_s is None else self.corrected_s


@dataclass(frozen=True, slots=True)
class BenchTime:
    """The time of a job."""

    lines: tuple[TimeLine, ...]  # in the sheet's order, as found before as left; what names no part first
    pauses: int  # silences left out
    pauses_s: float  # their length, seconds
    untimed: int  # utterances without a time, such as typed ones

    @property
    def total_s(self) -> float:
        """All lines together, seconds."""
        return sum(line.seconds for line in self.lines)


@dataclass(frozen=True, slots=True)
class _Said:
    seq: int
    start_s: float
    end_s: float


def bench_time(
    record: Record, events: Iterable[Event], sheet: Sheet, *, pause_s: float = PAUSE_S
) -> BenchTime:
    """The time of a job, from its utterances and what they were understood as."""
    recordings, untimed, corrections = _sorted_out(events)
    about = _about(record)
    spent: dict[tuple[str | None, Stage], float] = defaultdict(float)
    pauses: list[float] = []
    at: tuple[str | None, Stage] = (None, "as_found")
    for said in recordings:
        for number, one in enumerate(said):
            at = about.get(one.seq, at)
            following = said[number + 1] if number + 1 < len(said) else None
            length = one.end_s - one.start_s
            if following is not None:
                silence = following.start_s - one.end_s
                if silence > pause_s:
                    pauses.append(silence)
                else:
                    length = following.start_s - one.start_s
            spent[at] += max(0.0, length)
    lines = [_line(key, spent.get(key, 0.0), corrections, sheet) for key in {*spent, *corrections}]
    order = {component.id: number for number, component in enumerate(sheet.component)}
    lines.sort(key=lambda x: (x.stage, -1 if x.component is None else order.get(x.component, len(order))))
    return BenchTime(tuple(lines), len(pauses), sum(pauses), untimed)


def _sorted_out(
    events: Iterable[Event],
) -> tuple[list[list[_Said]], int, dict[tuple[str | None, Stage], Event]]:
    """Utterances by recording, each in the order of time; how many have no time; corrections that hold."""
    events = tuple(events)
    gone = undone(events)
    by_media: dict[str | None, list[_Said]] = defaultdict(list)
    untimed = 0
    corrections: dict[tuple[str | None, Stage], Event] = {}
    for event in events:
        if isinstance(event.payload, TimeCorrected):
            if event.seq not in gone:
                corrections[(event.payload.component, event.payload.stage)] = event
        elif isinstance(event.payload, Heard):
            utterance = event.payload.utterance
            if utterance.start_s is None:
                untimed += 1
                continue
            end_s = utterance.end_s if utterance.end_s is not None else utterance.start_s
            by_media[utterance.media].append(_Said(event.seq, utterance.start_s, end_s))
    recordings = [sorted(said, key=lambda one: (one.start_s, one.seq)) for said in by_media.values()]
    return recordings, untimed, corrections


def _about(record: Record) -> dict[int, tuple[str | None, Stage]]:
    """Utterance → the part and stage of the last thing said in it that is for the record."""
    items: Sequence[Item] = (
        *record.readings,
        *record.conditions,
        *record.actions,
        *record.movements,
        *record.photos,
    )
    found: dict[int, tuple[str | None, Stage]] = {}
    for item in sorted(items, key=lambda one: (len(one.id), one.id)):
        component = getattr(item, "component", None)
        if item.utterance is not None and component is not None and item.superseded_by is None:
            found[item.utterance] = (component, item.stage)
    return found


def _line(
    key: tuple[str | None, Stage],
    seconds: float,
    corrections: dict[tuple[str | None, Stage], Event],
    sheet: Sheet,
) -> TimeLine:
    component, stage = key
    label = sheet.label(component) if component is not None else "no part named"
    event = corrections.get(key)
    if event is None or not isinstance(event.payload, TimeCorrected):
        return TimeLine(component, stage, label, seconds, None, None, "")
    given_s, why = 60 * float(event.payload.minutes), event.payload.why
    return TimeLine(component, stage, label, seconds, given_s, event.actor, why, event.seq)
