"""Where a part went, told by no verb: "shaft seal in lip to the oil", "new shoes up on the plate".

Of what is off, while the job goes back together, and where nothing else is said of it. How it is held, pushed
or done up there tells no more than that it is in: "gauze in poke it right down", "arm on nine newton metres".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from saywright.understanding.bench_words import AWAY
from saywright.understanding.doings.fasteners_on import TORQUES
from saywright.understanding.going_back import begins_back
from saywright.understanding.meanings import Meaning
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_ON: Final = Meaning(tags=frozenset({"MOVE_ON"}))
_PLACE: Final = Meaning(tags=frozenset({"PLACE"}))
_FILLER: Final = Meaning(tags=frozenset({"FILLER"}))
_BY_HAND: Final = frozenset({("finger", "tight"), ("hand", "tight")})
_ON_AGAIN: Final = frozenset({("on",), ("in",), ("back", "on"), ("back", "in")})
_ARTICLES: Final = frozenset({"the", "its", "his", "their"})
_AMOUNTS: Final = frozenset({"SEVERE", "BOTH", "ALL"})  # "plenty of grease on them"
WAYS: Final = frozenset(
    ["in", "on", "up", "down", "back", "off", "over", "through", "into", "onto", "round", "around", "between",
     "behind", "under", "inside"]
)  # fmt: skip
_SAID: Final = frozenset({"COND", "AUX", "MEASURE", "ACT", "MARK", "ON", "OFF", "PRON"})
_ROW: Final = frozenset({"PART", "MOD", "MEASURE", "ONE"})
_BEGINS: Final = frozenset({"BREAK", "ON"})
_MANY: Final = frozenset({"BOTH", "ALL"})
_BE: Final = frozenset({("is",), ("are",), ("has",), ("have",)})
_IDLE_MARKS: Final = frozenset({"TOOL", "BUT", "ENDS"})  # "… in mind the groove", "… in both ends"
_FIXES: Final = TORQUES | {"turn"}  # units of how far it was done up
_TELLS_OF_IT: Final = frozenset(
    ["when", "where", "while", "if", "so", "but", "because", "that", "which", "since", "before", "after",
     "until", "till", "like", "as"]
)  # fmt: skip
_TWO: Final = 2
_LED: Final = frozenset({"the", "a", "my"})
_REACH: Final = 5  # tags of the place that stands behind the movement before
_TURNS_TO: Final = frozenset({"round", "over", "on", "to", "at", "back"})
_GO: Final = frozenset({"go", "goes", "went", "going", "gone"})
_IS_IN: Final = frozenset({("is", "in"), ("are", "in"), ("is", "on"), ("are", "on")})
_NOT_IN: Final = frozenset({"somewhere", "already", "yet"})  # "springs are in there somewhere"
_THERE: Final = frozenset({"", "there", "too", "now", "and", "on", "over", "behind", "under", "again", "as"})


def put_there(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """The same tags, with a movement where a part that is off is told to be in or on something."""
    if not work.off and "off" not in work.texts:
        return tags
    out: list[Tag] = []
    moved = 0  # the tag behind the movement put in last
    for at, tag in enumerate(tags):
        if tag.kind == "OFF" and work.texts[tag.start : tag.end] == ("off", "the"):
            moved = at + 1  # "bearing off the plate and it's rough"
        if (
            _tells_way(tags, at, work.texts)
            and _part_begins(out, work)
            and _nothing_said(tags[at + 1 :], work)
        ):
            out.append(replace(tag, kind="ON", meaning=_ON))
            moved = at + 1
        elif moved and tag.kind == "PART" and _is_the_place(out[moved - 1 :], work.texts):
            out.append(replace(tag, kind="WORD", meaning=_PLACE))
        else:
            out.append(tag)
    return tuple(out)


def by_hand(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """The same tags; as it goes back together "finger tight" is how far it was done up, and no fault."""
    way = _goes_on_again(tags, work)
    if work.stage != "as_left" and way is None and not _new_goes_on(tags, work):
        return tags
    held = [t for t in tags if work.texts[t.start : t.end] in _BY_HAND]
    return tuple(
        [
            replace(t, kind="WORD", meaning=_FILLER)
            if t in held
            else replace(t, kind="ON", meaning=_ON)
            if held and t is way
            else t
            for t in tags
        ]
    )


def _new_goes_on(tags: Sequence[Tag], work: Working) -> bool:
    """ "New diaphragm on that side, hand tight": of what is off, while parts were going on."""
    for new, part in pairwise(tags):
        able = [c for c in (*part.meaning.parts, *part.meaning.aliases) if work.off.get(c, 0)]
        if "NEW" in new.tags and part.kind == "PART" and able and begins_back(work, able):
            return True
    return False


def _goes_on_again(tags: Sequence[Tag], work: Working) -> Tag | None:
    """ "impeller on, hand tight": the way that what was off went; so it was not found loose."""
    for part, way in pairwise(t for t in tags if t.kind != "BREAK"):
        off = any(work.off.get(c, 0) for c in (*part.meaning.parts, *part.meaning.aliases))
        if part.kind == "PART" and off and work.texts[way.start : way.end] in _ON_AGAIN:
            return way
    return None


def _tells_way(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    tag = tags[at]
    word = texts[tag.start]
    if word == "back" and tag.kind == "MOD":
        return at + 1 == len(tags) or tags[at + 1].kind == "BREAK"  # "hold downs all four back"
    if tag.kind == "WORD" and texts[tag.start : tag.end] in _IS_IN:
        where = texts[tag.end : tag.end + 2]
        return (*where, "")[0] in _THERE and _NOT_IN.isdisjoint(where)  # "pins are in there too"
    return tag.kind in {"LINK", "WORD"} and word in WAYS and word != "off"


def _part_begins(out: list[Tag], work: Working) -> bool:
    """True where *out* ends in a part that is off, with which a clause begins."""
    at = len(out) - 1
    while at > 0 and (
        out[at].tags & _MANY
        or (out[at].count is not None and out[at].kind == "MOD")
        or work.texts[out[at].start : out[at].end] in _BE
        or work.texts[out[at].start] in _GO
    ):
        at -= 1
    if at < 0 or out[at].kind != "PART":
        return False
    able = [c for c in (*out[at].meaning.parts, *out[at].meaning.aliases) if work.off.get(c, 0)]
    went_on = any(tag.kind == "ON" for tag in out) and all(work.off.get(c, 0) for c in able)
    if not able or not (went_on or begins_back(work, able)):
        return False
    building = work.stage == "as_left"
    while at >= 0 and (out[at].kind in _ROW or ("AND" in out[at].tags and at and out[at - 1].kind in _ROW)):
        if building and "then" in work.texts[out[at].start : out[at].end]:
            return True  # "plunger on the left side and then the slides in"
        at -= 1
    before = out[at] if at >= 0 else None
    begins = before is None or before.kind in _BEGINS or bool(before.tags & {"AND", "FILLER"})
    return begins or _behind_place(out, at, work)


def _behind_place(out: Sequence[Tag], at: int, work: Working) -> bool:
    """ "plate in the drum wheel in the frame spindle through": behind where the one before it went.

    "round to the pump side gauze in": or where one turned to.
    """
    begin = at
    while at >= 0 and begin - at < _REACH and out[at].kind in {"WORD", "LINK", "MOD"}:
        at -= 1
    if work.stage != "as_left" or out[begin].kind != "WORD":
        return False
    return out[at].kind == "ON" if at >= 0 else work.texts[0] in _TURNS_TO


def _nothing_said(behind: tuple[Tag, ...], work: Working) -> bool:
    """ "… in the hub", "… on over the shoes": up to where the clause ends, a place and no more."""
    texts, building = work.texts, work.stage == "as_left"
    for at, tag in enumerate(behind):
        last = behind[at - 1] if at else None
        if _ends_it(behind, at, texts) or (building and _is_done_up(behind, at, texts)):
            return True
        if at < _TWO and "TOOL" in tag.tags and texts[tag.start - 1] in _LED:
            return False  # "rod in the vice"
        if "SAME" in tag.tags or (building and tag.kind == "MARK" and tag.tags <= _IDLE_MARKS):
            continue  # "on over the studs same way round"
        if tag.kind == "WORD" and texts[tag.start] in AWAY:
            return False  # "in the press", "on the bench"
        if tag.kind == "PRON" and (last is None or last.kind == "LINK"):
            continue  # "o rings on them", "on top of those"
        if tag.kind in _SAID or "READS" in tag.tags:
            return tag.kind == "AUX" and texts[tag.start - 1] != "it" and bool(tag.tags & _AMOUNTS)
    return True


def _ends_it(behind: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """Where the clause ends: "… and", "… by hand", "lid on same forty"."""
    tag = behind[at]
    if tag.kind in {"BREAK", "ON"} or "AND" in tag.tags:
        return True
    if "SAME" in tag.tags and at + 1 < len(behind) and behind[at + 1].kind == "MEASURE":
        return True
    return texts[tag.start : tag.end + 1] == ("by", "hand")


def _is_done_up(behind: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "… in poke it right down", "… on nine newton metres", "… on wheels on done"."""
    tag = behind[at]
    if tag.measure is not None and tag.measure.unit in _FIXES:
        return True
    return _is_worked_in(behind, at, texts) or texts[tag.start :] == ("done",)


def _is_worked_in(behind: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "… in poke it right down", "… on turn her over": what was done with it right there."""
    if at or len(behind) < _TWO or behind[0].kind not in {"WORD", "ACT", "ON"}:
        return False
    verb = texts[behind[0].start]
    return behind[1].kind == "PRON" and behind[0].end - behind[0].start == 1 and verb not in _TELLS_OF_IT


def _is_the_place(behind: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "caliper over the disc", "bushes on the gears": right behind the way, with its article."""
    way, *led = behind
    if any(tag.kind != "MOD" or tag.tags & {"NEW", "OLD"} for tag in led):
        return False
    return texts[way.end - 1] in _ARTICLES or bool(led and texts[led[0].start] in _ARTICLES)
