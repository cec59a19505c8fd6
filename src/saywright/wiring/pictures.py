"""Camera files into the job, and pictures out of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from saywright.errors import ImageError, SaywrightError
from saywright.photos.annotate import annotated
from saywright.photos.burst import Shot, bursts
from saywright.photos.intake import read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.shrink import shrunk
from saywright.record.events import PhotoAdded
from saywright.record.types import Photo
from saywright.wiring.log import MACHINE, JobLog
from saywright.wiring.looking import Looked, look_at

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
        log.append(payload, actor=actor)
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
