"""What a named side is to its clause: told about ("the rear one looks cleaner"), or worked on. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import HOLDERS
from saywright.understanding.sides.going_words import KIND_OF
from saywright.understanding.tags import Tag

_NO_WORK = frozenset(  # what is done to a side without working there
    ["see", "seeing", "seen", "look", "looking", "want", "wants", "mind", "watch", "hold", "keep", "leave",
     "leaving", "forget", "remember", "know", "think", "like", "as", "about", "only", "just", "than", "but",
     "order", "find", "put", "set", "lay", "drop", "stick", "chuck", "is", "get", "mean", "call", "count",
     "what", "how"]
)  # fmt: skip
_SET_DOWN = frozenset(
    {
        "put",
        "set",
        "lay",
        "drop",
        "hold",
        "stick",
        "chuck",
        "leave",
        "keep",
        "there",
        "came",
        "comes",
        "went",
        "ran",
        "runs",
    }
)
_WHO = frozenset({"i", "we", "you"})
_AMONG = frozenset({"on", "in"})
_WHERE = frozenset({"on", "at", "under"})
_UP = frozenset({"up", "down", "off", "apart", "open", "loose"})
_MOVED = frozenset({"MOVE_LOOSE_ON", "MOVE_OFF"})


def names_place(tag: Tag, texts: Sequence[str]) -> bool:
    """True for a position; "a right hand thread" has none."""
    return bool(tag.meaning.positions) and tag.kind == "MOD" and texts[tag.end : tag.end + 1] != ("thread",)


def is_told_about(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """True where the place at *at* is what a clause tells of, or where a thing is: "rear's hydraulic too".

    Not so in "the rear one's next", "the front one's coming off".
    """
    if any("STAMP" in tag.tags for tag in tags[:at]):
        return True  # "I've marked the rear one with paint"
    behind = [tag for tag in tags[at + 1 :] if tag.kind != "ONE"]
    if _is_head(tags, at, texts) and len(behind) > 1 and behind[0].kind == "AUX" and "COP" in behind[0].tags:
        told = next((tag for tag in behind[1:] if "DET" not in tag.tags), behind[1])
        return told.kind == "WORD" and texts[told.start] not in KIND_OF
    if len(behind) > 1 and behind[0] is not tags[at + 1] and _is_verb(behind[0], texts):
        return True  # "the right one smells of varnish"
    if at > 1 and _is_where_a_thing_is(tags, at, texts):
        return True
    verb = next((i for i, tag in enumerate(tags[:at]) if tag.kind == "AUX" and "COP" in tag.tags), 0)
    if not verb or tags[verb - 1].kind != "WORD":
        return False
    subject = texts[tags[verb - 1].start]
    if subject != "there" and subject in KIND_OF:
        return False
    return all(_MOVED.isdisjoint(tag.tags) or tag.kind in {"LINK", "ON"} for tag in tags[verb:at])


def is_gone_to(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """True where the place at *at* is worked on: "jack the offside up", "wheel off on the right"."""
    end = at + 1
    while end < len(tags) and (texts[tags[end].start] in _UP or "FILLER" in tags[end].tags):
        end += 1
    before = at
    while before and "DET" in tags[before - 1].tags and texts[tags[before - 1].start] == "the":
        before -= 1
    if not before:
        return False
    if end == len(tags) and _is_place_of_work(tags[:before], texts):
        return True
    named = (
        end == at + 1
        and end + 1 == len(tags)
        and (tags[end].kind == "PART" or texts[tags[end].start] in HOLDERS)
    )  # "open up the rear carb"
    closes = named or end == len(tags) or "AND" in tags[end].tags or tags[end].kind == "BREAK"
    return closes and _is_order(tags[:before], texts)


def _is_verb(tag: Tag, texts: Sequence[str]) -> bool:
    word = texts[tag.start]
    return tag.kind == "WORD" and word not in KIND_OF and word.endswith("s") and not word.endswith("ss")


def _is_where_a_thing_is(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "rag in the upper one to keep the dirt out": something is put there, and the clause goes on."""
    lead = at - 1 - ("DET" in tags[at - 1].tags)
    if (
        lead < 1
        or tags[lead].kind not in {"LINK", "ON"}
        or _AMONG.isdisjoint(texts[tags[lead].start : tags[lead].end])
    ):
        return False
    thing = tags[lead - 1]
    goes_on = any(tag.kind not in {"ONE", "BREAK"} and "FILLER" not in tag.tags for tag in tags[at + 1 :])
    return goes_on and thing.kind == "WORD" and not thing.tags and texts[thing.start] not in KIND_OF


def _is_head(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "and the right …": nothing before it but what leads there."""
    return all(
        "FILLER" in tag.tags
        or "DET" in tag.tags
        or tag.kind in {"BREAK", "LINK"}
        or texts[tag.start] in {"now", "right"}
        for tag in tags[:at]
    )


def _is_place_of_work(before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "jack it up on the", "wheel off on the", "kneel down at the"; not "put it down on the"."""
    lead, led = before[-1], before[:-1]
    if lead.kind != "LINK" or texts[lead.start] not in _WHERE:
        return False
    if texts[lead.start] == "under":
        return True
    moved = any(not _MOVED.isdisjoint(tag.tags) and tag.kind != "LINK" for tag in led)
    return moved and all(texts[tag.start] not in _SET_DOWN for tag in led)


def _is_order(before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "chock it and lift the", "open up the", "so you do the": a bare verb at the head of its clause."""
    last = len(before) - 1
    while last and texts[before[last].start] in {"up", "down"}:
        last -= 1
    verb, word = before[last], texts[before[last].start]
    kind = KIND_OF.get(word, "L")
    if (
        verb.kind not in {"WORD", "OFF"}
        or verb.tags & {"FILLER", "NEG"}
        or word in _NO_WORK
        or kind not in "LG"
    ):
        return False
    led = before[last - 1] if last else None
    return (
        led is None
        or bool(led.tags & {"FILLER", "AND", "FUTURE"})
        or led.kind == "BREAK"
        or texts[led.start] in _WHO
    )
