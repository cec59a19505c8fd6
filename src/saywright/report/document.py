"""record, sheet and events → the document.

Every number in it carries the item it came from and the event that last changed that item.
Decisions, uncertainties and their sentences come from judging; nothing is judged here.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.judging.benchtime import BenchTime
from saywright.judging.derived import derived
from saywright.judging.history import Course
from saywright.judging.refit import refit
from saywright.record.events import Event
from saywright.record.revisions import revisions
from saywright.record.types import Record
from saywright.report.bench_work import refit_section, time_section
from saywright.report.computed import computed_lines, computed_section
from saywright.report.judgements import judge_readings, rule_words
from saywright.report.movement import ledger_section
from saywright.report.pairs import Pair, pairs_section
from saywright.report.parts import parts_section
from saywright.report.past import past_section
from saywright.report.readings import judged_section, readings_section
from saywright.report.sections import (
    actions_section,
    cautions_section,
    conditions_section,
    marks_section,
    open_section,
    photos_section,
    remarks_section,
)
from saywright.report.summary import head, summary_section
from saywright.report.trace import corrections_section, trace_section
from saywright.report.tree import Document
from saywright.sheets.model import Sheet


def build_document(
    record: Record,
    sheet: Sheet,
    *,
    events: Sequence[Event] = (),
    with_remarks: bool = False,
    courses: Sequence[Course] = (),
    time: BenchTime | None = None,
    pairs: Sequence[Pair] = (),
) -> Document:
    """The report of a record that was already judged.

    *events* gives the audit of corrections, the listener and the recordings; without them these are
    told as far as the record knows. *with_remarks* shows the talk that is not for the record too.
    *courses*: each value over all visits of the item up to this job. *time*: shown where it is given.
    *pairs*: pictures before and after, already laid over each other.
    """
    judged = judge_readings(record, sheet)
    computed = derived(record, sheet)
    sections = (
        summary_section(record, sheet, computed_lines(computed)),
        readings_section(record, sheet, judged),
        computed_section(record, computed),
        past_section(courses, record.job.id),
        conditions_section(record, sheet),
        actions_section(record, sheet),
        parts_section(record, sheet),
        photos_section(record, sheet),
        pairs_section(pairs, sheet),
        ledger_section(record, sheet),
        refit_section(record, refit(record, sheet)),
        time_section(time) if time is not None else None,
        marks_section(record, sheet),
        open_section(record, sheet),
        corrections_section(record, sheet, events),
        cautions_section(sheet),
        judged_section(record, sheet, judged, rule_words(sheet)),
        trace_section(record, sheet, events),
        remarks_section(record) if with_remarks else None,
    )
    last = max((event.at for event in events), default=record.job.opened_at)
    return Document(
        head=head(record, sheet, revisions(events)),
        sections=tuple(section for section in sections if section is not None),
        job=record.job.id,
        short_hash=(record.record_hash or "")[:12],
        made_at=record.sign_off.at if record.sign_off else last,
    )
