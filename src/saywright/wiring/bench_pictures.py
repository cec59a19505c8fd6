"""Pictures: the part of `Bench` that takes, matches, measures and shows them."""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from saywright.errors import SaywrightError
from saywright.photos.damage import Proposal
from saywright.photos.region import Box
from saywright.photos.scale import Point
from saywright.record.events import Event, MeasurementEntered, PhotoAdded, PhotoChosen, PhotoPlaced
from saywright.record.types import Photo
from saywright.sheets.model import Stage
from saywright.wiring import comparing, debris, matching, measuring, pictures, review, shooting, watching
from saywright.wiring.bench_part import Part
from saywright.wiring.log import MACHINE


class PicturesPart(Part):
    """Pictures of a job."""

    def add_photos(
        self, paths: Sequence[Path], *, progress: pictures.Progress | None = None
    ) -> list[PhotoAdded]:
        """Take in pictures; one already there is passed over.

        The first that cannot be read is told after all the others were taken in.
        """
        added, refused = pictures.add_photos(self._log, [Path(path) for path in paths], progress)
        if refused:
            raise refused[0]
        return added

    def take_photos(
        self,
        paths: Sequence[Path],
        *,
        progress: pictures.Progress | None = None,
        actor: str | None = None,
    ) -> tuple[list[PhotoAdded], list[SaywrightError]]:
        """`add_photos` that gives what could not be read along with what could.

        *actor* is the person who gave them; None: they came from a camera's card or folder.
        """
        by = review.named(actor) if actor is not None else MACHINE
        return pictures.add_photos(self._log, [Path(path) for path in paths], progress, by)

    def follow_photos(
        self,
        folder: Path,
        told: Callable[[list[PhotoAdded], list[SaywrightError]], None],
        stop: threading.Event,
        *,
        settled_s: float = watching.SETTLED_S,
        every_s: float = watching.EVERY_S,
    ) -> None:
        """Take in and match what arrives in *folder* until *stop* is set; *told* hears of each lot.

        Made to run in a thread of its own beside listening.
        """

        def arrived(paths: list[Path]) -> None:
            added, refused = self.take_photos(paths)
            if added:
                self.match_photos()
            told(added, refused)

        watch = watching.FolderWatch(Path(folder), settled_s=settled_s)
        watching.follow(watch, arrived, stop, every_s=every_s)

    def shoot(
        self, camera: shooting.Shooter, *, mark: str | None = None, actor: str | None = None
    ) -> PhotoAdded:
        """Take a picture with the camera on the bench, for *mark* where one is named."""
        return shooting.shoot(self._log, camera, mark, actor=review.named(actor or self._actor))

    def shot_on_mark(self, camera: shooting.Shooter) -> shooting.ShotOnMark:
        """Take a picture whenever one is announced: its `follow` is to be called after each utterance."""
        return shooting.ShotOnMark(self._log, camera, actor=self._actor)

    def match_photos(self) -> list[PhotoPlaced]:
        """Bring pictures and spoken marks together; what a person placed stays."""
        return matching.place_by_match(self._log)

    def place_photo(
        self,
        photo_id: str,
        *,
        mark: str | None = None,
        component: str | None = None,
        which: str | None = None,
        stage: Stage | None = None,
        beside: bool = False,
        actor: str | None = None,
    ) -> Event:
        """Put a picture at a mark, on a part, or (nothing named) take it off its place.

        *beside*: a further picture of the mark, which keeps the one it has. *stage*, as found or as left,
        is for a picture on a part or beside a mark.
        """
        return review.place(
            self._log,
            photo_id,
            mark=mark,
            component=component,
            which=which,
            stage=stage,
            beside=beside,
            actor=actor or self._actor,
        )

    def check_photo(self, photo_id: str, corners_px: Sequence[Point], *, actor: str) -> Event:
        """Check a picture again in the box between two corners, in pixels; none: where the part is found."""
        return pictures.check_again(self._log, photo_id, corners_px, actor=review.named(actor))

    def measure_photo(self, photo_id: str, shown: measuring.Shown, *, actor: str) -> Event:
        """Measure in a picture. What comes out stays with it as a candidate, and is no reading."""
        return measuring.measure_photo(self._log, photo_id, shown, actor=review.named(actor))

    def take_measurement(
        self,
        photo_id: str,
        measurement: str,
        component: str,
        characteristic: str,
        *,
        actor: str,
        which: str | None = None,
        stage: Stage | None = None,
    ) -> Event:
        """Take what was measured in a picture ("m1") for a reading, judged with its own uncertainty.

        *stage*: None for that of the picture. RefusedError where it does not measure this.
        """
        self._log.refresh()
        item = self._log.folder.item(photo_id)
        entered = MeasurementEntered(
            photo=measuring.picture_of(self._log, photo_id).photo,
            measurement=measurement,
            component=component,
            which=which,
            characteristic=characteristic,
            stage=stage or item.stage,
        )
        return measuring.take_measurement(self._log, entered, actor=review.named(actor))

    def propose_damage(
        self, photo_id: str, kind: str = "scoring", box: Box | None = None
    ) -> tuple[Proposal, ...]:
        """Regions where "scoring", or damage of the "slot" in *box*, may be: proposals, nothing is kept.

        *box*: left, top, width, height as shares of the sides. A person keeps one by drawing it.
        """
        self._log.refresh()
        return measuring.propose_damage(self._log, photo_id, kind, box)

    def find_debris(self, photo_id: str, by: measuring.ScaleBy, box: Box | None = None) -> debris.Found:
        """Particles in a picture, within *box* where given: a proposal, nothing is kept.

        InputError without a scale. A person keeps one, or the counts, by drawing it.
        """
        self._log.refresh()
        return debris.debris_in_photo(self._log, photo_id, by, box)

    def choose_photo(self, photo_id: str, *, in_report: bool, actor: str) -> Event:
        """Show a picture in the report, or leave it out; it is kept in any case."""
        self._log.refresh()
        picture = measuring.picture_of(self._log, photo_id).photo
        return self._log.append(PhotoChosen(photo=picture, in_report=in_report), actor=review.named(actor))

    def annotate_photo(self, photo_id: str, annotations: Sequence[Mapping[str, Any]], *, actor: str) -> Event:
        """Draw on a picture: all that is to be on it, as `photos.annotate` has it."""
        return measuring.annotate(self._log, photo_id, annotations, actor=review.named(actor))

    def compare_photos(self, before: str, after: str) -> comparing.Comparison:
        """One picture laid over another; InputError where they do not fit."""
        return comparing.compare_photos(self._log, before, after)

    def photo(self, photo_id: str) -> Photo:
        """The item that shows a picture; *photo_id* is its own id or its mark's. ImageError without one."""
        self._log.refresh()
        return measuring.photo_of(self._log, photo_id)

    def bursts(self) -> dict[str, str]:
        """Id of a picture → id of a sharper or earlier one of the same burst, which is proposed."""
        return pictures.in_bursts(self.record().photos)

    def photo_jpeg(self, photo_id: str, *, max_px: int = 1600) -> bytes:
        """A picture without its camera's data, its longer side at most *max_px*."""
        return pictures.jpeg(self._log, photo_id, max_px)
