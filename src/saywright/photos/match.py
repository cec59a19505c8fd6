"""Spoken photo marks and pictures, brought together although the camera's clock is wrong.

What is known: when each mark was spoken, when each picture was taken by a clock that is off by
the same unknown amount for all of them. What is not: which marks have no picture, which pictures
have no mark. All pairs are weighed together (`saywright.photos.pairing`), then told as sure or as
proposals that wait for a person. Where no clock is of use, order decides (`saywright.photos.order`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np

from saywright.photos.order import match_by_order
from saywright.photos.pairing import Floats, Posterior, best_path, posterior

SURE = 0.96  # probability from which a pair is placed without asking …
# … if no other mark of the picture and no other picture of the mark has more than this. Among marks said
# within seconds of each other a stray picture can shift the others by one, and that reading can look likelier
# than the truth. The price of both limits is printed by tools/fuzz_matching.py.
RULED_OUT = 0.01
# Of the likeliest stretch of offsets, without which no pair is sure. Higher, since with a wrong offset every
# pair is wrong; at even intervals one stray picture on the beat is enough to make it look right.
SURE_OFFSET = 0.995
# Of the delay from word to shutter, in spreads of the other pairs': from here a pair asks. A stray that comes
# by chance near a mark without a picture mostly comes earlier or later than this hand does. So do the slowest
# of the hand's own; docs/photos.md says how many ask for it.
STANDS_OUT = 2.5
HAND_SPREAD_S = 1.0  # the spread of one pair that is assumed beside those seen
PROPOSED = 0.25  # share among the ways to pair at all, from which a pair is proposed (and asks)


@dataclass(frozen=True, slots=True)
class SpokenMark:
    """A picture was announced."""

    id: str
    time_s: float | None  # when it was said, from the start of the recording; None where not known


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture to place."""

    id: str
    taken_at: datetime | None  # naive, by the camera's own clock; None without usable EXIF
    name: str  # file name; its counter gives the order where the clock does not


@dataclass(frozen=True, slots=True)
class Match:
    """A picture and its mark."""

    mark: str
    photo: str
    confidence: float  # 0…1, probability that they belong together, given all marks and pictures
    sure: bool  # False: a proposal, which waits for a person
    by_order: bool = False  # no clock of use: paired by the order of names and of speech
    rival: str | None = None  # the mark that is next likely for this picture; None where none comes near


@dataclass(frozen=True, slots=True)
class MatchResult:
    """All marks and pictures, each exactly once."""

    matches: tuple[Match, ...]  # in the order spoken
    unmatched_marks: tuple[str, ...]
    unmatched_photos: tuple[str, ...]
    # Camera minus bench, the usual delay from word to shutter included; None unless a match is sure by time.
    clock_offset_s: float | None


def match_photos(
    marks: Sequence[SpokenMark],
    pictures: Sequence[Picture],
    *,
    started_at: datetime | None = None,
    fixed: Mapping[str, str | None] | None = None,
) -> MatchResult:
    """The best pairing of *marks* and *pictures*.

    *started_at* is the wall clock at the start of the recording; with a zone it is taken in UTC, and the
    zone becomes part of the offset. None where it is not known: the offset is then from the first
    picture, and has the same width. Pictures without a time, and all where no mark has one, go by order.

    *fixed* is what a person placed, photo → mark, None for a picture put elsewhere. Give those marks and
    pictures too: they still tell about the clock. They are in neither list of the result.
    """
    fixed = fixed or {}
    timed_marks = sorted((m for m in marks if m.time_s is not None), key=lambda m: m.time_s or 0.0)
    dated = sorted((p for p in pictures if p.taken_at is not None), key=lambda p: (p.taken_at, p.name))
    by_time: list[Match] = []
    offset_s: float | None = None
    if timed_marks and dated:
        marks_s = np.array([m.time_s for m in timed_marks], dtype=np.float64)
        photos_s = _seconds(dated, started_at)
        possible = np.array([[_possible(m.id, p.id, fixed) for p in dated] for m in timed_marks])
        found = posterior(marks_s, photos_s, possible)
        by_time = _decide([m.id for m in timed_marks], [p.id for p in dated], found)
        said_s = {mark.id: float(at_s) for mark, at_s in zip(timed_marks, marks_s, strict=True)}
        taken_s = {photo.id: float(at_s) for photo, at_s in zip(dated, photos_s, strict=True)}
        by_time = _doubted(by_time, [taken_s[match.photo] - said_s[match.mark] for match in by_time])
        if any(match.sure for match in by_time):
            offset_s = round(found.offset_s, 1) if started_at is not None else None
    return _finish(marks, pictures, by_time, offset_s, fixed)


def _possible(mark: str, photo: str, fixed: Mapping[str, str | None]) -> bool:
    return fixed[photo] == mark if photo in fixed else mark not in fixed.values()


def _seconds(dated: Sequence[Picture], started_at: datetime | None) -> Floats:
    times = [p.taken_at.replace(tzinfo=None) for p in dated if p.taken_at is not None]
    origin = started_at if started_at is not None else times[0]
    if origin.tzinfo is not None:
        origin = origin.astimezone(UTC).replace(tzinfo=None)
    return np.array([(taken - origin).total_seconds() for taken in times], dtype=np.float64)


def _decide(mark_ids: Sequence[str], photo_ids: Sequence[str], found: Posterior) -> list[Match]:
    """The pairs in order that maximise the summed probability, told as sure or as proposals."""
    if found.any_pair <= 0:
        return []
    given_any = found.pairs / found.any_pair
    matches = []
    for mark, photo in best_path(np.where(given_any >= PROPOSED, given_any, 0.0)):
        confidence = min(1.0, float(found.pairs[mark, photo]))
        others = np.delete(given_any[:, photo], mark)
        lone = max(others.max(initial=0.0), np.delete(given_any[mark], photo).max(initial=0.0)) <= RULED_OUT
        sure = confidence >= SURE and found.offset_share >= SURE_OFFSET and bool(lone)
        rival = None
        if others.size and others.max() >= 0.05:
            index = int(others.argmax())
            rival = mark_ids[index if index < mark else index + 1]
        matches.append(Match(mark_ids[mark], photo_ids[photo], round(confidence, 4), sure, rival=rival))
    return matches


def _doubted(matches: Sequence[Match], delays_s: Sequence[float]) -> list[Match]:
    """*matches* with those no longer sure whose delay stands out from the delays of the other sure ones.

    The delays contain the clock's offset, which is the same for all.
    """
    sure = [index for index, match in enumerate(matches) if match.sure]
    known_s = np.array([delays_s[index] for index in sure])
    told = list(matches)
    for place, index in enumerate(sure):
        if _apart(known_s[place], np.delete(known_s, place)) >= STANDS_OUT:
            told[index] = replace(matches[index], sure=False)
    return told


def _apart(delay_s: float, others_s: Floats) -> float:
    """How many spreads of *others_s* (n,) the delay is from their mean; 0 where there are none.

    The farthest of eight and more is left out: a second stray would hide the first. The spread is that of
    what is left and of one pair of HAND_SPREAD_S, widened by how little a few pairs tell of the mean.
    """
    if others_s.size >= 8:
        others_s = np.delete(others_s, int(np.abs(others_s - np.median(others_s)).argmax()))
    if not others_s.size:
        return 0.0
    squares = float(((others_s - others_s.mean()) ** 2).sum())
    spread_s = np.sqrt((squares + HAND_SPREAD_S**2) / others_s.size * (1 + 1 / others_s.size))
    return float(abs(delay_s - others_s.mean()) / spread_s)


def _finish(
    marks: Sequence[SpokenMark],
    pictures: Sequence[Picture],
    by_time: list[Match],
    offset_s: float | None,
    fixed: Mapping[str, str | None],
) -> MatchResult:
    """Pictures without a clock of use go by order between those placed; then count who is left."""
    by_time = [match for match in by_time if match.photo not in fixed]
    by_person = {photo: mark for photo, mark in fixed.items() if mark is not None}
    use_all = not any(mark.time_s is not None for mark in marks)
    loose = [p.id for p in pictures if (use_all or p.taken_at is None) and p.id not in fixed]
    spoken = [m.id for m in _as_spoken(marks)]
    named = [(p.id, p.name) for p in pictures]
    if use_all and all(p.taken_at is not None for p in pictures):
        by_clock = sorted(pictures, key=lambda p: (p.taken_at, p.name))
        named = [(p.id, str(number)) for number, p in enumerate(by_clock)]
    ordered = match_by_order(
        spoken,
        named,
        loose,
        by_person | {m.photo: m.mark for m in by_time if m.sure},
        {m.mark for m in by_time} | set(by_person.values()),
    )
    extra = [Match(o.mark, o.photo, o.confidence, o.sure, by_order=True) for o in ordered]
    place = {mark: index for index, mark in enumerate(spoken)}
    matches = sorted([*by_time, *extra], key=lambda m: place[m.mark])
    used_marks = {m.mark for m in matches} | set(by_person.values())
    used_photos = {m.photo for m in matches} | set(fixed)
    return MatchResult(
        tuple(matches),
        tuple(mark for mark in spoken if mark not in used_marks),
        tuple(p.id for p in pictures if p.id not in used_photos),
        offset_s,
    )


def _as_spoken(marks: Sequence[SpokenMark]) -> list[SpokenMark]:
    """*marks* by time; one without a time keeps its place behind the one before it in the list."""
    last_s = float("-inf")
    keyed = []
    for index, mark in enumerate(marks):
        last_s = mark.time_s if mark.time_s is not None else last_s
        keyed.append((last_s, index, mark))
    return [replace(mark) for _, _, mark in sorted(keyed, key=lambda row: row[:2])]
