"""Two pictures of one part laid over each other: before and after.

Features (SIFT; Lowe, IJCV 60(2), 2004) that look alike and agree on one homography. What can be laid over
is a face that is nearly flat; the quality is stated, and a poor fit is refused, since two pictures that do
not fit look like damage.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.floating[Any]]

WORKING_PX = 1400  # longer side in which features are found
FEWEST = 25  # features that agree
LEAST_SHARE = 0.25  # of those that look alike
LEAST_OVERLAP = 0.3  # of the picture before
LEAST_LIKENESS = 0.35  # correlation of lightness where both are seen
LARGEST_SCALE = 4.0  # either way
UNSEEN = 190  # grey of what only one of the two shows
_SMOOTHED_PX = 13
_RATIO = 0.75  # Lowe's test: the second best must look so much less alike
_WITHIN_PX = 3.0


@dataclass(frozen=True, slots=True, eq=False)
class Alignment:
    """How the picture after lies on the picture before."""

    to_before: Floats  # (3, 3) homography, pixels after → pixels before
    agreeing: int  # features
    alike: int  # features that look alike
    rms_px: float  # of those that agree, in pixels of the picture before
    overlap: float  # share of the picture before that the picture after covers
    likeness: float  # −1…1, correlation of lightness where both are seen

    @property
    def told(self) -> str:
        """The quality in one line."""
        return (
            f"{self.agreeing} of {self.alike} features agree within {self.rms_px:.1f} pixels; "
            f"{100 * self.overlap:.0f} % in common, likeness {self.likeness:.2f}"
        )


def align(before: Pixels, after: Pixels) -> Alignment:
    """Lay *after* on *before*, both (height, width, 3) uint8. InputError where they do not fit."""
    places_before, marks_before = _features(before)
    places_after, marks_after = _features(after)
    pairs = _pairs(marks_after, marks_before)
    if len(pairs) < FEWEST:
        raise _poor(f"{len(pairs)} features look alike, fewer than {FEWEST}")
    source, target = places_after[pairs[:, 0]], places_before[pairs[:, 1]]
    unit_px = max(1.0, max(before.shape[:2]) / WORKING_PX)
    matrix, agreeing = cv2.findHomography(
        source, target, cv2.USAC_MAGSAC, _WITHIN_PX * unit_px, None, 5000, 0.999
    )
    keep = np.zeros(len(pairs), dtype=bool) if agreeing is None else np.asarray(agreeing).ravel() > 0
    if matrix is None or keep.sum() < max(FEWEST, LEAST_SHARE * len(pairs)):
        raise _poor(f"{int(keep.sum())} of {len(pairs)} features agree")
    homography = np.asarray(matrix, dtype=np.float64)
    if not _sane(homography, after.shape[:2]):
        raise _poor("the one would have to be turned inside out")
    off = _mapped(homography, source[keep]) - target[keep]
    rms_px = math.sqrt(float((off**2).sum(axis=1).mean()))
    overlap, likeness = _agreement(before, after, homography)
    if overlap < LEAST_OVERLAP or likeness < LEAST_LIKENESS:
        raise _poor(f"{100 * overlap:.0f} % in common, likeness {likeness:.2f}")
    return Alignment(homography, int(keep.sum()), len(pairs), rms_px, overlap, likeness)


def pair(before: Pixels, after: Pixels, alignment: Alignment) -> tuple[Pixels, Pixels, npt.NDArray[np.bool_]]:
    """Both at the scale of *before*, cut to what both show, *after* in the colours of *before*.

    With it where in the cut *after* shows anything, (height, width).
    """
    laid, seen = _laid(after, alignment.to_before, before.shape[:2])
    rows, columns = np.flatnonzero(seen.any(axis=1)), np.flatnonzero(seen.any(axis=0))
    cut = (slice(int(rows[0]), int(rows[-1]) + 1), slice(int(columns[0]), int(columns[-1]) + 1))
    balanced = _balanced(laid, before, seen)
    balanced[~seen] = 255
    return before[cut].copy(), balanced[cut], seen[cut]


def blend(first: Pixels, second: Pixels, share: float = 0.5) -> Pixels:
    """*share* of the second over the first; same size."""
    return np.asarray(cv2.addWeighted(first, 1 - share, second, share, 0), dtype=np.uint8)


def difference(first: Pixels, second: Pixels, seen: npt.NDArray[np.bool_]) -> Pixels:
    """Where they differ, dark on white; small shifts and noise are smoothed away. Grey where not *seen*."""
    smooth = [cv2.GaussianBlur(one, (0, 0), 2.0) for one in (first, second)]
    found = np.asarray(255 - cv2.absdiff(smooth[0], smooth[1]), dtype=np.uint8)
    near = np.ones((_SMOOTHED_PX, _SMOOTHED_PX), np.uint8)  # the rim is smoothed into what was not seen
    found[cv2.erode(seen.astype(np.uint8), near) == 0] = UNSEEN
    return found


def _poor(what: str) -> InputError:
    return InputError(
        f"the two pictures cannot be laid over each other: {what}",
        to_do="Take both from the same side, the same face filling the picture",
    )


def _features(pixels: Pixels) -> tuple[Floats, npt.NDArray[np.float32]]:
    """Places (n, 2) in pixels of the whole picture, and what each looks like (n, 128)."""
    shrink = min(1.0, WORKING_PX / max(pixels.shape[:2]))
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    if shrink < 1:
        grey = cv2.resize(grey, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    points, marks = cv2.SIFT.create(nfeatures=4000).detectAndCompute(grey, None)
    if marks is None:
        return np.zeros((0, 2)), np.zeros((0, 128), dtype=np.float32)
    places = np.array([point.pt for point in points], dtype=np.float64)
    return (places + 0.5) / shrink - 0.5, np.asarray(marks, dtype=np.float32)


def _pairs(first: npt.NDArray[np.float32], second: npt.NDArray[np.float32]) -> npt.NDArray[np.int64]:
    """Indices (n, 2) of features that look alike, each of the second used once."""
    if len(first) < 2 or len(second) < 2:
        return np.zeros((0, 2), dtype=np.int64)
    found = cv2.BFMatcher(cv2.NORM_L2).knnMatch(first, second, k=2)
    best: dict[int, tuple[float, int]] = {}
    for near, next_near in (both for both in found if len(both) == 2):
        alike = near.distance < _RATIO * next_near.distance
        if alike and near.distance < best.get(near.trainIdx, (math.inf, 0))[0]:
            best[near.trainIdx] = (near.distance, near.queryIdx)
    return np.array([(query, train) for train, (_, query) in best.items()], dtype=np.int64).reshape(-1, 2)


def _sane(homography: Floats, size: tuple[int, ...]) -> bool:
    """The frame of the picture stays convex, upright side up, and of like size."""
    height, width = size
    corners = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)
    lifted = np.column_stack([corners, np.ones(4)]) @ homography.T
    if (lifted[:, 2] * homography[2, 2] <= 0).any():
        return False
    laid = lifted[:, :2] / lifted[:, 2:]
    sides = np.roll(laid, -1, axis=0) - laid
    following = np.roll(sides, -1, axis=0)
    turns = sides[:, 0] * following[:, 1] - sides[:, 1] * following[:, 0]
    area = abs(float(cv2.contourArea(laid.astype(np.float32)))) / (width * height)
    return bool((turns > 0).all()) and 1 / LARGEST_SCALE**2 < area < LARGEST_SCALE**2


def _mapped(matrix: Floats, points: Floats) -> Floats:
    lifted = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(lifted[:, :2] / lifted[:, 2:], dtype=np.float64)


def _laid(after: Pixels, homography: Floats, size: tuple[int, ...]) -> tuple[Pixels, npt.NDArray[np.bool_]]:
    """*after* as seen in the frame of *before*, and where it is seen."""
    frame = (size[1], size[0])
    laid = cv2.warpPerspective(after, homography, frame, flags=cv2.INTER_LINEAR)
    whole = np.full(after.shape[:2], 255, dtype=np.uint8)
    seen = cv2.warpPerspective(whole, homography, frame, flags=cv2.INTER_NEAREST)
    return np.asarray(laid, dtype=np.uint8), np.asarray(seen) > 0


def _agreement(before: Pixels, after: Pixels, homography: Floats) -> tuple[float, float]:
    """Share of *before* covered, correlation of lightness there; in a small picture."""
    shrink = min(1.0, 500 / max(before.shape[:2]))
    size = [max(2, round(side * shrink)) for side in before.shape[:2]]
    small = cv2.resize(before, (size[1], size[0]), interpolation=cv2.INTER_AREA)
    shrunk = np.diag([size[1] / before.shape[1], size[0] / before.shape[0], 1.0]) @ homography
    laid, seen = _laid(after, shrunk, tuple(size))
    if seen.sum() < 100:
        return 0.0, 0.0
    first, second = (
        np.asarray(cv2.GaussianBlur(cv2.cvtColor(one, cv2.COLOR_RGB2GRAY), (0, 0), 1.5))[seen].astype(
            np.float64
        )
        for one in (small, laid)
    )
    spread = float(first.std() * second.std())
    likeness = float(((first - first.mean()) * (second - second.mean())).mean()) / spread if spread else 0.0
    return float(seen.mean()), likeness


def _balanced(laid: Pixels, before: Pixels, seen: npt.NDArray[np.bool_]) -> Pixels:
    """Each colour scaled so that its median is that of *before* where both are seen."""
    out = laid.astype(np.float32)
    for channel in range(3):
        target = float(np.median(before[..., channel][seen]))
        own = float(np.median(laid[..., channel][seen]))
        out[..., channel] *= min(3.0, max(1 / 3, target / max(own, 1.0)))
    return np.clip(np.round(out), 0, 255).astype(np.uint8)
