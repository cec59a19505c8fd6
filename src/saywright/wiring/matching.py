"""Pictures of a job to their spoken marks, by time, by order, and by what belongs to one burst.

Of a burst the sharpest is matched, and the others stand beside it, unless marks were spoken about that time
so near to each other that each of the pictures may have its own. When that was by the camera's clock is known
from a first matching; where it is not, no burst is taken for one. A mark that was taken back by "bad one,
again" still takes part, so that the bad picture is not given to the next mark; it stands beside the mark that
followed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from saywright.photos.burst import WITHIN_S, Shot, bursts
from saywright.photos.match import Match, Picture, SpokenMark, match_photos
from saywright.record.events import Heard, PhotoPlaced
from saywright.record.types import Photo
from saywright.record.undone import undone
from saywright.wiring.log import MACHINE, JobLog

Burst = tuple[Shot, ...]  # sharpest first

APART_S = WITHIN_S + 5.0  # marks nearer than this may be of pictures that look like one burst


@dataclass(frozen=True, slots=True)
class _Group:
    """Marks spoken into one recording."""

    started_at: datetime | None  # UTC; None where not known
    marks: tuple[SpokenMark, ...]


def place_by_match(log: JobLog) -> list[PhotoPlaced]:
    """Match what no person placed; only what changed becomes an event."""
    placed: list[PhotoPlaced] = []
    log.attempt(lambda: _place(log, placed))
    return placed


def _place(log: JobLog, placed: list[PhotoPlaced]) -> None:
    """Append to the log and to *placed* what is not yet there; may be done again after another writer."""
    record = log.folder.record()
    fixed = _fixed(log, record.photos)
    gone = {photo.id for photo in record.photos if photo.superseded_by is not None}
    added = [added for added, _ in log.folder.pictures() if added.photo not in gone]
    ids = {one.photo for one, _ in log.folder.pictures()}
    again = {
        p.id: p.superseded_by for p in record.photos if p.superseded_by and _is_mark(record.photos, p, ids)
    }
    marks = [p for p in record.photos if p.id not in ids and (p.id not in gone or p.id in again)]
    groups = _groups(log, marks)
    pictures = [Picture(one.photo, one.taken_at, one.name) for one in added]
    shots = [Shot(one.photo, one.checks.likeness, one.taken_at, one.checks.sharpness) for one in added]
    mates, found = _with_bursts(groups, pictures, bursts(shots), fixed)
    before = _machine_places(log)
    for picture in pictures:
        if picture.id in fixed:
            continue
        head = mates.get(picture.id, picture.id)
        payload = _placement(
            picture.id, _match_of(head, found, fixed), beside=head != picture.id, again=again
        )
        former = before.get(picture.id)
        if payload != former and (former is not None or payload.mark is not None):
            log.append(payload)
            placed.append(payload)


def _is_mark(photos: Sequence[Photo], gone: Photo, pictures: set[str]) -> bool:
    """True for a spoken mark in whose place another came, spoken later, for a picture taken again.

    One of the same time is the same picture, told anew: "that's the after".
    """
    return gone.id not in pictures and any(
        p.id == gone.superseded_by
        and p.superseded_by is None
        and p.id not in pictures
        and p.start_s != gone.start_s
        for p in photos
    )


def _with_bursts(
    groups: Sequence[_Group],
    pictures: Sequence[Picture],
    alike: Sequence[Burst],
    fixed: Mapping[str, str | None],
) -> tuple[dict[str, str], dict[str, Match]]:
    """Picture → the one of its burst that is matched for both; picture → its match."""
    mates = _mates(alike, fixed)
    found = _matched(groups, [one for one in pictures if one.id not in mates], fixed)
    if not mates or not any(_near(group) for group in groups):
        return mates, found
    own = [burst for burst in alike if not _may_be_several(burst, groups, pictures, found, fixed)]
    if len(own) < len(alike):
        mates = _mates(own, fixed)
        found = _matched(groups, [one for one in pictures if one.id not in mates], fixed)
    return mates, found


def _mates(alike: Sequence[Burst], fixed: Mapping[str, str | None]) -> dict[str, str]:
    """Id of a picture → id of the one of its burst that is matched for both."""
    found: dict[str, str] = {}
    for burst in alike:
        at_marks = [shot.id for shot in burst if fixed.get(shot.id) is not None]
        head = at_marks[0] if at_marks else next((s.id for s in burst if s.id not in fixed), None)
        if head is not None:
            found |= {shot.id: head for shot in burst if shot.id != head and shot.id not in fixed}
    return found


def _near(group: _Group) -> list[float]:
    """When the marks were spoken that have another within APART_S, from the start of the recording."""
    times = sorted(mark.time_s for mark in group.marks if mark.time_s is not None)
    return sorted({t for pair in pairwise(times) if pair[1] - pair[0] < APART_S for t in pair})


def _may_be_several(
    burst: Burst,
    groups: Sequence[_Group],
    pictures: Sequence[Picture],
    found: Mapping[str, Match],
    fixed: Mapping[str, str | None],
) -> bool:
    """True where marks spoken near to each other may each have one of these pictures."""
    taken = [shot.taken_at for shot in burst if shot.taken_at is not None]
    for group in groups:
        near = _near(group)
        start = _camera_start(group, pictures, found, fixed) if near else None
        if near and start is None:
            return True
        first_s, last_s = ((at - (start or at)).total_seconds() for at in (min(taken), max(taken)))
        if any(first_s - APART_S <= t <= last_s + APART_S for t in near):
            return True
    return False


def _camera_start(
    group: _Group,
    pictures: Sequence[Picture],
    found: Mapping[str, Match],
    fixed: Mapping[str, str | None],
) -> datetime | None:
    """What the camera's clock told when the recording began, by the pairs that are sure; None without one."""
    said_s = {mark.id: mark.time_s for mark in group.marks}
    starts = []
    for picture in pictures:
        match = found.get(picture.id)
        mark = (
            match.mark if match is not None and match.sure and not match.by_order else fixed.get(picture.id)
        )
        at_s = said_s.get(mark or "")
        if at_s is not None and picture.taken_at is not None:
            starts.append(picture.taken_at - timedelta(seconds=at_s))
    return sorted(starts)[len(starts) // 2] if starts else None


def _match_of(photo: str, found: Mapping[str, Match], fixed: Mapping[str, str | None]) -> Match | None:
    """How the picture was matched; what a person placed is certain."""
    mark = fixed.get(photo)
    if mark is not None:
        return Match(mark, photo, 1.0, sure=True)
    return found.get(photo)


def _placement(photo: str, match: Match | None, *, beside: bool, again: Mapping[str, str]) -> PhotoPlaced:
    if match is None:
        return PhotoPlaced(photo=photo, mark=None, confidence=0.0)
    mark = again.get(match.mark, match.mark)
    return PhotoPlaced(
        photo=photo,
        mark=mark,
        confidence=match.confidence,
        sure=match.sure,
        by_order=match.by_order,
        beside=beside or mark != match.mark,
    )


def _fixed(log: JobLog, photos: Sequence[Photo]) -> dict[str, str | None]:
    """Picture → the mark that a person placed it at or accepted; None where it was put elsewhere.

    They go into the matching all the same: a pair that is certain says most about the camera's clock.
    """
    by_person: dict[str, bool] = {}
    gone = undone(log.events)
    for event in log.events:
        if isinstance(event.payload, PhotoPlaced) and event.seq not in gone:
            by_person[event.payload.photo] = event.actor != MACHINE
    accepted = {photo.id for photo in photos if photo.accepted_by is not None and photo.sha256 is not None}
    return {
        added.photo: mark
        for added, mark in log.folder.pictures()
        if by_person.get(added.photo, False) or mark in accepted or added.photo in accepted
    }


def _machine_places(log: JobLog) -> dict[str, PhotoPlaced]:
    return {
        event.payload.photo: event.payload
        for event in log.events
        if isinstance(event.payload, PhotoPlaced) and event.actor == MACHINE
    }


def _groups(log: JobLog, marks: Sequence[Photo]) -> list[_Group]:
    """Marks by the recording they were spoken into; typed ones together."""
    heard = {e.seq: e.payload.utterance for e in log.events if isinstance(e.payload, Heard)}
    by_media: dict[str | None, list[SpokenMark]] = {}
    for mark in marks:
        utterance = heard.get(mark.utterance or 0)
        key = utterance.media if utterance else None
        by_media.setdefault(key, []).append(SpokenMark(mark.id, mark.start_s))
    return [
        _Group(log.recording(key).started_at if key else None, tuple(found))
        for key, found in by_media.items()
    ]


def _matched(
    groups: Sequence[_Group], pictures: Sequence[Picture], fixed: Mapping[str, str | None]
) -> dict[str, Match]:
    """Picture → its match. Recordings whose start is known share one clock and are matched together.

    The others are matched one after another, most marks first, each with the pictures still free. What a
    person placed (*fixed*) stays in the input of each.
    """
    dated = [group for group in groups if group.started_at is not None]
    loose = [group for group in groups if group.started_at is None]
    if len(dated) > 1:
        dated = [_together(dated)]
    free = list(pictures)
    found: dict[str, Match] = {}
    for group in sorted([*dated, *loose], key=lambda group: -len(group.marks)):
        result = match_photos(group.marks, free, started_at=group.started_at, fixed=fixed)
        found |= {match.photo: match for match in result.matches}
        free = [picture for picture in free if picture.id not in found]
    return found


def _together(groups: Sequence[_Group]) -> _Group:
    """Several recordings told on the clock of the first."""
    starts = [group.started_at for group in groups if group.started_at is not None]
    first = min(starts)
    marks: list[SpokenMark] = []
    for start, group in zip(starts, groups, strict=True):
        shift_s = (start - first).total_seconds()
        marks += [
            SpokenMark(mark.id, mark.time_s + shift_s if mark.time_s is not None else None)
            for mark in group.marks
        ]
    return _Group(first, tuple(marks))
