"""Record + sheet → what the job's page shows. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saywright.errors import NotFoundError
from saywright.hearing.words import Utterance
from saywright.record.types import Item, OpenItem, Photo, Reading, Record
from saywright.sheets.model import Sheet
from saywright.web import describe
from saywright.web.forms import Field, fields_for

OPEN_KINDS = {
    "ask": "Question",
    "unclear": "Not understood",
    "missing": "Missing",
    "off": "Off and not back on",
    "not_renewed": "Not renewed",
    "renewed_twice": "Renewed twice",
    "surplus": "Too many fitted",
    "not_restored": "Setting not restored",
    "photo_mark": "Photo announced, no picture",
    "photo": "Picture without a mark",
}
QUESTION_KINDS = frozenset({"ask", "unclear"})


@dataclass(frozen=True)
class Line:
    """One item, told."""

    id: str
    kind: str  # shown
    about: str  # component as shown; "" for none
    text: str
    value: str  # a reading without the name of its characteristic, a picture's file name; else as `text`
    limits: str  # of a reading, as shown; "" for none
    stage: str  # shown
    heard: str
    start_s: float | None
    clip: bool  # a recording of it is kept
    asks: tuple[str, ...]
    notes: tuple[str, ...]
    decision: str | None  # id; None for anything but a reading
    decision_text: str
    provisional: bool
    accepted_by: str | None
    superseded_by: str | None
    event: int | None
    others: tuple[tuple[str, int], ...]  # what else may have been said, probability in percent
    picture: str | None = None  # id of the picture; None where there is none


@dataclass(frozen=True)
class Question:
    """An item that waits for a person, with the form to correct it."""

    open_item: OpenItem
    line: Line | None
    fields: tuple[Field, ...]


@dataclass(frozen=True)
class Row:
    """One characteristic of one part: its readings at both stages against its limits."""

    name: str
    limits: str
    found: tuple[Line, ...]
    left: tuple[Line, ...]


@dataclass(frozen=True)
class Part:
    """All that is on record about one component."""

    name: str
    anchor: str
    rows: tuple[Row, ...] = ()
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True)
class JobView:
    """The page of one job."""

    record: Record
    sheet_title: str
    questions: tuple[Question, ...]
    parts: tuple[Part, ...]
    photos: tuple[Line, ...]
    open_groups: tuple[tuple[str, tuple[OpenItem, ...]], ...]
    remarks: tuple[Line, ...]
    gone: tuple[Line, ...]  # superseded or withdrawn
    marks: tuple[tuple[str, str], ...]  # photo marks without a picture: id, shown
    components: tuple[tuple[str, str], ...]
    whiches: tuple[str, ...]  # what tells several of a kind apart, over all components
    cautions: tuple[str, ...]

    @property
    def open_count(self) -> int:
        """How much is missing or open that nobody explained; questions are counted apart."""
        return sum(not item.explained for _, items in self.open_groups for item in items)

    @property
    def asking(self) -> tuple[OpenItem, ...]:
        """The questions that nobody explained."""
        return tuple(q.open_item for q in self.questions if not q.open_item.explained)

    @property
    def unsettled(self) -> tuple[OpenItem, ...]:
        """What stops a signature: all that is open and not explained, questions first."""
        rest = (item for _, items in self.open_groups for item in items if not item.explained)
        return (*self.asking, *rest)


def find_item(record: Record, item_id: str) -> Item:
    """The item with this id; NotFoundError where there is none."""
    for item in describe.items_of(record):
        if item.id == item_id:
            return item
    raise NotFoundError("no such item in this job", where=item_id[:40], to_do="Choose one on the job's page")


def line_of(
    item: Item,
    sheet: Sheet,
    utterances: Mapping[int, Utterance],
    pictures: Mapping[str, str] | None = None,
) -> Line:
    """The item as told on the page; *utterances* by event, ids of *pictures* by their content name."""
    utterance = utterances.get(item.utterance) if item.utterance is not None else None
    reading = item if isinstance(item, Reading) else None
    others = utterance.hypotheses[1:] if utterance else ()
    return Line(
        id=item.id,
        kind=describe.KINDS[item.kind],
        about=describe.about(item, sheet),
        text=describe.item_text(item, sheet),
        value=describe.value_text(item, sheet),
        limits=describe.limits_of(item, sheet),
        stage=describe.STAGES[item.stage],
        heard=item.heard,
        start_s=item.start_s,
        clip=item.start_s is not None and utterance is not None and utterance.media is not None,
        asks=tuple(flag.text for flag in item.flags if flag.level == "ask") if not item.accepted_by else (),
        notes=tuple(flag.text for flag in item.flags if flag.level == "note"),
        decision=reading.decision if reading else None,
        decision_text=describe.DECISIONS[reading.decision] if reading else "",
        provisional=reading.provisional if reading else False,
        accepted_by=item.accepted_by,
        superseded_by=item.superseded_by,
        event=item.event,
        others=tuple((h.text, round(100 * h.probability)) for h in others),
        picture=(pictures or {}).get(item.sha256 or "") if isinstance(item, Photo) else None,
    )


def job_view(
    record: Record, sheet: Sheet, utterances: Mapping[int, Utterance], pictures: Mapping[str, str]
) -> JobView:
    """Everything that the page of a job shows."""
    items = describe.items_of(record)
    current = [item for item in items if item.superseded_by is None]
    by_id = {item.id: item for item in items}

    def told(item: Item) -> Line:
        return line_of(item, sheet, utterances, pictures)

    def asked(open_item: OpenItem) -> Question:
        item = by_id.get(open_item.item or "")
        fields = fields_for(item, sheet) if item else ()
        return Question(open_item, told(item) if item else None, fields)

    questions = tuple(asked(o) for o in record.open_items if o.kind in QUESTION_KINDS)
    photos = [item for item in current if isinstance(item, Photo)]
    return JobView(
        record=record,
        sheet_title=sheet.title,
        questions=tuple(sorted(questions, key=lambda q: q.open_item.explained is not None)),
        parts=parts_of(current, sheet, utterances),
        photos=tuple(told(photo) for photo in photos if photo.sha256),
        open_groups=grouped(record.open_items),
        remarks=tuple(told(item) for item in current if item.kind == "remark"),
        gone=tuple(told(item) for item in items if item.superseded_by is not None),
        marks=tuple(
            (photo.id, f"{describe.about(photo, sheet) or 'no part named'}: “{photo.heard}”")
            for photo in photos
            if photo.sha256 is None
        ),
        components=tuple((component.id, component.label) for component in sheet.component),
        whiches=tuple(dict.fromkeys(which for component in sheet.component for which in component.whiches)),
        cautions=tuple(caution.text for caution in sheet.caution if caution.text),
    )


def grouped(open_items: tuple[OpenItem, ...]) -> tuple[tuple[str, tuple[OpenItem, ...]], ...]:
    """Open items that are no questions, by kind, in the order of OPEN_KINDS."""
    kinds = [kind for kind in OPEN_KINDS if kind not in QUESTION_KINDS]
    groups = ((OPEN_KINDS[kind], tuple(o for o in open_items if o.kind == kind)) for kind in kinds)
    return tuple((name, found) for name, found in groups if found)


def parts_of(current: list[Item], sheet: Sheet, utterances: Mapping[int, Utterance]) -> tuple[Part, ...]:
    """The items by component, in the sheet's order; what is tied to no part comes last."""
    found: dict[str | None, list[Item]] = {component.id: [] for component in sheet.component}
    for item in current:
        if item.kind in {"remark", "unclear"} or isinstance(item, Photo):
            continue
        found.setdefault(describe.component_of(item), []).append(item)
    return tuple(
        Part(
            name=sheet.label(component) if component else "Not tied to a part",
            anchor=f"part-{number}",
            rows=rows_of([i for i in items if isinstance(i, Reading)], sheet, utterances),
            lines=tuple(line_of(i, sheet, utterances) for i in items if not isinstance(i, Reading)),
        )
        for number, (component, items) in enumerate(found.items())
        if items
    )


def rows_of(readings: list[Reading], sheet: Sheet, utterances: Mapping[int, Utterance]) -> tuple[Row, ...]:
    """The readings of one component, a row for each characteristic of each single part."""
    rows: dict[tuple[str, str | None], list[Reading]] = {}
    for reading in readings:
        rows.setdefault((reading.characteristic, reading.which), []).append(reading)

    def row(characteristic_id: str, which: str | None, members: list[Reading]) -> Row:
        characteristic = sheet.find(members[0].component, characteristic_id)
        name = characteristic.label if characteristic else characteristic_id.replace("_", " ")
        return Row(
            name=f"{name}, {which}" if which else name,
            limits=describe.limits_text(characteristic),
            found=tuple(line_of(r, sheet, utterances) for r in members if r.stage == "as_found"),
            left=tuple(line_of(r, sheet, utterances) for r in members if r.stage == "as_left"),
        )

    return tuple(row(characteristic, which, members) for (characteristic, which), members in rows.items())
