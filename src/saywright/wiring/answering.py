"""What is said to the question on the board: "that's right" accepts what it asks about, or it is dropped.

An answer counts only as a whole utterance, only by words that running talk does not use so, and only to a
question that stood there before the words began. What it does is an event that names the words. A bare "yes"
is none: at a bench it is said to people all day.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final, Literal

from saywright.errors import NotFoundError, RefusedError, StaleError
from saywright.hearing.words import Utterance
from saywright.record.asked import newest_first
from saywright.record.events import Event, Heard, ItemAccepted, ItemWithdrawn
from saywright.record.types import Item, Reading, Record
from saywright.report.trace import item_words
from saywright.wiring.log import JobLog

Manner = Literal["plain", "no", "drop"]

SURE = 0.6  # share of the hearings that must be the same answer
CLEAR = 0.5  # confidence of each word, where the recogniser tells one
_PLAIN: Final = frozenset(
    (
        "thats right",
        "that is right",
        "thats correct",
        "that is correct",
        "it is right",
        "it is correct",
        "accept that",
        "accept it",
        "confirm that",
        "confirm it",
    )
)
_DROP: Final = frozenset(("drop the question", "drop that question", "withdraw that", "withdraw it"))
_NO: Final = ("no", "nope")
_AROUND: Final = frozenset(("um", "uh", "er", "okay", "ok", "please", "thanks"))
_YES: Final = ("yes", "yeah", "yep")
_BY_PERSONS: Final = frozenset(
    (
        "item_accepted",
        "item_withdrawn",
        "item_corrected",
        "item_added",
        "item_split",
        "items_merged",
        "change_undone",
        "open_item_explained",
        "photo_placed",
    )
)


@dataclass(frozen=True, slots=True)
class Answer:
    """What an utterance did to a question."""

    item: str  # id of the item that was asked about
    accepted: bool  # False: taken out, since it was said anew
    words: str  # what was done, for the board


def manner_of(utterance: Utterance) -> Manner | None:
    """How the words answer; None where they do not, or where the hearings do not agree on it."""
    best = _manner(utterance.best.text)
    if any(word.confidence is not None and word.confidence < CLEAR for word in utterance.best.words):
        return None
    share = sum(one.probability for one in utterance.hypotheses if _manner(one.text) == best)
    return best if share >= SURE else None


def _manner(text: str) -> Manner | None:
    words = [word for word in text.lower().replace("'", "").replace("’", "").split() if word not in _AROUND]
    said = " ".join(words)
    if said in _DROP:
        return "drop"
    if said in _PLAIN or (words[:1] and words[0] in _YES and " ".join(words[1:]) in _PLAIN):
        return "plain"
    return "no" if words[:1] and words[0] in _NO and len(words) > 1 else None


def answer(log: JobLog, record: Record, heard: Event, *, actor: str) -> Answer | None:
    """What the words of *heard*, already understood, answer; None where they are no answer to anything."""
    if not isinstance(heard.payload, Heard):
        return None
    utterance = heard.payload.utterance
    manner = manner_of(utterance)
    if manner is None:
        return None
    items = {item.id: item for item in record.items() if item.superseded_by is None}
    began_at = _began_at(log, heard)
    if _settled_since(log, heard, began_at):
        return None
    if manner == "no":
        return _said_anew(log, record, items, heard, began_at, actor=actor)
    asked = next(iter(newest_first(record.open_items)), None)
    item = items.get(asked.item or "") if asked is not None else None
    if asked is None or item is None or not _stood_before(log, item, heard, began_at):
        return None
    if manner == "drop":
        why = f"said at the bench: “{utterance.best.text}”"
        return _kept(log, ItemWithdrawn(item=item.id, why=why, heard=heard.seq), item, actor=actor)
    if asked.kind != "ask":  # what was not understood has no yes
        return None
    return _kept(log, ItemAccepted(item=item.id, heard=heard.seq), item, actor=actor)


def _said_anew(
    log: JobLog, record: Record, items: dict[str, Item], heard: Event, began_at: datetime, *, actor: str
) -> Answer | None:
    """ "No, the float height is …": the reading that asked goes, the one said now stays."""
    made = [item for item in items.values() if item.utterance == heard.seq and item.kind != "remark"]
    new = made[0] if len(made) == 1 else None
    if not isinstance(new, Reading) or not isinstance(heard.payload, Heard):
        return None
    why = f"said anew: “{heard.payload.utterance.best.text}”"
    for one in record.open_items:
        item = items.get(one.item or "") if one.kind == "ask" and one.explained is None else None
        if not isinstance(item, Reading) or item.id == new.id or _key(item) != _key(new):
            continue
        if _stood_before(log, item, heard, began_at):
            return _kept(log, ItemWithdrawn(item=item.id, why=why, heard=heard.seq), item, actor=actor)
    return None


def _key(item: Reading) -> tuple[str | None, ...]:
    return item.component, item.which, item.characteristic, item.place, item.stage


def _kept(log: JobLog, payload: ItemAccepted | ItemWithdrawn, item: Item, *, actor: str) -> Answer | None:
    """Put it on record; None where somebody else settled the item in this moment."""
    try:
        log.refresh()
        if log.folder.item(item.id).event != item.event:
            return None
        log.append(payload, actor=actor)
    except (StaleError, RefusedError, NotFoundError):
        return None
    accepted = isinstance(payload, ItemAccepted)
    told = f"{'Accepted' if accepted else 'Taken out'}: {item_words(item, log.sheet)}"
    return Answer(item.id, accepted, told)


def _began_at(log: JobLog, heard: Event) -> datetime:
    """When the first word was spoken; of typed words, when they came."""
    assert isinstance(heard.payload, Heard)
    utterance = heard.payload.utterance
    if utterance.media is None or utterance.start_s is None:
        return heard.at
    started_at = log.recording(utterance.media).started_at
    return heard.at if started_at is None else started_at + timedelta(seconds=utterance.start_s)


def _settled_since(log: JobLog, heard: Event, began_at: datetime) -> bool:
    """True where a person changed something after the words began: the board then asked something else."""
    for event in reversed(log.events[: heard.seq - 1]):
        if event.at <= began_at:
            return False
        if event.payload.kind in _BY_PERSONS:
            return True
    return False


def _stood_before(log: JobLog, item: Item, heard: Event, began_at: datetime) -> bool:
    """True where the item was as it is before the words began: whoever spoke could see it."""
    seq = item.event or 0
    return 0 < seq < heard.seq and log.events[seq - 1].at <= began_at
