"""Where scoring or a chewed screw slot may be: proposals, each with the measure it rests on; no finding.

**Scoring.** In small windows, the structure tensor (Bigün and Granlund, ICCV 1987). Scratches that run one
way give much gradient in one direction (coherence), more than the face around has (strength), and light and
dark in turn across them (alternation): the edge of a part is as coherent and has one sign only.

**Screw slot.** The dark band in the box that a person shows, its two long edges as straight lines. What
departs from its line by more than a share of the slot's width is roughness; a driver that slipped leaves it.

Neither knows damage from a casting mark, a thread or a scribe line. A person keeps or drops each.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.region import WHOLE, Box, cut_out
from saywright.photos.shrink import shrunk

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.floating[Any]]

WORKING_PX = 1600  # longer side
WINDOW_PX, STEP_PX = 32, 16
COHERENT = 0.55  # (λ1 − λ2) / (λ1 + λ2)
STRONGER = 1.6  # gradient energy over that of the middle window
ALTERNATING = 0.75  # 1 − |sum| / sum of the gradient across
FEWEST_WINDOWS = 3  # that touch
ROUGH_SHARE = 0.12  # of the slot's width
SLOT_LONGER = 2.0  # than wide
_FAINT = 4.0  # gradient energy per pixel below which a face has no texture of its own
_MOST = 12  # proposals of one picture, the strongest


@dataclass(frozen=True, slots=True)
class Proposal:
    """A region to look at."""

    kind: Literal["scoring", "slot damage"]
    box: Box  # shares of the picture's sides
    score: float  # strength over the face; roughness as a share of the slot's width
    told: str  # the measure in words


def scoring(pixels: Pixels, box: Box | None = None) -> tuple[Proposal, ...]:
    """Regions of *pixels*, (height, width, 3) uint8, with scratches that run one way; the strongest first."""
    small = shrunk(pixels, WORKING_PX)
    looked_at = box or WHOLE
    grey = np.asarray(cv2.cvtColor(small, cv2.COLOR_RGB2GRAY), dtype=np.float32)
    plane = cv2.GaussianBlur(cut_out(grey, looked_at), (0, 0), 1.0)
    if min(plane.shape) < 2 * WINDOW_PX:
        return ()
    coherence, energy, alternation = _windows(np.asarray(plane))
    floor = max(float(np.median(energy)), _FAINT)
    marked = (coherence > COHERENT) & (energy > STRONGER * floor) & (alternation > ALTERNATING)
    found = [
        Proposal("scoring", _share(window, plane.shape, looked_at), round(strength, 2), told)
        for window, strength, told in _stretches(marked, energy / floor, coherence)
    ]
    return tuple(sorted(found, key=lambda one: -one.score)[:_MOST])


def slot_damage(pixels: Pixels, box: Box) -> tuple[Proposal, ...]:
    """Rough stretches of the edges of the screw slot in *box*. InputError where no slot is seen in it."""
    small = shrunk(pixels, WORKING_PX)
    grey = cut_out(np.asarray(cv2.cvtColor(small, cv2.COLOR_RGB2GRAY), dtype=np.uint8), box)
    slot = _slot(grey)
    along, across = _own_axes(slot)
    wide_px = float(np.percentile(across, 90) - np.percentile(across, 10)) / 0.8
    long_px = float(np.ptp(along))
    if wide_px < 6 or long_px < SLOT_LONGER * wide_px:
        raise _no_slot()
    found = []
    for side in (-1, 1):
        places, off_px = _edge(along, across, side, long_px)
        rough = np.abs(off_px) > ROUGH_SHARE * wide_px
        for start, end in _runs(rough):
            worst = float(np.abs(off_px[start:end]).max()) / wide_px
            if end - start < 3:
                continue
            near = np.abs(along - places[(start + end) // 2]) <= (end - start) / 2 + 2
            near &= np.sign(across - np.median(across)) == side
            told = f"edge {100 * worst:.0f} % of the slot's width off its line"
            window = _around(slot[near], 4)
            found.append(Proposal("slot damage", _share(window, grey.shape, box), round(worst, 3), told))
    return tuple(sorted(found, key=lambda one: -one.score)[:_MOST])


def _windows(plane: Floats) -> tuple[Floats, Floats, Floats]:
    """Coherence, energy per pixel and alternation of each window, (rows, columns)."""
    across = np.asarray(cv2.Sobel(plane, cv2.CV_32F, 1, 0, ksize=3), dtype=np.float32) / 8
    down = np.asarray(cv2.Sobel(plane, cv2.CV_32F, 0, 1, ksize=3), dtype=np.float32) / 8
    xx, yy, xy = (_summed(one) for one in (across * across, down * down, across * down))
    spread = np.hypot(xx - yy, 2 * xy)
    energy = xx + yy
    normal = 0.5 * np.arctan2(2 * xy, xx - yy)  # across the scratches
    signed = np.cos(normal) * _summed(across) + np.sin(normal) * _summed(down)
    size = np.abs(np.cos(normal)) * _summed(np.abs(across)) + np.abs(np.sin(normal)) * _summed(np.abs(down))
    alternation = 1 - np.abs(signed) / np.maximum(size, 1e-6)
    return spread / np.maximum(energy, 1e-6), energy / WINDOW_PX**2, alternation


def _summed(plane: Floats) -> Floats:
    """Sums over the windows, (rows, columns)."""
    total = np.asarray(cv2.integral(plane.astype(np.float64)))
    first = np.arange(0, plane.shape[0] - WINDOW_PX + 1, STEP_PX)
    start = np.arange(0, plane.shape[1] - WINDOW_PX + 1, STEP_PX)
    rows, columns = first[:, None], start[None, :]
    below, right = rows + WINDOW_PX, columns + WINDOW_PX
    return np.asarray(total[below, right] - total[rows, right] - total[below, columns] + total[rows, columns])


def _stretches(
    marked: npt.NDArray[np.bool_], strength: Floats, coherence: Floats
) -> Iterator[tuple[tuple[float, float, float, float], float, str]]:
    """Box in pixels, strength and words of each stretch of windows that touch."""
    count, labels = cv2.connectedComponents(marked.astype(np.uint8), connectivity=8)
    for label in range(1, count):
        rows, columns = np.nonzero(np.asarray(labels) == label)
        if rows.size < FEWEST_WINDOWS:
            continue
        here = np.asarray(labels) == label
        times = float(np.median(strength[here]))
        told = f"scratches one way (coherence {np.median(coherence[here]):.2f}), {times:.0f} times the face"
        left, top = columns.min() * STEP_PX, rows.min() * STEP_PX
        wide = (columns.max() - columns.min()) * STEP_PX + WINDOW_PX
        high = (rows.max() - rows.min()) * STEP_PX + WINDOW_PX
        yield (float(left), float(top), float(wide), float(high)), times, told


def _slot(grey: Pixels) -> Floats:
    """Pixels of the slot, (n, 2) x, y."""
    if min(grey.shape) < 24:
        raise _no_slot()
    smooth = np.asarray(cv2.GaussianBlur(grey, (0, 0), 1.0), dtype=np.uint8)
    level = _otsu(smooth)
    # The bench about a round head is often lighter than the slot and darker than the head.
    for limit in (_otsu(smooth[smooth <= level]), level):
        slot = _darkest(smooth <= limit)
        if slot is not None:
            return slot
    raise _no_slot()


def _otsu(values: npt.NDArray[np.uint8]) -> float:
    level, _ = cv2.threshold(values.reshape(-1, 1), 0, 1, cv2.THRESH_BINARY | cv2.THRESH_OTSU)
    return float(level)


def _darkest(dark: npt.NDArray[np.bool_]) -> Floats | None:
    """The largest stretch of *dark* that reaches no corner of the box; None where it is too small."""
    count, labels, stats, _ = cv2.connectedComponentsWithStats(dark.astype(np.uint8))
    height, width = dark.shape
    best, best_area = 0, 0
    for label in range(1, count):
        left, top, wide, high, area = (int(value) for value in stats[label])
        corners = ((left == 0) + (left + wide == width)) * ((top == 0) + (top + high == height))
        if area > best_area and corners == 0:
            best, best_area = label, area
    if best_area < 0.01 * dark.size:
        return None
    rows, columns = np.nonzero(np.asarray(labels) == best)
    return np.column_stack([columns, rows]).astype(np.float64)


def _own_axes(slot: Floats) -> tuple[Floats, Floats]:
    """Each pixel's place along and across the slot, in pixels from its middle."""
    centred = slot - np.median(slot, axis=0)
    _, vectors = np.linalg.eigh(np.cov(centred.T))
    return centred @ vectors[:, 1], centred @ vectors[:, 0]


def _edge(along: Floats, across: Floats, side: int, long_px: float) -> tuple[Floats, Floats]:
    """Places along one edge, one a pixel, and how far it is off its line there, in pixels; ends left out."""
    reach = 0.44 * long_px
    places = np.arange(-math.floor(reach), math.floor(reach) + 1, dtype=np.float64)
    index = np.round(along).astype(np.int64) - int(places[0])
    inside = (index >= 0) & (index < places.size)
    outermost = np.full(places.size, -np.inf)
    np.maximum.at(outermost, index[inside], side * across[inside])
    seen = np.isfinite(outermost)
    places, outermost = places[seen], outermost[seen]
    if places.size < 12:
        raise _no_slot()
    slope, level = _line(places, outermost)
    return places, outermost - slope * places - level


def _line(x: Floats, y: Floats) -> tuple[float, float]:
    """Slope and level of the line through most points: Theil and Sen (Sen, JASA 63, 1968), thinned."""
    step = max(1, x.size // 80)
    thin_x, thin_y = x[::step], y[::step]
    first, second = np.triu_indices(thin_x.size, k=1)
    slope = float(np.median((thin_y[second] - thin_y[first]) / (thin_x[second] - thin_x[first])))
    return slope, float(np.median(y - slope * x))


def _runs(flags: npt.NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    """First and behind the last of each run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(np.int8)))
    for start, end in edges.reshape(-1, 2):
        yield int(start), int(end)


def _around(points: Floats, margin_px: float) -> tuple[float, float, float, float]:
    left, top = points.min(axis=0) - margin_px
    right, bottom = points.max(axis=0) + margin_px
    return float(left), float(top), float(right - left), float(bottom - top)


def _share(window: tuple[float, float, float, float], size: tuple[int, ...], within: Box) -> Box:
    """A window in pixels of the cut-out as shares of the whole picture, kept inside it."""
    left = within[0] + max(0.0, window[0]) / size[1] * within[2]
    top = within[1] + max(0.0, window[1]) / size[0] * within[3]
    width = min(window[2] / size[1] * within[2], 1 - left)
    height = min(window[3] / size[0] * within[3], 1 - top)
    return (round(left, 4), round(top, 4), round(width, 4), round(height, 4))


def _no_slot() -> InputError:
    return InputError(
        "no screw slot is seen in this box", to_do="Show a box close around the head, the slot dark in it"
    )
