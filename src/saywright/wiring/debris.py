"""Particles in a picture of a job: a proposal, of which a person keeps what is to be kept."""

from __future__ import annotations

from dataclasses import dataclass, replace

from saywright.photos.debris import Debris, Particle, find_debris
from saywright.photos.intake import read_photo
from saywright.photos.particles import RESOLVED_PX
from saywright.photos.region import Box
from saywright.wiring.log import JobLog
from saywright.wiring.measuring import ScaleBy, picture_of, scale_of

__all__ = ["RESOLVED_PX", "Found", "Speck", "debris_in_photo"]


@dataclass(frozen=True, slots=True)
class Speck:
    """A particle that is resolved. Places are shares of the picture's sides, 0…1."""

    number: int  # from 1, largest first
    size: str  # letter of ISO 16232
    form: str  # "compact", "fibre", or "fibre_wide": long as a fibre, its width not resolved
    feret_max_um: float
    feret_min_um: float
    area_um2: float
    box: Box
    outline: tuple[tuple[float, float], ...]  # convex hull


@dataclass(frozen=True, slots=True)
class Found:
    """What was found; nothing of it is kept."""

    specks: tuple[Speck, ...]  # largest first
    counts: tuple[tuple[str, int, int], ...]  # class, compact, fibres; from the first class that is resolved
    not_resolved: int  # found, and fewer pixels across than RESOLVED_PX: counted, not sized
    resolved_from_um: float  # what RESOLVED_PX pixels are
    um_per_px: float


def debris_in_photo(log: JobLog, photo_id: str, by: ScaleBy, box: Box | None) -> Found:
    """Particles in a picture of the job, inside *box* where given; with the card only in its window.

    InputError without a scale, where the card is not seen, and where the ground is a pattern.
    """
    added = picture_of(log, photo_id)
    pixels = read_photo(log.media.read(added.sha256), name=added.name).pixels
    height_px, width_px = pixels.shape[:2]
    within: list[tuple[float, float]] = []
    if box is not None:
        left, top, right, below = box[0], box[1], box[0] + box[2], box[1] + box[3]
        corners = ((left, top), (right, top), (right, below), (left, below))
        within = [(x * width_px, y * height_px) for x, y in corners]
    found = find_debris(pixels, scale_of(pixels, replace(by, lens=None)), within=within)
    return _told(found, width_px, height_px)


def _told(found: Debris, width_px: int, height_px: int) -> Found:
    return Found(
        tuple(_speck(one, width_px, height_px) for one in found.particles),
        found.counts(),
        found.not_resolved,
        found.resolved_from_um,
        found.um_per_px,
    )


def _speck(one: Particle, width_px: int, height_px: int) -> Speck:
    shape = one.shape
    return Speck(
        one.number,
        one.size,
        one.form,
        one.feret_max_um,
        one.feret_min_um,
        one.area_um2,
        (shape.left / width_px, shape.top / height_px, shape.width / width_px, shape.height / height_px),
        tuple(((x + 0.5) / width_px, (y + 0.5) / height_px) for x, y in shape.outline_px),
    )
