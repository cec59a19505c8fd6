"""Camera files into the job, and pictures out of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from saywright.errors import ImageError, InputError, SaywrightError
from saywright.photos.annotate import annotated
from saywright.photos.burst import Shot, bursts
from saywright.photos.intake import IntakeResult, read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.region import box_between
from saywright.photos.scale import Point
from saywright.photos.shrink import shrunk
from saywright.record.events import Event, PhotoAdded, PhotoChecked
from saywright.record.pictures import fault_flags, odd_flags
from saywright.record.types import Photo, PhotoChecks
from saywright.wiring.log import MACHINE, JobLog
from saywright.wiring.looking import Looked, checked, look_at
from saywright.wiring.measuring import in_picture, picture_of

Progress = Callable[[int, int], None]  # pictures done, pictures in all


def add_photos(
    log: JobLog, paths: Sequence[Path], progress: Progress | None, actor: str = MACHINE
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
            photo = _add(log, path, found, actor)
            added += [photo] if photo else []
        if progress:
            progress(number, len(paths))
    return added, refused


def _add(log: JobLog, path: Path, taken: Looked, actor: str) -> PhotoAdded | None:
    """One picture; None where it is already in the job."""

    def step() -> PhotoAdded | None:
        known = [photo for photo, _ in log.folder.pictures()]
        if any(photo.sha256 == taken.sha256 for photo in known):
            return None
        payload = PhotoAdded(
            photo=f"p{len(known) + 1}",
            sha256=log.media.put_bytes(taken.original),
            name=path.name,
            taken_at=taken.taken_at,
            file_time=taken.file_time,
            checks=taken.checks,
        )
        log.append(payload, actor=actor)
        return payload

    return log.attempt(step)


def check_again(log: JobLog, photo_id: str, corners_px: Sequence[Point], *, actor: str) -> Event:
    """Check a picture of the job in the box that a person shows; without corners where the part is found."""
    log.refresh()
    added = picture_of(log, photo_id)
    checks = _checked(read_photo(log.media.read(added.sha256), name=added.name), corners_px)
    return log.keep(PhotoChecked(photo=added.photo, checks=checks), actor=actor)


def faults_told(checks: PhotoChecks) -> tuple[str, ...]:
    """What is wrong with a picture, in words."""
    return tuple(one.text for one in fault_flags(checks))


def oddities_told(checks: PhotoChecks) -> tuple[str, ...]:
    """What of its file is not shown as it is or is of no use, in words."""
    return tuple(one.text for one in odd_flags(checks))


def check_file(path: Path, corners_px: Sequence[Point]) -> PhotoChecks:
    """The checks of an image file, of the box between two corners where they are given."""
    return _checked(read_photo(path), corners_px)


def _checked(taken: IntakeResult, corners_px: Sequence[Point]) -> PhotoChecks:
    if not corners_px:
        return checked(taken)
    if len(corners_px) != 2:
        raise InputError("a box needs two corners", to_do="Show two, across from each other")
    in_picture(corners_px, taken.pixels.shape)
    first, second = ((x / taken.width_px, y / taken.height_px) for x, y in corners_px)
    return checked(taken, box_between(first, second))


def in_bursts(photos: Sequence[Photo]) -> dict[str, str]:
    """Id of a picture → id of a sharper one of the same burst, which is proposed in its place."""
    shots = [
        Shot(photo.id, photo.checks.likeness, photo.taken_at, photo.checks.sharpness)
        for photo in photos
        if photo.checks is not None and photo.superseded_by is None
    ]
    return {shot.id: group[0].id for group in bursts(shots) for shot in group[1:]}


def jpeg(log: JobLog, photo_id: str, max_px: int, *, drawn: bool = False) -> bytes:
    """The picture, upright, without anything but its pixels; *photo_id* is its own id or its mark's.

    *drawn*: with what a person drew on it.
    """
    item = log.folder.item(photo_id)
    if not isinstance(item, Photo) or item.sha256 is None:
        raise ImageError("there is no picture here", where=photo_id, to_do="Take the id of a picture")
    pixels = read_photo(log.media.read(item.sha256), name=item.name or photo_id).pixels
    if drawn and item.annotations:
        pixels = annotated(shrunk(pixels, max_px), item.annotations)
    return derived_jpeg(pixels, max_px)
