"""The marker card in a small picture, seen roughly: how near it is, and where its window is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.photos.card import FRAME_SQUARES, HEIGHT_MM, MARKER_MM, SQUARE_MM, WIDTH_MM, board
from saywright.photos.region import Box

FEWEST_MARKERS = 4  # a chance pattern looks like one or two
_INSET_MM = FRAME_SQUARES * SQUARE_MM + 1.5  # the rim of the window is kept out
_LEAST_WINDOW = 0.05  # of the picture's sides; a narrower box is of a card that lies across


@dataclass(frozen=True, slots=True)
class CardSeen:
    """What the markers tell."""

    px_per_mm: float  # median over the markers
    window: Box | None  # upright box inside the window, shares of the sides; None where it cannot be told


def seen_card(grey: npt.NDArray[np.uint8]) -> CardSeen | None:
    """The card in *grey*, (height, width); None where few markers are seen."""
    found, numbers, _ = cv2.aruco.ArucoDetector(board().getDictionary()).detectMarkers(grey)
    drawn = dict(zip(np.asarray(board().getIds()).ravel().tolist(), board().getObjPoints(), strict=True))
    read = [] if numbers is None else np.asarray(numbers).ravel().tolist()
    pairs = [
        (np.asarray(seen, dtype=np.float64).reshape(4, 2), np.asarray(drawn[number])[:, :2])
        for seen, number in zip(found, read, strict=True)
        if number in drawn
    ]
    if len(pairs) < FEWEST_MARKERS:
        return None
    sides = [float(np.linalg.norm(np.roll(px, -1, axis=0) - px, axis=1).mean()) for px, _ in pairs]
    return CardSeen(float(np.median(sides)) / MARKER_MM, _window(pairs, grey.shape))


def _window(pairs: list[tuple[npt.NDArray[Any], npt.NDArray[Any]]], size: tuple[int, ...]) -> Box | None:
    plane = np.concatenate([mm for _, mm in pairs]).astype(np.float64)
    forward, _ = cv2.findHomography(plane, np.concatenate([px for px, _ in pairs]), cv2.RANSAC, 3.0)
    if forward is None:
        return None
    right_mm, below_mm = WIDTH_MM - _INSET_MM, HEIGHT_MM - _INSET_MM
    corners = np.array(
        [[(_INSET_MM, _INSET_MM), (right_mm, _INSET_MM), (right_mm, below_mm), (_INSET_MM, below_mm)]]
    )
    places = np.asarray(cv2.perspectiveTransform(corners, forward))[0] / (size[1], size[0])
    # Of the four corners the inner two each way: within the window, as far as the card is upright.
    _, left, right, _ = np.sort(places[:, 0])
    _, top, bottom, _ = np.sort(places[:, 1])
    left, top, right, bottom = max(0.0, left), max(0.0, top), min(1.0, right), min(1.0, bottom)
    if min(right - left, bottom - top) < _LEAST_WINDOW:
        return None
    return (float(left), float(top), float(right - left), float(bottom - top))
