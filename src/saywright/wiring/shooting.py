"""Pictures taken by the program: "photo" is said, and the camera on the bench takes the shot."""

from __future__ import annotations

import tempfile
from datetime import datetime
from pathlib import Path
from typing import Protocol

import numpy as np
import numpy.typing as npt

from saywright.errors import RefusedError
from saywright.photos.camera import Camera
from saywright.photos.jpeg import original_jpeg
from saywright.record.events import PhotoAdded, PhotoPlaced
from saywright.record.types import Photo
from saywright.wiring import pictures
from saywright.wiring.log import JobLog

__all__ = ["Camera", "Shooter", "ShotOnMark", "shoot"]


class Shooter(Protocol):
    """What takes a picture: `photos.camera.Camera`, or a stand-in."""

    def shoot(self) -> npt.NDArray[np.uint8]:
        """(height, width, 3) uint8 RGB, upright."""
        ...


def shoot(log: JobLog, camera: Shooter, mark: str | None, *, actor: str) -> PhotoAdded:
    """Take a picture into the job, at *mark* where one is named."""
    at: datetime = log.now()
    pixels = camera.shoot()
    with tempfile.TemporaryDirectory(prefix="saywright-shot-") as folder:
        path = Path(folder) / f"shot-{at:%Y%m%d-%H%M%S-%f}.jpg"
        path.write_bytes(original_jpeg(pixels, at))
        added, refused = pictures.add_photos(log, [path], None)
    if refused:
        raise refused[0]
    if not added:
        raise RefusedError("the camera gave the same picture again", to_do="Look whether it still runs")
    if mark is not None:
        # The person's word took the picture, so no matching is to move it.
        log.keep(PhotoPlaced(photo=added[0].photo, mark=mark, confidence=1.0), actor=actor)
    return added[0]


class ShotOnMark:
    """Takes a picture for each photo mark spoken from now on. Call `follow` after each utterance."""

    def __init__(self, log: JobLog, camera: Shooter, *, actor: str) -> None:
        """Marks that are there already get none."""
        self._log = log
        self._camera = camera
        self._actor = actor
        log.refresh()
        self._done = {photo.id for photo in log.folder.record().photos}

    def follow(self) -> list[PhotoAdded]:
        """A picture for each mark that is new and has none; DeviceError where the camera gives none."""
        self._log.refresh()
        taken = []
        for photo in self._log.folder.record().photos:
            if photo.id in self._done:
                continue
            self._done.add(photo.id)
            if _waits_for_one(photo):
                added = shoot(self._log, self._camera, photo.id, actor=self._actor)
                self._done.add(added.photo)
                taken.append(added)
        return taken


def _waits_for_one(photo: Photo) -> bool:
    return bool(photo.heard) and photo.sha256 is None and photo.superseded_by is None
