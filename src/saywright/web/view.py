"""Record + sheet → what the job's page shows. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saywright.errors import NotFoundError
from saywright.hearing.words import Utterance
from saywright.record.types import Item, OpenItem, Photo, Reading, Record
from saywright.sheets.model import Sheet
from saywright.web import describe

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
    "recording": "Recording not heard to its end",
}
QUESTION_KINDS = frozenset({"ask", "unclear"})


CLIP_BEFORE_S = 2.0  # of a clip, before the first word

TimedWord = tuple[str, float, float]  # text, start and end in seconds of the recording


@dataclass(frozen=True)
class Line:
    """One item, told."""

    id: str
    kind: str  # shown
    about: str  # component as shown; "" for none
    text: str
    value: str  # a reading without the name of its characteristic, a picture's file name; else as `text`
    limits: str  # of a reading, as shown; "" for none
    stage: str  # shown; "" for what was done, moved or only said
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
    words: tuple[TimedWord, ...] = ()  # `heard` with times; empty where no clip is kept
    clip_from_s: float = 0.0  # where its clip begins in the recording
    in_report: bool = True  # False: a picture that a person left out of it


@dataclass(frozen=True)
class Row:
    """One characteristic of one part: its readings at both stages against its limits."""

    name: str
    limits: str
    found: tuple[Line, ...]
    left: tuple[Line, ...]


@dataclass(frozen=True)
class JobView:
    """What the pages of one job have in common, and the first of them shows."""

    record: Record
    sheet_title: str
    questions: tuple[OpenItem, ...]  # those that nobody explained come first
    photos: tuple[Line, ...]
    open_groups: tuple[tuple[str, tuple[OpenItem, ...]], ...]
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
        return tuple(q for q in self.questions if not q.explained)

    @property
    def unsettled(self) -> tuple[OpenItem, ...]:
        """What stops a signature: all that is open and not explained, questions first."""
        rest = (item for _, items in self.open_groups for item in items if not item.explained)
        return (*self.asking, *rest)

    def picture_of(self, item_id: str) -> str | None:
        """The id of the picture that an item is; None where it is none."""
        return next((line.picture for line in self.photos if line.id == item_id), None)


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
    words = timed_words(item, utterance) if utterance is not None and utterance.media else ()
    return Line(
        id=item.id,
        kind=describe.KINDS[item.kind],
        about=describe.about(item, sheet),
        text=describe.item_text(item, sheet),
        value=describe.value_text(item, sheet),
        limits=describe.limits_of(item, sheet),
        stage=describe.stage_of(item),
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
        in_report=item.in_report if isinstance(item, Photo) else True,
        words=words,
        clip_from_s=max(0.0, (item.start_s or 0.0) - CLIP_BEFORE_S),
    )


def timed_words(item: Item, utterance: Utterance) -> tuple[TimedWord, ...]:
    """The words heard, each with its time; spread evenly where the listener gave none."""
    said = item.heard.split()
    words = utterance.best.words
    for first in range(len(words) - len(said) + 1):
        stretch = words[first : first + len(said)]
        if [word.text for word in stretch] == said and all(word.start_s is not None for word in stretch):
            starts = [word.start_s or 0.0 for word in stretch]
            ends = [
                word.end_s or after for word, after in zip(stretch, [*starts[1:], starts[-1]], strict=True)
            ]
            return tuple(zip(said, starts, ends, strict=True))
    if item.start_s is None or not said:
        return ()
    step_s = (max(item.end_s or 0.0, item.start_s) - item.start_s) / len(said)
    return tuple(
        (word, item.start_s + number * step_s, item.start_s + (number + 1) * step_s)
        for number, word in enumerate(said)
    )


def job_view(
    record: Record, sheet: Sheet, utterances: Mapping[int, Utterance], pictures: Mapping[str, str]
) -> JobView:
    """What every page of a job knows of it."""
    photos = [photo for photo in record.photos if photo.superseded_by is None]
    questions = [o for o in record.open_items if o.kind in QUESTION_KINDS]
    return JobView(
        record=record,
        sheet_title=sheet.title,
        questions=tuple(sorted(questions, key=lambda q: q.explained is not None)),
        photos=tuple(line_of(photo, sheet, utterances, pictures) for photo in photos if photo.sha256),
        open_groups=grouped(record.open_items),
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
