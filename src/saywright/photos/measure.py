"""Distance, circle and angle in a picture with a scale. What comes out is a candidate; a person enters it.

A circle is found from a place and a rough radius that a person shows: along rays from the middle the steepest
change of lightness of one direction is the edge, placed between pixels by a parabola. The circle through
most of these points is found first (the least median of squares over triples of points, Rousseeuw, JASA 79,
1984), then fitted by geometric least squares to those near it. All in the plane of the scale, so that
a circle seen aslant is a circle. Blur of spread s draws the steepest place of a curved edge inwards by s²/2r
(Bouma and others, IEEE Trans. PAMI 27(9), 2005; from memory, checked on rendered bores); s is read off the
edge itself, the shift is taken back, and half of it goes into the uncertainty.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

import cv2
import numpy as np
import numpy.typing as npt

from saywright.errors import InputError
from saywright.photos.scale import POINTING_PX, Floats, Point, Scale

Pixels = npt.NDArray[np.uint8]

EDGE_PX = 0.3  # half-width: what glare and blooming may shift an edge by, all around alike
LEAST_SHARE = 0.5  # of the rays must meet the circle
HEIGHT_MM = 0.5  # half-width: the face lies level with the card by eye
_RAYS = 180
_STEP_PX = 0.25
_WEAK = 0.35  # of the median step; a fainter edge is none
_REACH = 0.45  # of the radius, either way, while looking; a third of it once the circle is known
_FEWEST_PX = 12.0  # diameter
_ALONG = np.array([[1, 2, 3, 2, 1]], dtype=np.float32) / 9  # smooths along a ray, and widens by its variance
_ALONG_VARIANCE = 12 / 9  # steps²
_PEAK_STEPS = 3


@dataclass(frozen=True, slots=True)
class Measured:
    """A value with its standard uncertainty, and where in the picture it comes from."""

    kind: Literal["distance", "circle", "angle"]
    value: float  # millimetres; degrees for an angle
    u: float  # standard uncertainty, same unit
    points_px: tuple[Point, ...]  # ends; points of the circle; arm, corner, arm
    share: float = 1.0  # of the rays that met the circle


def distance(scale: Scale | None, start_px: Point, end_px: Point) -> Measured:
    """Between two places that a person showed."""
    plane = _needed(scale)
    ends_mm = plane.mm(np.array([start_px, end_px], dtype=np.float64))
    length_mm = math.dist(ends_mm[0], ends_mm[1])
    if math.dist(start_px, end_px) < 2:
        raise InputError("the two places are the same", to_do="Show two places")
    u_mm = plane.u_mm(start_px, end_px, point_px=POINTING_PX, height_mm=HEIGHT_MM)
    return Measured("distance", length_mm, u_mm, (start_px, end_px))


def angle(scale: Scale | None, arm_px: Point, corner_px: Point, other_px: Point) -> Measured:
    """At *corner_px* between the two arms, 0…180 degrees."""
    plane = _needed(scale)
    shown = np.array([arm_px, corner_px, other_px], dtype=np.float64)
    if min(math.dist(arm_px, corner_px), math.dist(other_px, corner_px)) < 10:
        raise InputError("an arm of the angle is shorter than 10 pixels", to_do="Show places farther out")
    value_deg = _angle_deg(plane.mm(shown))
    slopes = []
    for index in range(6):
        moved = shown.copy().ravel()
        moved[index] += 0.01
        slopes.append((_angle_deg(plane.mm(moved.reshape(3, 2))) - value_deg) / 0.01)
    tilt_deg = 0.0 if plane.source == "card" else 0.43  # atan(1 / cos 10°) − 45°: tilt that is not seen
    return Measured(
        "angle",
        value_deg,
        math.hypot(POINTING_PX * math.hypot(*slopes), tilt_deg / math.sqrt(3)),
        (arm_px, corner_px, other_px),
    )


def circle(pixels: Pixels, scale: Scale | None, middle_px: Point, radius_px: float) -> Measured:
    """Diameter of the circle near *middle_px* with about *radius_px*, in *pixels* (height, width, 3) uint8.

    InputError where no edge goes around, or it has too few pixels to be measured.
    """
    plane = _needed(scale)
    if not radius_px * 2 >= _FEWEST_PX:
        raise InputError(
            f"a circle of {2 * radius_px:.0f} pixels is too small to measure", to_do="Take it from nearer"
        )
    grey = cv2.GaussianBlur(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY).astype(np.float32), (0, 0), 0.7)
    middle_mm = plane.mm(np.array([middle_px], dtype=np.float64))[0]
    radius_mm = radius_px * plane.mm_per_px(middle_px)
    found: Floats = np.array([*middle_mm, radius_mm])
    edges: Floats = np.zeros((0, 2))
    near, blur_mm, share = np.zeros(0, dtype=bool), 0.0, 0.0
    for reach, least_share in ((_REACH, LEAST_SHARE / 2), (_REACH, LEAST_SHARE), (_REACH / 3, LEAST_SHARE)):
        edges, blur_mm = _edges(grey, plane, found, reach)
        found, near = _robust(edges, plane.mm_per_px(middle_px))
        share = float(near.sum()) / _RAYS
        strayed_mm = math.hypot(*(found[:2] - middle_mm))
        if share < least_share or strayed_mm > 0.5 * radius_mm or not 0.5 < found[2] / radius_mm < 1.6:
            raise InputError(
                f"no circle goes around this place ({100 * share:.0f} % of its edge found)",
                to_do="Show its middle and rim again, or take a picture with more contrast",
            )
    drawn_in_mm = blur_mm**2 / (2 * float(found[2]))
    u_mm = math.hypot(_circle_u(plane, found, edges[near]), drawn_in_mm)
    diameter_mm = 2 * (float(found[2]) + drawn_in_mm)
    return Measured("circle", diameter_mm, u_mm, _few(plane.px(edges[near])), share)


def _needed(scale: Scale | None) -> Scale:
    if scale is None:
        raise InputError(
            "the picture has no scale, so it gives no lengths",
            to_do="Lay the marker card beside the part, or show two points a known distance apart",
        )
    return scale


def _angle_deg(places_mm: Floats) -> float:
    first, second = places_mm[0] - places_mm[1], places_mm[2] - places_mm[1]
    cross = float(first[0] * second[1] - first[1] * second[0])
    return math.degrees(abs(math.atan2(cross, float(first @ second))))


def _edges(grey: npt.NDArray[Any], plane: Scale, about: Floats, reach: float) -> tuple[Floats, float]:
    """Edge points in millimetres, at most one a ray from the middle of *about* (x, y, radius); their blur."""
    middle_px = plane.px(about[None, :2])[0]
    step_mm = _STEP_PX * plane.mm_per_px((float(middle_px[0]), float(middle_px[1])))
    radii = np.arange(about[2] * (1 - reach), about[2] * (1 + reach), step_mm)
    turns = np.arange(_RAYS) * (2 * math.pi / _RAYS)
    x = about[0] + np.cos(turns)[:, None] * radii[None, :]
    y = about[1] + np.sin(turns)[:, None] * radii[None, :]
    seen = plane.px(np.column_stack([x.ravel(), y.ravel()])).astype(np.float32)
    at_x, at_y = seen[:, 0].reshape(x.shape), seen[:, 1].reshape(x.shape)
    light = cv2.remap(grey, at_x, at_y, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)
    outside = (at_x < 1) | (at_y < 1) | (at_x > grey.shape[1] - 2) | (at_y > grey.shape[0] - 2)
    change = np.gradient(light, axis=1)
    change[outside] = 0
    change = cv2.filter2D(change, cv2.CV_32F, _ALONG)
    brighter, darker = change.max(axis=1), -change.min(axis=1)
    change = change if np.median(brighter) >= np.median(darker) else -change
    at, peak, blur_steps = _peaks(change)
    keep = at > max(_WEAK * float(np.median(at)), 0.05)
    rim = radii[0] + peak * step_mm
    points = np.column_stack([about[0] + np.cos(turns) * rim, about[1] + np.sin(turns) * rim])
    blur = float(np.median(blur_steps[keep])) if keep.any() else 0.0
    return points[keep], blur * step_mm


def _peaks(change: npt.NDArray[Any]) -> tuple[Floats, Floats, Floats]:
    """Height, place and spread of the steepest change along each row, in steps; height 0 where there is none.

    A parabola through the logarithms of three values, which is exact for a Gaussian peak.
    """
    rows = np.arange(len(change))
    last = change.shape[1] - 1 - _PEAK_STEPS
    top = np.clip(change.argmax(axis=1), _PEAK_STEPS, max(last, _PEAK_STEPS))
    three = np.maximum([change[rows, top + side] for side in (-_PEAK_STEPS, 0, _PEAK_STEPS)], 1e-6)
    before, at, after = np.log(three)
    bend = before - 2 * at + after
    peaked = (bend < 0) & (three[1] >= three[0]) & (three[1] >= three[2])
    bend = np.where(peaked, bend, -1.0)
    place = top + 0.5 * (before - after) / bend * _PEAK_STEPS
    spread = np.maximum(0.0, _PEAK_STEPS**2 / -bend - _ALONG_VARIANCE)
    height = np.where(peaked, three[1], 0.0)
    return height.astype(np.float64), place.astype(np.float64), np.sqrt(spread).astype(np.float64)


def _robust(points: Floats, mm_per_px: float) -> tuple[Floats, npt.NDArray[np.bool_]]:
    """Circle (x, y, radius) that most points lie on, and which."""
    count = len(points)
    if count < 12:
        return np.array([math.inf, math.inf, 1.0]), np.zeros(count, dtype=bool)
    index = np.arange(count)
    best: Floats = np.zeros(3)
    best_median = math.inf
    for stride in (count // 3, count // 4, count // 5):
        for start in index:
            triple = points[[start, (start + stride) % count, (start + 2 * stride) % count]]
            through = _through(triple)
            if through is None:
                continue
            median = float(np.median(np.abs(_off(points, through))))
            if median < best_median:
                best, best_median = through, median
    most_mm = max(
        1.5 * mm_per_px, 0.03 * best[2]
    )  # what strays farther is no rim, however much of it there is

    def tolerance_mm(median_mm: float) -> float:
        return float(min(max(3 * 1.4826 * median_mm, 0.5 * mm_per_px), most_mm))

    near = np.abs(_off(points, best)) <= tolerance_mm(best_median)
    for _ in range(8):
        if near.sum() < 3:
            break
        best = _refined(points[near], best)
        off = np.abs(_off(points, best))
        again = off <= tolerance_mm(float(np.median(off[near])))
        if (again == near).all():
            break
        near = again
    return best, near


def _through(triple: Floats) -> Floats | None:
    """The circle through three points; None where they lie on a line."""
    first = triple[0]
    rest = triple[1:] - first
    if abs(float(np.linalg.det(rest))) < 1e-12:
        return None
    middle = np.linalg.solve(2 * rest, (rest**2).sum(axis=1))
    return np.array([*(first + middle), math.hypot(*middle)])


def _off(points: Floats, about: Floats) -> Floats:
    distance_mm: Floats = np.hypot(points[:, 0] - about[0], points[:, 1] - about[1]) - about[2]
    return distance_mm


def _slopes(points: Floats, about: Floats) -> Floats:
    away = points - about[:2]
    length = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-12)
    return np.column_stack([away[:, 0] / length, away[:, 1] / length, np.ones(len(points))])


def _refined(points: Floats, about: Floats) -> Floats:
    """Geometric least squares, a few Gauss-Newton steps."""
    for _ in range(6):
        step = np.linalg.lstsq(_slopes(points, about), _off(points, about), rcond=None)[0]
        about = about + step
    return about


def _circle_u(plane: Scale, found: Floats, rim_mm: Floats) -> float:
    """Standard uncertainty of the diameter: fit, scale, edge shifted all around, height above the card."""
    off = _off(rim_mm, found)
    spread_mm = math.sqrt(float(off @ off) / max(1, off.size - 3))
    slopes = _slopes(rim_mm, found)
    fit_mm = 2 * spread_mm * math.sqrt(float(np.linalg.inv(slopes.T @ slopes)[2, 2]))
    ends = plane.px(found[:2] + np.array([[-found[2], 0], [found[2], 0]]))
    start, end = ((float(x), float(y)) for x, y in ends)
    scale_mm = plane.u_mm(start, end, point_px=0.0, height_mm=HEIGHT_MM)
    middle = plane.px(found[None, :2])[0]
    edge_mm = 2 * EDGE_PX / math.sqrt(3) * plane.mm_per_px((float(middle[0]), float(middle[1])))
    return math.hypot(fit_mm, scale_mm, edge_mm)


def _few(rim_px: Floats, most: int = 24) -> tuple[Point, ...]:
    """Enough points to draw the circle."""
    step = max(1, len(rim_px) // most)
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in rim_px[::step])
