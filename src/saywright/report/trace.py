"""Sections that lead back: what was corrected and by whom, and the words behind each item."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from saywright.flags import FlagKind
from saywright.judging.wording import STAGE_WORDS, thing
from saywright.record import events as ev
from saywright.record.types import (
    Action,
    Condition,
    Identifier,
    Item,
    Movement,
    Photo,
    Reading,
    Record,
    Remark,
    waits,
)
from saywright.report.sections import condition_words, photo_caption
from saywright.report.tree import Cell, Column, Line, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import (
    evidence,
    moment_text,
    part_text,
    place_text,
    plural,
    value_text,
)
from saywright.sheets.model import Sheet

_WORDLESS_SHOWN = 8  # moments; the rest is counted
_JOB_FIELDS = ("title", "item", "serial", "customer")


def items(record: Record) -> list[Item]:
    """Everything that was said or shown, remarks aside, in the order of its ids: s2 before s10."""
    return sorted((item for item in record.items() if not isinstance(item, Remark)), key=_id_order)


def _id_order(item: Item) -> tuple[str, int, str]:
    head = item.id.rstrip("0123456789")
    return head, int(item.id[len(head) :] or 0), item.id


def item_words(item: Item, sheet: Sheet) -> str:
    """The item in one line."""
    match item:
        case Reading():
            characteristic = sheet.find(item.component, item.characteristic)
            name = thing(sheet, item.component, item.which, item.characteristic, item.place)
            return f"{name}: {value_text(item, characteristic)}, {STAGE_WORDS[item.stage]}"
        case Condition():
            return f"{part_text(sheet, item.component, item.which)}: {condition_words(sheet, item)}"
        case Action():
            work = f"{sheet.action_label(item.action)}, {item.status}"
            return f"{part_text(sheet, item.component, item.which)}: {work}"
        case Movement():
            age = f", {item.part}" if item.part else ""
            return f"{part_text(sheet, item.component, item.which)}: {item.count} {item.movement}{age}"
        case Identifier():
            return f"{item.identifier.replace('_', ' ')}: {item.value}"
        case Photo():
            return f"photo, {photo_caption(item, sheet)}"
        case _:
            return "not understood"


def corrections_section(record: Record, sheet: Sheet, events: Sequence[ev.Event]) -> Section:
    """What was replaced, withdrawn or corrected, by whom and why. Nothing is ever erased."""
    rows = [
        *_spoken_rows(record, sheet),
        *(_event_rows(record, events) if events else _flag_rows(record, sheet)),
    ]
    if not rows:
        return Section("corrections", "Corrections", (Prose((line("Nothing was corrected."),)),))
    columns = (Column("Item", 1), Column("By", 2), Column("What changed", 6), Column("Why", 3))
    return Section("corrections", "Corrections", (Table(columns, tuple(rows)),))


def _spoken_rows(record: Record, sheet: Sheet) -> Iterable[Row]:
    """What a later statement replaced. Withdrawals by a person come from the events."""
    for item in items(record):
        after = item.superseded_by
        if after is None or after.startswith("event-"):
            continue
        words = Span(item_words(item, sheet), evidence=evidence(item))
        yield Row(
            (
                cell(Span(item.id, tone="tag", evidence=evidence(item))),
                cell("said at the bench"),
                Cell((line(words), line(Span(f"replaced or withdrawn by {after}", tone="small")))),
                cell(Span(_words_of(record, after), tone="small")),
            )
        )


def _words_of(record: Record, item_id: str) -> str:
    every = [*items(record), *record.remarks]
    return next((f"“{item.heard}”" for item in every if item.id == item_id), "")


def _flag_rows(record: Record, sheet: Sheet) -> Iterable[Row]:
    """Without the events: what the items themselves say was changed by a person."""
    for item in items(record):
        notes = [f.text for f in item.flags if f.kind is FlagKind.BY_PERSON]
        withdrawn = (item.superseded_by or "").startswith("event-")
        if notes or withdrawn:
            words = "; ".join([*notes, *(["withdrawn"] if withdrawn else [])])
            now = Span(item_words(item, sheet), evidence=evidence(item))
            yield Row(
                (
                    cell(Span(item.id, tone="tag", evidence=evidence(item))),
                    cell(item.accepted_by or ""),
                    Cell((line(now), line(Span(words, tone="small")))),
                    cell(""),
                )
            )


def _event_rows(record: Record, events: Sequence[ev.Event]) -> Iterable[Row]:
    """One row an event by which a person changed something, with the values before and after."""
    before: dict[str, dict[str, Any]] = {}
    undone: dict[int, tuple[str, dict[str, Any]]] = {}  # event → its item, and that as an undo leaves it
    for event in events:
        match event.payload:
            case ev.JobOpened():
                before[""] = event.payload.model_dump(include=set(_JOB_FIELDS))
            case ev.Understood(statements=statements):
                before.update({statement.id: statement.model_dump() for statement in statements})
            case ev.ItemCorrected(item=item_id, changes=changes, why=why):
                undone[event.seq] = (item_id, dict(before.get(item_id, {})))
                yield _audit_row(event, item_id, _changes(before.setdefault(item_id, {}), changes), why)
            case ev.JobDescribed():
                given = event.payload.model_dump(include=set(_JOB_FIELDS), exclude_none=True)
                yield _audit_row(event, "", _changes(before.setdefault("", {}), given), "")
            case _:
                if isinstance(event.payload, ev.ChangeUndone) and event.payload.event in undone:
                    name, was = undone[event.payload.event]
                    undone[event.seq] = (name, before[name])
                    before[name] = was
                told, item_id, why = _other_words(event, before, record)
                if told:
                    yield _audit_row(event, item_id, [line(told)], why)


def _other_words(event: ev.Event, before: dict[str, dict[str, Any]], record: Record) -> tuple[str, str, str]:
    """What an event that changes no field did, the item, and why; "" where it is no correction."""
    match event.payload:
        case ev.ItemWithdrawn(item=item_id, why=why):
            heard = str(before.get(item_id, {}).get("heard", ""))
            return (f"withdrawn; heard: “{heard}”" if heard else "withdrawn"), item_id, why
        case ev.OpenItemExplained(open_item=open_item, why=why):
            return f"open item {open_item} may stay open", "", why
        case ev.PhotoPlaced(photo=photo, mark=mark, component=component, confidence=None):
            return f"picture {photo} placed by hand", mark or photo, f"on {component}" if component else ""
        case ev.PhotoMeasured(photo=photo, measurement=measured):
            return f"{measured.kind} measured: {measured.value} {measured.unit}", photo, ""
        case ev.Signed(record_hash=signed) if (
            record.sign_off is None or record.sign_off.record_hash != signed
        ):
            return "signed; a later change took the signature away", "", ""
        case _:
            return _edit_words(event)


def _edit_words(event: ev.Event) -> tuple[str, str, str]:
    """The same for what a person entered, split, merged or undid."""
    match event.payload:
        case ev.ItemAdded(statement=statement, why=why):
            return "entered in a form", statement.id, why
        case ev.ItemSplit(item=item_id, into=into, why=why):
            return f"split into {', '.join(piece.id for piece in into)}", item_id, why
        case ev.ItemsMerged(items=items, into=item_id, why=why):
            return f"taken for the same as {', '.join(items)}", item_id, why
        case ev.ChangeUndone(event=undone, why=why):
            return f"event {undone} undone", "", why
        case _:
            return "", "", ""


def _changes(old: dict[str, Any], new: dict[str, Any]) -> list[Line]:
    """A line a field; *old* is brought up to date, so that the next change starts from here."""
    told = [line(_change(field, old.get(field), value)) for field, value in new.items()]
    old.update(new)
    return told


def _change(field: str, old: object, new: object) -> str:
    return f"{field.replace('_', ' ')}: {'–' if old is None else old} → {'–' if new is None else new}"


def _audit_row(event: ev.Event, item_id: str, told: list[Line], why: str) -> Row:
    when = Span(f"{moment_text(event.at)}, event {event.seq}", tone="small")
    return Row(
        (
            cell(Span(item_id, tone="tag")) if item_id else cell(),
            Cell((line(event.actor), line(when))),
            Cell(tuple(told)),
            cell(why),
        )
    )


def trace_section(record: Record, sheet: Sheet, events: Sequence[ev.Event]) -> Section:
    """The words, the time and the event behind each item."""
    rows = tuple(_trace_row(item, sheet) for item in items(record))
    columns = (
        Column("Item", 0.9),
        Column("What it says", 4.4),
        Column("The words heard", 5),
        Column("At", 1.5),
        Column("Event", 1.1, right=True),
        Column("Accepted by", 1.8),
    )
    lines = (*_source_lines(events), *_hash_lines(record, events))
    return Section("trace", "Trace", (Prose(lines), *((Table(columns, rows),) if rows else ())))


def _trace_row(item: Item, sheet: Sheet) -> Row:
    lines: list[Line] = [
        line(Span(item_words(item, sheet), evidence=evidence(item), provisional=waits(item)))
    ]
    if item.superseded_by:
        lines.append(line(Span("no longer holds", tone="small")))
    notes = [flag.text for flag in item.flags if flag.level == "note" or item.accepted_by is None]
    if notes:
        lines.append(line(Span("; ".join(notes), tone="small")))
    return Row(
        (
            cell(Span(item.id, tone="tag")),
            Cell(tuple(lines)),
            cell(f"“{item.heard}”" if item.heard else ""),
            cell(_came(item)),
            cell(str(item.event) if item.event is not None else "–"),
            cell(item.accepted_by or ""),
        ),
        anchor=item.id,
        asks=waits(item) and item.superseded_by is None,
    )


def _came(item: Item) -> str:
    """Where the item is in the source; a picture that no mark announced came as a file."""
    unannounced = isinstance(item, Photo) and item.sha256 is not None and item.utterance is None
    return "a file" if unannounced else place_text(item)


def _source_lines(events: Sequence[ev.Event]) -> tuple[Line, ...]:
    heard = [event.payload.utterance for event in events if isinstance(event.payload, ev.Heard)]
    told = [event.payload for event in events if isinstance(event.payload, ev.AudioAdded)]
    recordings = {sound.recording or sound.sha256: sound for sound in told}.values()  # as last told
    lines: list[Line] = []
    if heard:
        by = ", ".join(dict.fromkeys(utterance.listener for utterance in heard))
        lines.append(line(f"{plural(len(heard), 'utterance')} heard by {by}."))
    lines.extend(line(f"Recording {sound.name}, {_content(sound)}.") for sound in recordings)
    return tuple(lines)


def _content(sound: ev.AudioAdded) -> str:
    """The hash of what was recorded, which a live recording has once it has ended; where no words came."""
    if sound.sha256 == sound.recording:
        return "not ended"
    return f"SHA-256 {sound.sha256}{_wordless(sound.wordless)}"


def _wordless(starts_s: tuple[float, ...]) -> str:
    """Where something sounded like speech and no words were found in it."""
    if not starts_s:
        return ""
    shown = ", ".join(f"{int(one) // 60}:{int(one) % 60:02}" for one in starts_s[:_WORDLESS_SHOWN])
    more = f" and {len(starts_s) - _WORDLESS_SHOWN} more" if len(starts_s) > _WORDLESS_SHOWN else ""
    return f"; sounds like speech without words at {shown}{more}"


def _hash_lines(record: Record, events: Sequence[ev.Event]) -> tuple[Line, ...]:
    lines: list[Line] = []
    if events:
        lines.append(
            line(f"The log holds {plural(len(events), 'event')}, each chained to the one before by its hash.")
        )
    if record.record_hash:
        lines.append(line("Hash of the record: ", Span(record.record_hash, tone="figure"), "."))
    if record.sign_off:
        lines.append(line("Hash signed for: ", Span(record.sign_off.record_hash, tone="figure"), "."))
    remarks = len(record.remarks)
    if remarks:
        lines.append(line(f"{plural(remarks, 'remark')} kept in the record and not shown here."))
    return tuple(lines) or (line("No events were handed to this report."),)
