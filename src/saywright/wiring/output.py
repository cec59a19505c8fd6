"""The record out of the house: report and exports."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from saywright.errors import RefusedError
from saywright.hearing.words import Utterance
from saywright.judging.benchtime import bench_time
from saywright.record.events import Event, Heard, Understood
from saywright.record.types import Record
from saywright.report import answers
from saywright.report.bench_work import minutes_text
from saywright.report.document import build_document
from saywright.report.export import export as export_record
from saywright.report.html import to_html
from saywright.report.pdf import Pages, to_pages, to_pdf
from saywright.report.trace import item_words, items
from saywright.report.tree import Document
from saywright.understanding.statements import BenchCommand, CommandName
from saywright.wiring import comparing, history, pictures
from saywright.wiring.log import JobLog

_SETTERS: dict[str, Callable[..., bytes]] = {"pdf": to_pdf, "html": to_html}
_EXPORTS = {"json": "json", "csv": "csv", "parts": "parts.csv", "text": "text"}
FORMATS = (*_EXPORTS, *_SETTERS)
_PICTURE_PX = 1600  # longer side in the report


def report(
    log: JobLog, record: Record, formats: Sequence[str], *, with_time: bool = False
) -> dict[str, bytes]:
    """The report by format, with the bench time where wished; RefusedError for a format not known."""
    for name in formats:
        if name not in _SETTERS:
            raise RefusedError(f"there is no report format '{name}'", to_do=f"Known: {', '.join(_SETTERS)}")
    document, shown = _document(log, record, with_time=with_time)
    return {name: _SETTERS[name](document, shown, language=log.sheet.language) for name in formats}


def pages(log: JobLog, record: Record) -> Pages:
    """The report as it will be printed: the PDF, and its pages as pictures."""
    document, shown = _document(log, record, with_time=False)
    return to_pages(document, shown, language=log.sheet.language)


def _document(log: JobLog, record: Record, *, with_time: bool) -> tuple[Document, dict[str, bytes]]:
    """The document, and the pictures it shows by their content's name."""
    events = _up_to(log, record)
    time = bench_time(record, events, log.sheet) if with_time else None
    past = history.up_to(log.store, record)
    compared = comparing.pairs(log, record)
    document = build_document(
        record, log.sheet, events=events, courses=past, time=time, pairs=[pair for pair, _ in compared]
    )
    shown = {
        photo.sha256: pictures.jpeg(log, photo.id, _PICTURE_PX, drawn=True)
        for photo in record.photos
        if photo.sha256 is not None and photo.superseded_by is None and photo.in_report
    } | {pair.sha256: jpeg for pair, jpeg in compared}
    return document, shown


def _up_to(log: JobLog, record: Record) -> tuple[Event, ...]:
    """The events that *record* was folded from: others may append while it is set."""
    events = tuple(log.events)
    ends = (number for number, event in enumerate(events, start=1) if event.hash == record.record_hash)
    return events[: next(ends, len(events))]


def export(log: JobLog, record: Record, name: str) -> bytes:
    """The record in one of the export formats."""
    if name not in _EXPORTS:
        raise RefusedError(f"there is no export format '{name}'", to_do=f"Known: {', '.join(FORMATS)}")
    past = history.up_to(log.store, record) if name == "text" else ()
    return export_record(record, log.sheet, _EXPORTS[name], events=log.events, courses=past)


def answer(log: JobLog, record: Record, command: CommandName, *, hand: str | None) -> str:
    """The sentences for a command said now."""
    return answers.answer(command, record, log.sheet, log.events, hand=hand)


def to_do(log: JobLog, record: Record, *, hand: str | None) -> list[dict[str, str | None]]:
    """What is missing, in hand first, as plain data."""
    return [
        {
            "component": lack.component,
            "which": lack.which,
            "characteristic": lack.characteristic,
            "stage": lack.stage,
            "sentence": lack.sentence,
        }
        for lack in answers.to_do(record, log.sheet, hand)
    ]


def time_data(log: JobLog, record: Record) -> dict[str, Any]:
    """The bench time as plain data, with the words for it."""
    found = bench_time(record, log.events, log.sheet)
    lines = [
        {
            "component": one.component,
            "label": one.label,
            "stage": one.stage,
            "seconds": one.seconds,
            "computed_s": one.computed_s,
            "corrected_by": one.by,
            "why": one.why,
            "told": minutes_text(one.seconds) + (f", corrected by {one.by}" if one.by else ""),
        }
        for one in found.lines
    ]
    told = f"Together {minutes_text(found.total_s)}; {found.pauses} silences left out."
    told += f" Without a time: {found.untimed} utterances." if found.untimed else ""
    return {
        "lines": lines,
        "total_s": found.total_s,
        "pauses": found.pauses,
        "pauses_s": found.pauses_s,
        "untimed": found.untimed,
        "told": told,
    }


def told(log: JobLog, record: Record, utterance: Utterance) -> list[str]:
    """What an utterance came to, a line an item, with what it asks."""
    said = {e.seq for e in log.events if isinstance(e.payload, Heard) and e.payload.utterance == utterance}
    lines = []
    for item in items(record):
        if item.utterance in said and item.superseded_by is None:
            asks = "; ".join(flag.text for flag in item.flags if flag.level == "ask")
            lines.append(item_words(item, log.sheet) + (f"  ? {asks}" if asks else ""))
    for event in log.events:
        if isinstance(event.payload, Understood) and event.payload.heard in said:
            lines += [
                answers.answer(s.command, record, log.sheet, log.events, said_at=event.payload.heard)
                for s in event.payload.statements
                if isinstance(s, BenchCommand)
            ]
    return lines
