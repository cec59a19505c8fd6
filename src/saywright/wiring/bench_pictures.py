"""Pictures: the part of `Bench` that takes, matches, measures and shows them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from saywright.errors import SaywrightError
from saywright.record.events import Event, PhotoAdded, PhotoPlaced
from saywright.sheets.model import Stage
from saywright.wiring import matching, measuring, pictures, review
from saywright.wiring.bench_part import Part


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
        self, paths: Sequence[Path], *, progress: pictures.Progress | None = None
    ) -> tuple[list[PhotoAdded], list[SaywrightError]]:
        """`add_photos` that gives what could not be read along with what could."""
        return pictures.add_photos(self._log, [Path(path) for path in paths], progress)

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

    def measure_photo(self, photo_id: str, shown: measuring.Shown, *, actor: str) -> Event:
        """Measure in a picture. What comes out stays with it as a candidate, and is no reading."""
        return measuring.measure_photo(self._log, photo_id, shown, actor=review.named(actor))

    def photo_jpeg(self, photo_id: str, *, max_px: int = 1600) -> bytes:
        """A picture without its camera's data, its longer side at most *max_px*."""
        return pictures.jpeg(self._log, photo_id, max_px)
