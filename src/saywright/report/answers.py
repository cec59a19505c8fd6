"""What the program answers to a command said at the bench: plain sentences, fit to be shown or spoken."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.judging.missing import Missing, gone_back_together, in_hand_first, missing
from saywright.judging.refit import RefitLine, refit
from saywright.judging.wording import STAGE_WORDS, thing
from saywright.record.events import Event, Understood
from saywright.record.types import Item, OpenKind, Record, Remark, waits
from saywright.report.trace import item_words, items
from saywright.report.wording import listed, plural, sentence
from saywright.sheets.model import Sheet
from saywright.understanding.statements import BenchCommand, CommandName, Correction

_TOLD = 5  # names in one sentence; more is not remembered by who hears it
_NOTE = "note"  # reason of the remark that a note becomes
# What is open and no part: it stops the signature all the same.
_NO_HANDS: tuple[tuple[OpenKind, str, str], ...] = (
    ("photo_mark", "picture announced and not taken", "pictures announced and not taken"),
    ("photo", "picture without a place", "pictures without a place"),
    ("recording", "recording not heard to its end", "recordings not heard to their end"),
)
_PARTS: tuple[OpenKind, ...] = ("off", "not_renewed", "renewed_twice", "surplus")


def to_do(record: Record, sheet: Sheet, hand: str | None = None) -> tuple[Missing, ...]:
    """What the sheet requires and was not said: of the part in *hand* first, then of those spoken of last."""
    lacking = in_hand_first(record, missing(record, sheet))
    return tuple(sorted(lacking, key=lambda lack: lack.component != hand))


def left(record: Record, sheet: Sheet, hand: str | None = None) -> str:
    """What is still to be said, what is not back on, and how much waits for a person."""
    told = []
    lacking = to_do(record, sheet, hand)
    for stage, words in STAGE_WORDS.items():
        names = [_name(lack, sheet) for lack in lacking if lack.stage == stage]
        if names:
            told.append(f"Still to say {words}: {_some(names)}.")
    parts = [item for item in record.open_items if item.kind in _PARTS and item.explained is None]
    if gone_back_together(record) and parts:
        told.append(f"Not right yet: {_some([sheet.label(i.component, i.which) for i in parts])}.")
    settings = [i for i in record.open_items if i.kind == "not_restored" and i.explained is None]
    if settings:
        told.append(f"{plural(len(settings), 'setting')} not as found.")
    asks = [i for i in record.open_items if i.kind in ("ask", "unclear") and i.explained is None]
    if asks:
        told.append(f"{plural(len(asks), 'item')} to be answered.")
    told += [
        f"{plural(count, one, many)}."
        for kind, one, many in _NO_HANDS
        if (count := sum(i.kind == kind and i.explained is None for i in record.open_items))
    ]
    return " ".join(told) or "Nothing is left."


def following(record: Record, sheet: Sheet, hand: str | None = None) -> str:
    """The one thing to do next: the next value, or when it goes back together the next part to fit."""
    lines = [line for line in refit(record, sheet) if not line.done] if gone_back_together(record) else []
    if lines:
        return _refit_words(lines[0])
    lacking = to_do(record, sheet, hand)
    if lacking:
        return f"Next: {_name(lacking[0], sheet)}, {STAGE_WORDS[lacking[0].stage]}."
    return left(record, sheet, hand)


def read_back(record: Record, sheet: Sheet) -> str:
    """What the last utterance that gave anything came to, with what it asks."""
    notes: list[Item] = [remark for remark in record.remarks if remark.reason == _NOTE]
    live = [item for item in (*items(record), *notes) if item.superseded_by is None and item.utterance]
    last = max((item.utterance or 0 for item in live), default=0)
    told = [sentence(_words(item, sheet)) for item in live if item.utterance == last]
    return " ".join(told) or "Nothing is on record yet."


def undone(record: Record, sheet: Sheet, events: Sequence[Event], said_at: int | None = None) -> str:
    """What the last "undo" came to; *said_at*: the event in which that undo was heard."""
    statements = next(
        (
            event.payload.statements
            for event in reversed(events)
            if isinstance(event.payload, Understood)
            and said_at in (None, event.payload.heard)
            and any(isinstance(s, BenchCommand) and s.command == "undo" for s in event.payload.statements)
        ),
        (),
    )
    correction = next((s for s in statements if isinstance(s, Correction)), None)
    if correction is None:
        return "There is nothing to undo."
    every: dict[str, Item] = {item.id: item for item in (*items(record), *record.remarks)}
    gone = [every[one] for one in correction.supersedes if one in every]
    words = [_plain(item, sheet) for item in gone if not isinstance(item, Remark) or item.reason == _NOTE]
    again = [item_words(every[one], sheet) for one in correction.restores if one in every]
    told = (
        f"Undone: {'; '.join(words)}." if words else f"Undone. It is {STAGE_WORDS[correction.stage]} again."
    )
    return told + (f" This holds again: {'; '.join(again)}." if again else "")


def answer(
    command: CommandName,
    record: Record,
    sheet: Sheet,
    events: Sequence[Event],
    *,
    hand: str | None = None,
    said_at: int | None = None,
) -> str:
    """The sentences for a command; *said_at*: the event in which an undo was heard, None for the last."""
    match command:
        case "left":
            return left(record, sheet, hand)
        case "next":
            return following(record, sheet, hand)
        case "read_back":
            return read_back(record, sheet)
        case "undo":
            return undone(record, sheet, events, said_at)
        case "pause":
            return "Listening is paused. Say resume to go on."
        case "resume":
            return "Listening again."
        case "note":
            return "Noted."


def _words(item: Item, sheet: Sheet) -> str:
    asks = "; ".join(flag.text for flag in item.flags if flag.level == "ask") if waits(item) else ""
    return _plain(item, sheet) + (f". It asks: {asks}" if asks else "")


def _plain(item: Item, sheet: Sheet) -> str:
    return f"note: {item.heard}" if isinstance(item, Remark) else item_words(item, sheet)


def _name(lack: Missing, sheet: Sheet) -> str:
    return thing(sheet, lack.component, lack.which, lack.characteristic)


def _some(names: Sequence[str]) -> str:
    """The first of *names*, and how many more there are."""
    known = list(dict.fromkeys(names))
    return (
        listed(known) if len(known) <= _TOLD else f"{', '.join(known[:_TOLD])} and {len(known) - _TOLD} more"
    )


def _refit_words(line: RefitLine) -> str:
    """ "Next: bowl screw, 4 to go back; torque 2.0 to 2.4 N·m." """
    open_steps = [f"{step.name} {step.target}" for step in line.steps if not step.done]
    count = f", {line.to_do} to go back" if line.to_do else ""
    age = ", a new one" if line.to_do and line.renew else ""
    return f"Next: {line.label}{count}{age}{'; ' if open_steps else ''}{'; '.join(open_steps)}."
