"""Camera files into the job, and pictures to their spoken marks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from saywright.errors import ImageError, SaywrightError
from saywright.photos.burst import Shot, bursts
from saywright.photos.intake import derived_jpeg, read_photo
from saywright.photos.match import Match, Picture, SpokenMark, match_photos
from saywright.record.events import Heard, PhotoAdded, PhotoPlaced
from saywright.record.types import Photo
from saywright.wiring.log import MACHINE, JobLog
from saywright.wiring.looking import Looked, look_at

Progress = Callable[[int, int], None]  # pictures done, pictures in all


@dataclass(frozen=True, slots=True)
class _Group:
    """Marks spoken into one recording."""

    started_at: datetime | None  # UTC; None where not known
    marks: tuple[SpokenMark, ...]


def add_photos(
    log: JobLog, paths: Sequence[Path], progress: Progress | None
) -> tuple[list[PhotoAdded], list[SaywrightError]]:
    """Take in every picture that can be read; what could not is told, and stops none of the others.

    They are read on several cores, and enter the log in the order given, by this one writer.
    """
    added: list[PhotoAdded] = []
    refused: list[SaywrightError] = []
    for number, (path, found) in enumerate(zip(paths, look_at(paths), strict=True), start=1):
        if isinstance(found, ImageError):
            refused.append(found)
        else:
            photo = _add(log, path, found)
            added += [photo] if photo else []
        if progress:
            progress(number, len(paths))
    return added, refused


def _add(log: JobLog, path: Path, taken: Looked) -> PhotoAdded | None:
    """One picture; None where it is already in the job."""
    sha256 = log.media.put_bytes(taken.kept)

    def step() -> PhotoAdded | None:
        known = [photo for photo, _ in log.folder.pictures()]
        if any(photo.sha256 == sha256 for photo in known):
            return None
        payload = PhotoAdded(
            photo=f"p{len(known) + 1}",
            sha256=sha256,
            name=path.name,
            taken_at=taken.taken_at,
            file_time=taken.file_time,
            checks=taken.checks,
        )
        log.append(payload)
        return payload

    return log.attempt(step)


def in_bursts(photos: Sequence[Photo]) -> dict[str, str]:
    """Id of a picture → id of a sharper one of the same burst, which is proposed in its place."""
    shots = [
        Shot(photo.id, photo.checks.likeness, photo.taken_at, photo.checks.sharpness)
        for photo in photos
        if photo.checks is not None and photo.superseded_by is None
    ]
    return {shot.id: group[0].id for group in bursts(shots) for shot in group[1:]}


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
    pictures = [
        Picture(added.photo, added.taken_at, added.name)
        for added, _ in log.folder.pictures()
        if added.photo not in gone
    ]
    ids = {added.photo for added, _ in log.folder.pictures()}
    marks = [p for p in record.photos if p.id not in ids | gone]
    found = _matched(_groups(log, marks), pictures, fixed)
    before = _machine_places(log)
    for picture in pictures:
        if picture.id in fixed:
            continue
        payload = _placement(picture.id, found.get(picture.id))
        former = before.get(picture.id)
        if payload != former and (former is not None or payload.mark is not None):
            log.append(payload)
            placed.append(payload)


def _placement(photo: str, match: Match | None) -> PhotoPlaced:
    if match is None:
        return PhotoPlaced(photo=photo, mark=None, confidence=0.0)
    return PhotoPlaced(
        photo=photo, mark=match.mark, confidence=match.confidence, sure=match.sure, by_order=match.by_order
    )


def _fixed(log: JobLog, photos: Sequence[Photo]) -> dict[str, str | None]:
    """Picture → the mark that a person placed it at or accepted; None where it was put elsewhere.

    They go into the matching all the same: a pair that is certain says most about the camera's clock.
    """
    by_person: dict[str, bool] = {}
    for event in log.events:
        if isinstance(event.payload, PhotoPlaced):
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


def jpeg(log: JobLog, photo_id: str, max_px: int) -> bytes:
    """The picture, upright, without anything but its pixels; *photo_id* is its own id or its mark's."""
    item = log.folder.item(photo_id)
    if not isinstance(item, Photo) or item.sha256 is None:
        raise ImageError("there is no picture here", where=photo_id, to_do="Take the id of a picture")
    return derived_jpeg(read_photo(log.media.read(item.sha256), name=item.name or photo_id).pixels, max_px)
