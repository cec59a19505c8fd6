"""Sizes of single particles from a mask: Feret diameters, area, inscribed circle, stretched length, form.

Maximum Feret diameter: the longest distance between points of the contour halfway between particle and
background (scikit-image draws it around the pixels of the convex hull, up to a pixel farther out). The
minimum is the least distance of two parallel tangents, which for a polygon lies along one of its sides.

Form by the rule of ISO 16232 and VDA 19: a fibre is a particle whose stretched length is more than 20 times
the diameter of its largest inscribed circle, and whose inscribed circle is no wider than 50 µm. The
stretched length is that of a ribbon with the particle's area and perimeter; the perimeter of pixels is
estimated after Vossepoel and Smeulders, Computer Graphics and Image Processing 20(4), 1982.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

import cv2
import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[Any]  # (height, width), 0 or False for background
Floats = npt.NDArray[np.floating[Any]]
Form = Literal["compact", "fibre", "fibre_wide"]

RESOLVED_PX = 10.0  # maximum Feret diameter below which a particle is counted and not sized
FIBRE_RATIO, FIBRE_WIDTH_UM = 20.0, 50.0  # VDA 19
WIDTH_RESOLVED_PX = 4.0  # a narrower inscribed circle is told too wide by blur
# ISO 16232, size classes by maximum Feret diameter in µm, lower bound included; K to N as of 2018.
CLASSES_UM = (
    ("B", 5),
    ("C", 15),
    ("D", 25),
    ("E", 50),
    ("F", 100),
    ("G", 150),
    ("H", 200),
    ("I", 400),
    ("J", 600),
    ("K", 1000),
    ("L", 1500),
    ("M", 2000),
    ("N", 3000),
)
_LARGEST_TO_ENLARGE = 60_000  # pixels of the box
_LEAST_AREA_PX = 4  # smaller ones are counted from the table of components alone


@dataclass(frozen=True, slots=True)
class Shape:
    """One particle in pixels."""

    left: int  # of its bounding box
    top: int
    width: int
    height: int
    area_px: int
    feret_max_px: float
    feret_min_px: float
    inscribed_px: float  # diameter of the largest circle inside
    stretched_px: float  # length if it were pulled straight
    outline_px: tuple[tuple[float, float], ...]  # convex hull


def size_class(feret_um: float) -> str | None:
    """The letter of ISO 16232; None below 5 µm."""
    return next((letter for letter, lower_um in reversed(CLASSES_UM) if feret_um >= lower_um), None)


def form(stretched_um: float, inscribed_um: float, *, width_resolved: bool = True) -> Form:
    """Compact or fibre; "fibre_wide" where it is long as a fibre and its width cannot be told from 50 µm."""
    if inscribed_um <= 0 or stretched_um / inscribed_um <= FIBRE_RATIO:
        return "compact"
    if inscribed_um <= FIBRE_WIDTH_UM:
        return "fibre"
    return "compact" if width_resolved else "fibre_wide"


def components(mask: Mask) -> tuple[npt.NDArray[np.int32], npt.NDArray[np.int32]]:
    """Labels (height, width), and for each but the background left, top, width, height, area, (n, 5)."""
    binary = (np.asarray(mask) != 0).astype(np.uint8)
    _, labels, table, _ = cv2.connectedComponentsWithStats(binary, connectivity=8)
    return np.asarray(labels, dtype=np.int32), np.asarray(table, dtype=np.int32)[1:]


def shapes(mask: Mask) -> Iterator[Shape]:
    """Each 8-connected region of *mask* with four pixels or more, by rows of its uppermost pixel."""
    labels, table = components(mask)
    for number, (left, top, width, height, area) in enumerate(table.tolist(), start=1):
        if area >= _LEAST_AREA_PX:
            box = labels[top : top + height, left : left + width] == number
            yield shape(box, left, top)


def shape(box: npt.NDArray[np.bool_], left: int = 0, top: int = 0) -> Shape:
    """The shape in *box*, one connected region; *left* and *top* place it in the picture."""
    rim = _rim(box)
    hull = _hull(rim)
    area = int(box.sum())
    padded = np.pad(box, 1).astype(np.uint8)
    inscribed = _inscribed(padded)
    ferets = _ferets(hull)
    return Shape(
        left,
        top,
        box.shape[1],
        box.shape[0],
        area,
        ferets[0],
        ferets[1],
        inscribed,
        max(_stretched(padded, area), ferets[0] if ferets[0] > 3 * inscribed else 0.0),
        tuple((float(x) + left, float(y) + top) for x, y in hull),
    )


def _rim(box: npt.NDArray[np.bool_]) -> Floats:
    """Middles of the outer sides of the first and last pixel of each row and column, (n, 2) as x, y."""
    height, width = box.shape
    rows, columns = np.flatnonzero(box.any(axis=1)), np.flatnonzero(box.any(axis=0))
    first, last = box.argmax(axis=1)[rows], width - 1 - box[:, ::-1].argmax(axis=1)[rows]
    upper, lower = box.argmax(axis=0)[columns], height - 1 - box[::-1].argmax(axis=0)[columns]
    return np.concatenate(
        [
            np.column_stack([first - 0.5, rows]),
            np.column_stack([last + 0.5, rows]),
            np.column_stack([columns, upper - 0.5]),
            np.column_stack([columns, lower + 0.5]),
        ]
    ).astype(np.float64)


def _hull(points: Floats) -> Floats:
    return np.asarray(cv2.convexHull(points.astype(np.float32)), dtype=np.float64).reshape(-1, 2)


def _ferets(hull: Floats) -> tuple[float, float]:
    """Largest and least distance of two parallel tangents of the convex polygon *hull* (n, 2)."""
    apart = hull[:, None, :] - hull[None, :, :]
    largest = math.sqrt(float((apart**2).sum(axis=2).max()))
    sides = np.roll(hull, -1, axis=0) - hull
    length = np.hypot(sides[:, 0], sides[:, 1])
    sides, length = sides[length > 0], length[length > 0]
    normals = np.column_stack([-sides[:, 1], sides[:, 0]]) / length[:, None]
    across = hull @ normals.T
    return largest, float(np.ptp(across, axis=0).min())


def _inscribed(padded: npt.NDArray[np.uint8]) -> float:
    """Diameter of the largest circle inside. Small shapes are enlarged, or 2 pixels would count as 1."""
    times = 3 if padded.size < _LARGEST_TO_ENLARGE else 1
    wide = padded if times == 1 else padded.repeat(times, axis=0).repeat(times, axis=1)
    depth = float(cv2.distanceTransform(wide, cv2.DIST_L2, cv2.DIST_MASK_PRECISE).max())
    return (2 * depth - 1) / times  # from the middle of a pixel to the border, not to the next pixel's middle


def _stretched(padded: npt.NDArray[np.uint8], area: int) -> float:
    """Length of the ribbon with this area and perimeter: 2(l + w) = p, l·w = a."""
    contours, _ = cv2.findContours(padded, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    perimeter = sum(_perimeter(np.asarray(contour).reshape(-1, 2)) for contour in contours)
    half = perimeter / 2
    return (half + math.sqrt(max(0.0, half**2 - 4 * area))) / 2


def _perimeter(chain: npt.NDArray[Any]) -> float:
    """Of the border of the pixels whose middles *chain* (n, 2) walks along, closed."""
    if len(chain) < 2:
        return math.pi
    steps = np.roll(chain, -1, axis=0) - chain
    straight = int((np.abs(steps).sum(axis=1) == 1).sum())
    oblique = len(steps) - straight
    corners = int((steps != np.roll(steps, -1, axis=0)).any(axis=1).sum())
    # The chain lies half a pixel inside; a closed convex curve half a pixel farther out is π longer.
    return 0.980 * straight + 1.406 * oblique - 0.091 * corners + math.pi
