"""Record, sheet and events → what the board shows. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from saywright.hearing.words import Utterance
from saywright.record.asked import newest_first
from saywright.record.events import Event, Heard, PhotoAdded, Understood
from saywright.record.order import number
from saywright.record.types import Item, OpenItem, Photo, Reading, Record
from saywright.sheets.model import Caution, Sheet
from saywright.web import describe
from saywright.web.board_told import Told, told

CAUTION_UTTERANCES = 6  # a spoken caution stands until this many utterances were heard after it
MAX_TO_DO = 5  # lines; the rest is counted
MAX_ASKS = 3
MAX_TOLD = 6  # things understood from one utterance

# What is to be done about an open item, in one word.
TO_DO = {
    "missing": "measure",
    "off": "put back",
    "not_renewed": "fit new",
    "not_restored": "set back",
    "renewed_twice": "check",
    "surplus": "check",
    "photo_mark": "take picture",
    "photo": "place picture",
    "recording": "hear on",
}
DESK_WORK = frozenset({"place picture", "hear on"})  # no hand is in the part for it
_MISSING = re.compile(r"missing:[^.@]+\.(?P<characteristic>[^@]+)@(?P<stage>\w+)")
_SETTING = re.compile(r"not_restored:[^.]+\.(?P<characteristic>.+)")


@dataclass(frozen=True, slots=True)
class Ask:
    """A question that waits for a person."""

    id: str
    question: str
    why: str  # the reasons, and what was heard
    item: str | None  # id of the item it is about
    name: str  # what a person calls it to say it anew; "it" where it has no value; "" where yes is no answer


@dataclass(frozen=True, slots=True)
class ToDo:
    """One thing still to be measured or put back."""

    act: str  # "measure", "put back", …
    what: str  # part and characteristic as shown
    stage: str  # as shown; "" where it has none
    in_hand: bool  # the part spoken of last


@dataclass(frozen=True, slots=True)
class Picture:
    """The picture that came in or found its place last."""

    id: str
    part: str  # as shown; "" where it is on none
    heard: str  # the words that announced it; "" where none did
    sure: bool  # False: it asks


@dataclass(frozen=True, slots=True)
class CautionLine:
    """A caution of the sheet."""

    key: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Board:
    """All that the board shows of a job."""

    seq: int  # of the last event
    said: int  # sequence number of the event that `last` came from; 0: nothing yet
    stage: str  # as shown
    heard: str  # the words last heard
    last: tuple[Told, ...]  # what was understood last, the most telling first
    asks: tuple[Ask, ...]
    asks_count: int
    to_do: tuple[ToDo, ...]
    to_do_count: int
    hand: str  # the part in hand, as shown; "" for none
    picture: Picture | None
    cautions: tuple[CautionLine, ...]  # all of the job
    caution: CautionLine | None  # the one whose trigger was spoken last
    caution_seq: int  # event in which it was spoken; 0: none
    caution_past: bool  # back together, nothing left to do, and more was said since: told by one line
    signed_by: str  # "" while nobody has


def board(record: Record, sheet: Sheet, events: Sequence[Event]) -> Board:
    """The board of a job as its record stands."""
    live = {item.id: item for item in describe.items_of(record) if item.superseded_by is None}
    said, last = last_understood(live, events)
    hand = in_hand(live.values())
    asks = tuple(asked(record.open_items, live, sheet))
    to_do = tuple(things_to_do(record.open_items, live, sheet, hand))
    stage = last[0].stage if last else "as_found"
    at_work = stage == "as_found" or bool(asks) or any(thing.act not in DESK_WORK for thing in to_do)
    caution, caution_seq = spoken_caution(sheet, events) if record.sign_off is None else (None, 0)
    return Board(
        seq=events[-1].seq if events else 0,
        said=said,
        stage=describe.STAGES[stage],
        heard=last_heard(events),
        last=tuple(told(item, sheet) for item in last[:MAX_TOLD]),
        asks=asks[:MAX_ASKS],
        asks_count=len(asks),
        to_do=to_do[:MAX_TO_DO],
        to_do_count=len(to_do),
        hand=sheet.label(hand) if hand else "",
        picture=last_picture(live.values(), events, sheet),
        cautions=tuple(caution_line(one) for one in sheet.caution if one.text),
        caution=caution,
        caution_seq=caution_seq,
        caution_past=not at_work and heard_after(caution_seq, events),
        signed_by=record.sign_off.by if record.sign_off else "",
    )


def last_understood(live: dict[str, Item], events: Sequence[Event]) -> tuple[int, list[Item]]:
    """The newest utterance that left anything but remarks, and what it left; a reading first."""
    for event in reversed(events):
        if not isinstance(event.payload, Understood):
            continue
        ids = (statement.id for statement in event.payload.statements)
        found = [live[one] for one in ids if one in live and live[one].kind != "remark"]
        if found:
            return event.seq, sorted(found, key=lambda item: not isinstance(item, Reading))
    return 0, []


def in_hand(items: Iterable[Item]) -> str | None:
    """The component spoken of last; None while none was."""
    latest = max(
        ((number(item.id), component) for item in items if (component := describe.component_of(item))),
        default=None,
    )
    return latest[1] if latest else None


def asked(open_items: Iterable[OpenItem], live: Mapping[str, Item], sheet: Sheet) -> list[Ask]:
    """What waits for an answer, newest first."""
    return [_ask(one, name_of(one, live, sheet)) for one in newest_first(open_items)]


def name_of(one: OpenItem, live: Mapping[str, Item], sheet: Sheet) -> str:
    """What is to be named to say it anew: "float height"; "it" for what has no value; "" for no question."""
    item = live.get(one.item or "") if one.kind == "ask" else None
    if item is None:
        return ""
    if not isinstance(item, Reading):
        return "it"
    return _measurand(sheet, item.component, item.which, item.characteristic)


def _ask(one: OpenItem, name: str) -> Ask:
    question, mark, why = one.text.partition("?")
    if not mark:
        return Ask(one.id, one.text, "", one.item, name)
    # A question that quotes words ends behind the closing quotation mark.
    if why.startswith("”"):
        question, why = f"{question}{mark}”", why[1:]
        mark = ""
    return Ask(one.id, question + mark, why.strip(" ?"), one.item, name)


def things_to_do(
    open_items: Iterable[OpenItem], live: Mapping[str, Item], sheet: Sheet, hand: str | None
) -> list[ToDo]:
    """What is missing, off, not as it was or without a place: the part in hand first, then as recorded."""
    waiting = [one for one in open_items if one.kind in TO_DO and not one.explained]
    found = [_to_do(one, live.get(one.item or ""), sheet, hand) for one in waiting]
    return sorted(found, key=lambda one: not one.in_hand)


def _to_do(one: OpenItem, item: Item | None, sheet: Sheet, hand: str | None) -> ToDo:
    part = sheet.label(one.component, one.which) if one.component else ""
    match = _MISSING.fullmatch(one.id) or _SETTING.fullmatch(one.id)
    what, stage = (
        part or (one.kind.replace("_", " ") if item is None else describe.value_text(item, sheet)),
        "",
    )
    if match is not None:
        what = _measurand(sheet, one.component, one.which, match["characteristic"])
        stage = describe.STAGES.get(match.groupdict().get("stage", ""), "")
    return ToDo(TO_DO[one.kind], what, stage, in_hand=hand is not None and one.component == hand)


def _measurand(sheet: Sheet, component: str | None, which: str | None, characteristic: str) -> str:
    """Part and characteristic as they are called, the part named once."""
    part = sheet.label(component, which) if component else ""
    found = sheet.find(component, characteristic)
    name = found.label if found else characteristic.replace("_", " ")
    if name.startswith(part):
        return name
    # "inlet seat", "seat bore": the word between is said once.
    first, _, rest = name.partition(" ")
    return f"{part} {rest}" if rest and part.endswith(f" {first}") else f"{part} {name}"


def last_picture(items: Iterable[Item], events: Sequence[Event], sheet: Sheet) -> Picture | None:
    """The picture that an event was about last and that stands on a part; None while there is none."""
    placed = [i for i in items if isinstance(i, Photo) and i.sha256 and (i.component or i.heard)]
    if not placed:
        return None
    newest = max(placed, key=lambda item: item.event or 0)
    names = {e.payload.sha256: e.payload.photo for e in events if isinstance(e.payload, PhotoAdded)}
    part = sheet.label(newest.component, newest.which) if newest.component else ""
    return Picture(names.get(newest.sha256 or "", newest.id), part, newest.heard, sure=not newest.asks)


def last_heard(events: Sequence[Event]) -> str:
    """The words heard last; "" while none were."""
    return next((e.payload.utterance.best.text for e in reversed(events) if isinstance(e.payload, Heard)), "")


def heard_after(seq: int, events: Sequence[Event]) -> bool:
    """True where anything was heard after event *seq*."""
    return any(event.seq > seq for event in reversed(events) if isinstance(event.payload, Heard))


def caution_line(caution: Caution) -> CautionLine:
    """A caution with what comes before its first colon as the title."""
    title, colon, text = caution.text.partition(":")
    if not colon or len(title) > 50:
        return CautionLine(caution.id or caution.text[:40], "Caution", caution.text)
    text = text.strip()
    return CautionLine(caution.id or title, title, text[:1].upper() + text[1:])


def spoken_caution(sheet: Sheet, events: Sequence[Event]) -> tuple[CautionLine | None, int]:
    """The caution whose trigger was spoken last, and in which event, unless that is long ago."""
    heard = 0
    for event in reversed(events):
        if not isinstance(event.payload, Heard):
            continue
        for caution in triggered(sheet, event.payload.utterance):
            return caution_line(caution), event.seq
        heard += 1
        if heard > CAUTION_UTTERANCES:
            break
    return None, 0


def triggered(sheet: Sheet, utterance: Utterance) -> Iterator[Caution]:
    """The cautions whose trigger is in any hearing of the utterance: a warning too many does no harm."""
    said = [f" {hypothesis.text} " for hypothesis in utterance.hypotheses]
    for caution in sheet.caution:
        if caution.text and any(f" {t.lower()} " in words for t in caution.triggers for words in said):
            yield caution
