"""Millimetres per pixel: from the marker card, perspective removed, or from two points of known distance.

The card gives a homography from its plane to the picture, fitted to the chessboard corners by least squares
(Gauss-Newton on the eight free numbers; Hartley and Zisserman, Multiple View Geometry, 4.1). Its covariance
s²(JᵀJ)⁻¹ comes from the residuals, and goes on into every length by first-order propagation (JCGM 100, 5.1).
To it are added: the print (measured between the crosses), the pointing, and what lies out of the plane,
which looks larger by height over distance. Without a scale there is no length: nothing here guesses one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.card import ACROSS_MM, DOWN_MM, board, corners_mm

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.floating[Any]]
Point = tuple[float, float]

FEWEST_CORNERS = 12
LARGEST_RESIDUAL_PX = 1.5  # root mean square; a bent card or a strong lens gives more
FLAT_SHARE = 0.85  # of the corners seen must lie on one plane
PRINT_STRAY = 0.1  # share by which a measured print may differ from the card before it is taken for a slip
POINTING_PX = 0.5  # standard uncertainty of a point that a person shows
_CORNER_PX = 0.03  # the finder is no better than this, however small the residuals
_WORKING_PX = 2400  # longer side in which the card is looked for
_TILT_SHARE = 0.015 / math.sqrt(3)  # 10° of tilt that two points cannot show, as a rectangular half-width
_WIDE_LENS = 0.72  # focal length in picture widths of a phone's main camera (26 mm on 36 mm)


@dataclass(frozen=True, slots=True)
class Print:
    """The card as it came out of the printer, measured between its crosses."""

    across_mm: float = ACROSS_MM
    down_mm: float = DOWN_MM
    u_mm: float = 0.03  # standard uncertainty of both


@dataclass(frozen=True, slots=True, eq=False)
class Scale:
    """From picture to a plane in millimetres."""

    to_plane: Floats  # (3, 3) homography, pixels → millimetres
    covariance: Floats  # (8, 8) of the homography millimetres → pixels, its last element held at 1
    source: str  # "card" or "two points"
    rms_px: float  # of the residuals; 0 for two points
    corners: int  # known points used
    relative_u: float  # of every length: print or known distance, tilt that cannot be seen
    distance_mm: float | None  # camera to card, for a wide lens; None where not known

    def mm(self, points_px: Floats) -> Floats:
        """Places in the plane, (n, 2) millimetres, of (n, 2) pixels."""
        return _mapped(self.to_plane, points_px)

    def px(self, points_mm: Floats) -> Floats:
        """Places in the picture, (n, 2) pixels, of (n, 2) millimetres."""
        return _mapped(np.linalg.inv(self.to_plane), points_mm)

    def mm_per_px(self, at_px: Point) -> float:
        """Geometric mean of both directions at this place of the picture."""
        here = np.array([at_px, (at_px[0] + 1, at_px[1]), (at_px[0], at_px[1] + 1)], dtype=np.float64)
        origin, right, below = self.mm(here)
        return math.sqrt(abs(float(np.linalg.det(np.array([right - origin, below - origin])))))

    def fit_u_mm(self, start_px: Point, end_px: Point) -> float:
        """Standard uncertainty that the fit of the card alone gives to the distance of two places."""
        ends = np.array([start_px, end_px], dtype=np.float64)
        forward = np.linalg.inv(self.to_plane)
        forward = forward / forward[2, 2]
        base_mm = _distance(_mapped(np.linalg.inv(forward), ends))
        slopes = np.zeros(8)
        for index in range(8):
            moved = forward.copy().ravel()
            step = 1e-6 * max(abs(moved[index]), 1e-6)
            moved[index] += step
            slopes[index] = (_distance(_mapped(np.linalg.inv(moved.reshape(3, 3)), ends)) - base_mm) / step
        return math.sqrt(max(0.0, float(slopes @ self.covariance @ slopes)))

    def u_mm(self, start_px: Point, end_px: Point, *, point_px: float, height_mm: float = 0.0) -> float:
        """Standard uncertainty of the distance between two places of the picture.

        *point_px* is that of each place; *height_mm* the most that the face may lie above or below the card.
        """
        length_mm = _distance(self.mm(np.array([start_px, end_px], dtype=np.float64)))
        middle = ((start_px[0] + end_px[0]) / 2, (start_px[1] + end_px[1]) / 2)
        parts = [
            self.fit_u_mm(start_px, end_px),
            math.sqrt(2) * point_px * self.mm_per_px(middle),
            self.relative_u * length_mm,
        ]
        if self.distance_mm is not None:
            parts.append(height_mm / math.sqrt(3) / self.distance_mm * length_mm)
        return math.hypot(*parts)


def card_scale(pixels: Pixels, printed: Print | None) -> Scale:
    """The scale of a picture, (height, width, 3) uint8, that shows the card.

    InputError where the card is not seen well enough, lies bent, or its print was not measured: a page fitted
    to the paper is wrong by several per cent and looks right.
    """
    if printed is None:
        raise InputError(
            "the print of the marker card was not checked",
            to_do="Measure between its crosses and give both distances",
        )
    for measured_mm, drawn_mm in ((printed.across_mm, ACROSS_MM), (printed.down_mm, DOWN_MM)):
        if abs(measured_mm / drawn_mm - 1) > PRINT_STRAY:
            raise InputError(
                f"{measured_mm:g} mm between the crosses cannot be; they are drawn {drawn_mm:g} mm apart",
                to_do="Measure again, or print the card at full size",
            )
    found_px, drawn = _corners(pixels)
    stretched = drawn * np.array([printed.across_mm / ACROSS_MM, printed.down_mm / DOWN_MM])
    forward, covariance, rms_px, used = _fitted(stretched, found_px)
    if used < max(FEWEST_CORNERS, FLAT_SHARE * len(drawn)) or rms_px > LARGEST_RESIDUAL_PX:
        raise InputError(
            f"the marker card does not lie flat ({used} of {len(drawn)} corners, {rms_px:.1f} pixels off)",
            to_do="Press it flat, step back from a wide lens, take the picture again",
        )
    inverse = np.linalg.inv(forward)
    scale = Scale(inverse, covariance, "card", rms_px, used, printed.u_mm / ACROSS_MM, None)
    middle = found_px.mean(axis=0)
    distance_mm = _WIDE_LENS * max(pixels.shape[:2]) * scale.mm_per_px((float(middle[0]), float(middle[1])))
    return Scale(inverse, covariance, "card", rms_px, used, printed.u_mm / ACROSS_MM, distance_mm)


def two_point_scale(start_px: Point, end_px: Point, known_mm: float, *, u_mm: float) -> Scale:
    """The scale from a known distance. Perspective stays in, so up to 10° of tilt goes into the uncertainty.

    InputError where the points nearly coincide or the distance is none.
    """
    span_px = math.dist(start_px, end_px)
    if not known_mm > 0 or not u_mm >= 0 or not math.isfinite(known_mm):
        raise InputError(f"{known_mm:g} mm is no distance", to_do="Give the distance between the two points")
    if span_px < 20:
        raise InputError(
            f"the two points are {span_px:.0f} pixels apart, too near for a scale", to_do="Show two far apart"
        )
    relative_u = math.hypot(u_mm / known_mm, math.sqrt(2) * POINTING_PX / span_px, _TILT_SHARE)
    plane = np.diag([known_mm / span_px, known_mm / span_px, 1.0])
    return Scale(plane, np.zeros((8, 8)), "two points", 0.0, 2, relative_u, None)


def _corners(pixels: Pixels) -> tuple[Floats, Floats]:
    """Corners found, (n, 2) pixels, and where they are drawn, (n, 2) millimetres."""
    grey = np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    known = corners_mm()
    numbers, places = detected(grey)
    kept = [index for index, number in enumerate(numbers) if number in known]
    if len(kept) < FEWEST_CORNERS:
        raise InputError(
            f"the marker card is not seen whole ({len(kept)} of {len(known)} corners)",
            to_do="Lay the card flat beside the part, all of it in the picture and sharp",
        )
    return places[kept], np.array([known[numbers[index]] for index in kept], dtype=np.float64)


def detected(grey: Pixels) -> tuple[list[int], Floats]:
    """Numbers and places of the board's corners; looked for in a small picture, placed in the large one."""
    shrink = min(1.0, _WORKING_PX / max(grey.shape))
    small = grey
    if shrink < 1.0:
        shrunk = cv2.resize(grey, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
        small = np.asarray(shrunk, dtype=np.uint8)
    detector = cv2.aruco.CharucoDetector(board())
    corners, numbers, _, _ = detector.detectBoard(small)
    if corners is None or numbers is None or len(corners) == 0:
        return [], np.zeros((0, 2))
    places = (np.asarray(corners, dtype=np.float64).reshape(-1, 2) + 0.5) / shrink - 0.5
    span_px = float(np.ptp(places, axis=0).max()) / 14  # about a square
    window = max(3, min(15, round(span_px / 6)))
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 50, 0.001)
    guess = places.astype(np.float32).reshape(-1, 1, 2)
    fine = cv2.cornerSubPix(grey, guess, (window, window), (-1, -1), stop)
    return [int(n) for n in np.asarray(numbers).ravel()], np.asarray(fine, np.float64).reshape(-1, 2)


def _fitted(plane_mm: Floats, seen_px: Floats) -> tuple[Floats, Floats, float, int]:
    """Homography millimetres → pixels, its covariance (8, 8), root mean square residual, points used."""
    start, inliers = cv2.findHomography(plane_mm, seen_px, cv2.RANSAC, 3.0)
    if start is None:
        return np.eye(3), np.zeros((8, 8)), math.inf, 0
    keep = np.asarray(inliers).ravel().astype(bool)
    plane_mm, seen_px = plane_mm[keep], seen_px[keep]
    numbers = (np.asarray(start, dtype=np.float64) / start[2, 2]).ravel()[:8]
    for _ in range(10):
        residual, slopes = _residual(numbers, plane_mm, seen_px)
        step = np.linalg.lstsq(slopes, residual, rcond=None)[0]
        numbers = numbers + step
        if np.abs(step / np.maximum(np.abs(numbers), 1e-9)).max() < 1e-10:
            break
    residual, slopes = _residual(numbers, plane_mm, seen_px)
    freedom = max(1, residual.size - 8)
    spread_px = max(_CORNER_PX, math.sqrt(float(residual @ residual) / freedom))
    scaling = np.linalg.norm(slopes, axis=0)
    unit = slopes / scaling
    covariance = spread_px**2 * np.linalg.pinv(unit.T @ unit) / np.outer(scaling, scaling)
    rms_px = math.sqrt(float(residual @ residual) / max(1, len(plane_mm)))
    return np.append(numbers, 1.0).reshape(3, 3), covariance, rms_px, int(keep.sum())


def _residual(numbers: Floats, plane_mm: Floats, seen_px: Floats) -> tuple[Floats, Floats]:
    """Seen minus expected, (2n,), and its slopes in the eight numbers, (2n, 8)."""
    x, y = plane_mm.T
    matrix = np.append(numbers, 1.0).reshape(3, 3)
    u, v, w = matrix @ np.array([x, y, np.ones_like(x)])
    u, v = u / w, v / w
    nothing, one = np.zeros_like(x), np.ones_like(x)
    rows_u = np.array([x, y, one, nothing, nothing, nothing, -u * x, -u * y]) / w
    rows_v = np.array([nothing, nothing, nothing, x, y, one, -v * x, -v * y]) / w
    return np.concatenate([seen_px[:, 0] - u, seen_px[:, 1] - v]), np.concatenate([rows_u.T, rows_v.T])


def _mapped(matrix: Floats, points: Floats) -> Floats:
    lifted = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(lifted[:, :2] / lifted[:, 2:], dtype=np.float64)


def _distance(ends: Floats) -> float:
    return float(np.linalg.norm(ends[1] - ends[0]))
