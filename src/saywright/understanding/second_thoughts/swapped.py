"""Two values said of the wrong one each: "leading nine six, trailing nine five", "no, other way round"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.corrected_copies import own_fields
from saywright.understanding.statements import Reading
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_WAYS = frozenset({("other", "way", turned) for turned in ("round", "around", "about")})
_TWO = 2
_CROSSED = frozenset({"swapped", "crossed", "mixed", "muddled", "backwards", "reversed", "wrong", "front"})
_HAVE_CROSSED = re.compile(
    r"\b(?:got|have|had|said|gave|read|called) (?:them|those|these|that)(?: two| both)? "
    r"(?:swapped|crossed|mixed up|muddled|backwards|reversed|the wrong way|back to front)\b"
    r"|\b(?:mixed|muddled) (?:them|those|these|that)(?: two| both)? up\b"
)


def says_swapped(texts: Sequence[str], end: int) -> bool:
    """ "no, other way about, rear's twelve, front's eleven": what is said of each from token *end* on."""
    return "way" in texts[:end] and any(tuple(texts[at : at + 3]) in _WAYS for at in range(1, end - 2))


def in_same_breath(work: Working, old: Reading, fact: Fact) -> Reading | None:
    """ "no, left's ten and right's nine": with *old* put right, its fellow that *fact* names."""
    which = {w for s in fact.subjects for w in s.which}
    group = next((g for g in work.before.recent if old in g), ())
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
    if _CROSSED.isdisjoint(texts):
        return None
    said = " ".join(texts)
    found = _HAVE_CROSSED.search(said)
    return (said[: found.start()].count(" "), said[: found.end()].count(" ") + 1) if found else None


def cut_crossed(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """ "Hang on, I've got those two back to front": of two values just read, no value, place or doing."""
    crossed = _crossed(work.texts)
    if crossed is None or not any(isinstance(s, Reading) for s in work.last_group()):
        return tags
    begin, end = crossed
    return tuple(tag for tag in tags if tag.end <= begin or tag.start >= end)


def swap_two(told: Told, work: Working) -> None:
    """Give each of the last two readings of a part the position of the other one."""
    if told.facts or ("way" not in work.texts and _CROSSED.isdisjoint(work.texts)):
        return
    at = next((at for at in range(len(work.texts)) if work.texts[at : at + 3] in _WAYS), None)
    at = 0 if at is None and _crossed(work.texts) else at
    if at is None:
        return
    read = [s for s in work.last_group() if isinstance(s, Reading)]
    if len(read) == 1 and at == 0:  # each was told in a breath of its own
        read = [s for s in work.live() if isinstance(s, Reading)][-_TWO:]
    kinds = {(r.component, r.characteristic, r.place, r.stage) for r in read}
    if len(read) != _TWO or len(kinds) > 1 or None in (read[0].which, read[1].which):
        return
    if read[0].which == read[1].which:
        return
    for old, other in zip(read, reversed(read), strict=True):
        fields = {**own_fields(old), "which": other.which, "repeat_of": None}
        fresh = work.make(Reading, at, at + 3, flags=old.flags, stage=old.stage, **fields)
        work.put(fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}"}))
        work.supersede([old.id], fresh.id, at, at + 3)
