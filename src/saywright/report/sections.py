"""Sections that show conditions, work, photos, marks, open items, cautions and remarks."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from decimal import Decimal

from saywright.judging.proposals import Step, settled
from saywright.judging.wording import STAGE_WORDS, capital
from saywright.record.types import (
    Action,
    Condition,
    Item,
    Measurement,
    Movement,
    OpenItem,
    Photo,
    Record,
    waits,
)
from saywright.report.tree import (
    Block,
    Cell,
    Column,
    Line,
    Picture,
    Pictures,
    Prose,
    Row,
    Section,
    Span,
    Table,
    cell,
    line,
)
from saywright.report.wording import (
    asks_line,
    clock_text,
    current,
    evidence,
    listed,
    part_text,
    ref,
    sentence,
)
from saywright.sheets.model import Sheet

_OPEN_WORDS = {
    "ask": "Asks",
    "unclear": "Not understood",
    "missing": "Missing",
    "off": "Off, not back on",
    "not_renewed": "Not renewed",
    "renewed_twice": "Renewed twice",
    "surplus": "Surplus",
    "not_restored": "Not restored",
    "photo_mark": "Photo announced, none there",
    "photo": "Photo without a mark",
    "recording": "Recording not heard out",
}

_STATUS_WORDS = {"done": "done", "proposed": "proposed", "declined": "decided against"}


def _nothing(text: str) -> tuple[Prose, ...]:
    return (Prose((line(text),)),)


def _row(item: Item, *cells: Cell) -> Row:
    return Row(cells, asks=waits(item))


def condition_words(sheet: Sheet, condition: Condition) -> str:
    """Like "scored, slight" or "not cracked"."""
    words = sheet.condition_label(condition.condition)
    degree = f", {condition.severity}" if condition.severity else ""
    return f"{'' if condition.present else 'not '}{words}{degree}"


def conditions_section(record: Record, sheet: Sheet) -> Section:
    """What state the parts were in."""
    held = current(record.conditions)
    if not held:
        return Section("conditions", "Conditions found", _nothing("No conditions were recorded."))
    rows = []
    for condition in held:
        words = condition_words(sheet, condition)
        rows.append(
            _row(
                condition,
                cell(capital(part_text(sheet, condition.component, condition.which))),
                Cell((line(Span(words, provisional=waits(condition)), ref(condition)), asks_line(condition))),
                cell(STAGE_WORDS[condition.stage]),
                cell(Span(f"“{condition.heard}”", tone="small")),
            )
        )
    columns = (Column("Part", 3), Column("Condition", 4), Column("When", 1.6), Column("As it was said", 5))
    return Section("conditions", "Conditions found", (Table(columns, tuple(rows)),))


def actions_section(record: Record, sheet: Sheet) -> Section:
    """What was done, is proposed, or was decided against; behind a proposal what became of it."""
    held = current(record.actions)
    if not held:
        return Section("actions", "Work done and proposed", _nothing("No work was recorded."))
    over = settled(record, sheet, renewed=True)
    order = {"done": 0, "proposed": 1, "declined": 2}
    told = sorted(held, key=lambda a: (order[a.status], a.id in over))
    rows = [_action_row(action, over.get(action.id), sheet) for action in told]
    columns = (Column("Part", 3), Column("Work", 4), Column("Status", 2.4), Column("As it was said", 5))
    return Section("actions", "Work done and proposed", (Table(columns, tuple(rows)),))


def _action_row(action: Action, settled_by: Step | None, sheet: Sheet) -> Row:
    words = sheet.action_label(action.action) + (
        f", {action.quantity}" if action.quantity is not None else ""
    )
    since = (
        line(
            Span(since_words(settled_by, action), tone="small", provisional=waits(settled_by)),
            ref(settled_by),
        )
        if settled_by
        else ()
    )
    return _row(
        action,
        cell(capital(part_text(sheet, action.component, action.which))),
        Cell((line(Span(words, provisional=waits(action)), ref(action)), asks_line(action))),
        Cell((line(_STATUS_WORDS[action.status]), since)),
        cell(Span(f"“{action.heard}”", tone="small")),
    )


def since_words(step: Step, proposal: Action) -> str:
    """What became of *proposal*, by the step that settled it; an order that nobody placed is not done."""
    if isinstance(step, Movement):
        return "a new one fitted since" if step.part == "new" else "back on since"
    if step.status == "done" and step.action != proposal.action:
        return "a new one fitted since"
    return f"{_STATUS_WORDS[step.status]} since"


def photo_caption(photo: Photo, sheet: Sheet) -> str:
    """Like "Main jet, as found: chewed slot"."""
    part = (
        capital(part_text(sheet, photo.component, photo.which)) if photo.component else "Not placed on a part"
    )
    found = listed(sheet.condition_label(c) for c in photo.conditions)
    return f"{part}, {STAGE_WORDS[photo.stage]}{': ' + found if found else ''}"


def photos_section(record: Record, sheet: Sheet) -> Section:
    """The pictures, each with what it shows and the words that announced it."""
    entered = {reading.id for reading in record.readings}
    held = [(photo, photo.sha256) for photo in current(record.photos) if photo.sha256]
    if not held:
        return Section("photos", "Photos", _nothing("No photos belong to this record."))
    shown = [_picture(photo, sha256, sheet, entered) for photo, sha256 in held if photo.in_report]
    blocks: list[Block] = [Pictures(tuple(shown))] if shown else []
    if left := len(held) - len(shown):
        are = "picture is" if left == 1 else "pictures are"
        blocks.append(Prose((line(f"{left} {are} kept with the record and not shown here."),)))
    return Section("photos", "Photos", tuple(blocks))


def _picture(photo: Photo, sha256: str, sheet: Sheet, entered: Collection[str]) -> Picture:
    caption = photo_caption(photo, sheet)
    taken = f"Taken {photo.taken_at:%Y-%m-%d %H:%M:%S} by the camera's clock" if photo.taken_at else ""
    notes = [
        flag.text for flag in photo.flags if flag.level == "note" and flag.kind.value.startswith("photo_")
    ]
    lines: list[Line] = [line(Span(caption, tone="strong", provisional=waits(photo)), ref(photo))]
    if photo.heard:
        lines.append(line(Span(f"“{photo.heard}”", tone="small")))
    detail = " · ".join(part for part in (photo.name or "", taken, *notes) if part)
    if detail:
        lines.append(line(Span(detail, tone="small")))
    lines += [_measured_line(measure, entered=measure.id in entered) for measure in photo.measurements]
    if waits(photo):
        lines.append(asks_line(photo))
    return Picture(evidence(photo), sha256, caption, tuple(lines))


def _measured_line(measure: Measurement, *, entered: bool) -> Line:
    """A candidate is told as one: it was judged against nothing, unless a person entered it."""
    name = "diameter" if measure.kind == "circle" else measure.kind
    unit = "°" if measure.unit == "deg" else f" {measure.unit}"
    doubled = Decimal(measure.u) * 2
    words = f"Measured in the picture: {name} {measure.value}{unit} ± {doubled}{unit} (k = 2)"
    what = f"entered as reading {measure.id}" if entered else "no reading"
    return line(Span(f"{words}, {what}", tone="small"))


def open_section(record: Record, sheet: Sheet) -> Section:
    """What still asks for a person, and what is missing; explained ones with their reason."""
    title = "Open items"
    if not record.open_items:
        return Section("open", title, _nothing("Nothing is open."))
    waiting = [item for item in record.open_items if item.explained is None]
    explained = [item for item in record.open_items if item.explained is not None]
    columns = (Column("What", 2.2), Column("Part", 2.6), Column("The question, or what is missing", 7))
    rows = [_open_row(item, sheet) for item in (*waiting, *explained)]
    return Section("open", title, (Table(columns, tuple(rows)),))


def _open_row(item: OpenItem, sheet: Sheet) -> Row:
    lines: list[Line] = [
        line(sentence(item.text), *([Span(f" {item.item}", tone="tag")] if item.item else []))
    ]
    when = f", at {clock_text(item.start_s)}" if item.start_s is not None else ""
    if item.heard and item.heard not in item.text:
        lines.append(line(Span(f"Heard: “{item.heard}”{when}", tone="small")))
    elif when:
        lines.append(line(Span(f"Said{when.removeprefix(',')}", tone="small")))
    if item.explained is not None:
        lines.append(line(Span(f"May stay open: {item.explained}", tone="strong")))
    asks = item.explained is None
    part = capital(part_text(sheet, item.component, item.which)) if item.component else ""
    return Row(
        (cell(Span(_OPEN_WORDS[item.kind], tone="strong", provisional=asks)), cell(part), Cell(tuple(lines))),
        asks=asks,
    )


def cautions_section(sheet: Sheet) -> Section | None:
    """The warnings of the sheet; None where it has none."""
    texts = [line(sentence(caution.text)) for caution in sheet.caution if caution.text]
    return Section("cautions", "Cautions of the sheet", (Prose(tuple(texts), "caution"),)) if texts else None


def marks_section(record: Record, sheet: Sheet) -> Section | None:
    """Serial numbers, part numbers, stamps and tags that were read out; None where none were."""
    held = current(record.identifiers)
    if not held:
        return None
    rows = [
        _row(
            item,
            cell(item.identifier.replace("_", " ")),
            cell(capital(part_text(sheet, item.component)) if item.component else "The item"),
            Cell(
                (
                    line(
                        Span(
                            item.value + (" (in part)" if item.partial else ""),
                            tone="figure",
                            evidence=evidence(item),
                            provisional=waits(item),
                        ),
                        ref(item),
                    ),
                    asks_line(item),
                )
            ),
        )
        for item in held
    ]
    columns = (Column("Mark", 2), Column("On", 3), Column("Read as", 6))
    return Section("marks", "Marks read", (Table(columns, tuple(rows)),))


def remarks_section(record: Record) -> Section | None:
    """Words that were kept but are not for the record; None where there are none."""
    rows = _remark_rows(record.remarks)
    if not rows:
        return None
    columns = (Column("At", 1.3), Column("Words", 7), Column("Why a remark", 3))
    return Section("remarks", "Remarks, not for the record", (Table(columns, rows),))


def _remark_rows(remarks: Iterable[Item]) -> tuple[Row, ...]:
    return tuple(
        Row(
            (
                cell(clock_text(remark.start_s) if remark.start_s is not None else ""),
                Cell((line(f"“{remark.heard}”", ref(remark)),)),
                cell(getattr(remark, "reason", "")),
            )
        )
        for remark in remarks
    )
