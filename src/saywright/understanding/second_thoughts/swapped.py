"""Two values said of the wrong one each: "leading nine six, trailing nine five", "no, other way round"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.corrected_copies import own_fields
from saywright.understanding.second_thoughts.words import read_turn
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import words_of
from saywright.understanding.working import Working

_WAYS = frozenset({("other", "way", turned) for turned in ("round", "around", "about")})
_TWO = 2
_NEAR = 3  # utterances in which those stand that are put right together
_HAVE_SWAPPED = re.compile(
    r"\b(?:i|we) (?:have|had) swapped (?:them|those|these)(?: two| both)?(?: over| round| about)?$"
)
_DOUBTS = frozenset({"hang", "hold", "no", "sorry", "wait", "actually", "oh"})
_SWAP_WORDS = frozenset({"way", "versa", "swapped", "back"})
_AROUND = words_of(
    "it that they those them is are was the i have got had two said sorry should be been both over "
    "round around about ,"
)
_ONLY_SO = frozenset(
    {("other", "way"), ("vice", "versa"), ("swapped",), ("wrong", "way"), ("back", "to", "front")}
)
CROSSED: Final = frozenset(
    {"swapped", "crossed", "mixed", "muddled", "backwards", "reversed", "wrong", "front"}
)
SWAPPED: Final = CROSSED | _SWAP_WORDS  # one of them is said where two are to be swapped
_HAVE_CROSSED = re.compile(
    r"\b(?:got|have|had|said|gave|read|called) (?:them|those|these|that)(?: two| both)? "
    r"(?:swapped|crossed|mixed up|muddled|backwards|reversed|the wrong way|back to front)\b"
    r"|\b(?:mixed|muddled) (?:them|those|these|that)(?: two| both)? up\b"
)


def says_swapped(texts: Sequence[str], end: int) -> bool:
    """ "no, other way about, rear's twelve, front's eleven": what is said of each from token *end* on."""
    return "way" in texts[:end] and any(tuple(texts[at : at + 3]) in _WAYS for at in range(1, end - 2))


def told_of_each(told: Told) -> bool:
    """ "No, inner's three nine and outer's four two": a value of each, none moved to the other."""
    placed = [f for f in told.facts if f.kind == "value" and any(s.which for s in f.subjects)]
    return len(placed) > 1


def in_same_breath(work: Working, old: Reading, fact: Fact) -> Reading | None:
    """ "no, left's ten and right's nine": with *old* put right, its fellow that *fact* names."""
    which = {w for s in fact.subjects for w in s.which}
    group = [s for near in work.before.recent[-_NEAR:] for s in near]
    alike = [
        s
        for s in group
        if isinstance(s, Reading)
        and s.id not in work.gone
        and (s.component, s.characteristic, s.stage) == (old.component, old.characteristic, old.stage)
    ]
    named = {c for s in fact.subjects for c in s.components}
    if not which or fact.characteristics or (named and old.component not in named):
        return None
    return next((s for s in alike if which & {s.which, *(s.which or "").split()}), None)


def _crossed(texts: Sequence[str]) -> tuple[int, int] | None:
    """Where "I've got those swapped round" or "I've mixed those two up" stands in *texts*."""
    if CROSSED.isdisjoint(texts):
        return None
    said = " ".join(texts)
    found = _HAVE_CROSSED.search(said)
    if found is None and texts[0] in _DOUBTS:
        found = _HAVE_SWAPPED.search(said)  # "hang on, I've swapped those two"
    return (said[: found.start()].count(" "), said[: found.end()].count(" ") + 1) if found else None


def cut_crossed(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """ "Hang on, I've got those two back to front": of two values just read, no value, place or doing."""
    crossed = _crossed(work.texts)
    if crossed is None or not any(isinstance(s, Reading) for s in work.last_group()):
        return tags
    begin, end = crossed
    return tuple(tag for tag in tags if tag.end <= begin or tag.start >= end)


def swap_two(told: Told, work: Working) -> None:
    """Give each of the last two readings, or findings, of a part the position of the other one."""
    texts = work.texts
    if told.facts:
        return
    at = next((at for at in range(len(texts)) if texts[at : at + 3] in _WAYS), None)
    alone = _says_only_so(texts)
    at = 0 if at is None and (_crossed(texts) or alone) else at
    if at is None:
        return
    pair = _last_two(work, apart=at == 0 or alone)
    for old, other in zip(pair, reversed(pair), strict=True):
        fields = {**own_fields(old), "which": other.which}
        if isinstance(old, Reading):
            fields["repeat_of"] = None
        fresh = work.make(type(old), at, at + 3, flags=old.flags, stage=old.stage, **fields)
        work.put(fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}"}))
        work.supersede([old.id], fresh.id, at, at + 3)


def _says_only_so(texts: tuple[str, ...]) -> bool:
    """ "No that's the other way round", "hang on vice versa": a change of mind, and nothing else."""
    at, turned = read_turn(texts, 0, len(texts))
    at -= texts[at - 1 : at] == ("wrong",)  # "no, wrong way round"
    rest = [text for text in texts[at:] if text not in _AROUND]
    doubted = at > 0 and (turned or texts[0] in {"hang", "hold", "wait", "actually"})
    ought = "should" in texts and "have" not in texts and not turned  # of the parts: "they should be …"
    return doubted and not ought and tuple(rest) in _ONLY_SO


def _last_two(work: Working, *, apart: bool) -> list[Reading | ConditionNote]:
    """The two told last of one kind, each of another one of the part; [] where there are no such.

    Where *apart*, each may have been told in a breath of its own.
    """
    group = [s for s in work.last_group() if isinstance(s, Reading | ConditionNote)]
    if len(group) == 1 and apart:
        group = [s for s in work.live() if isinstance(s, Reading | ConditionNote)][-_TWO:]
    if len(group) != _TWO or None in {s.which for s in group} or group[0].which == group[1].which:
        return []
    return group if _what(group[0]) == _what(group[1]) else []


def _what(told: Reading | ConditionNote) -> tuple[object, ...]:
    if isinstance(told, Reading):
        return (told.component, told.characteristic, told.place, told.stage)
    return (told.component, told.stage)
