"""Before and after, against known homographies on pictures that scikit-image ships."""

from __future__ import annotations

import math

import cv2
import numpy as np
import pytest
from skimage import data

from saywright.errors import InputError
from saywright.photos.align import UNSEEN, align, blend, difference, pair


def seen_from(
    pixels: np.ndarray, *, turn_deg: float, scale: float, lean: float
) -> tuple[np.ndarray, np.ndarray]:
    """The picture turned, scaled and leant about its middle, and the homography that did it."""
    height, width = pixels.shape[:2]
    c, s = scale * math.cos(math.radians(turn_deg)), scale * math.sin(math.radians(turn_deg))
    about = np.array([[c, -s, 0], [s, c, 0], [lean / width, -lean / height, 1]])
    shift = np.array([[1, 0, width / 2], [0, 1, height / 2], [0, 0, 1.0]])
    matrix = shift @ about @ np.linalg.inv(shift)
    return cv2.warpPerspective(pixels, matrix, (width, height), flags=cv2.INTER_CUBIC), matrix


@pytest.mark.parametrize("name", ["coffee", "chelsea", "astronaut"])
@pytest.mark.parametrize(
    ("turn_deg", "scale", "lean"), [(0, 1.0, 0.0), (12, 0.9, 0.1), (-25, 1.15, -0.15), (90, 0.8, 0)]
)
def test_a_known_homography_is_found(name: str, turn_deg: float, scale: float, lean: float) -> None:
    """Places of the middle half land within a pixel of where they were, in other light and with noise."""
    before = getattr(data, name)()
    after, matrix = seen_from(before, turn_deg=turn_deg, scale=scale, lean=lean)
    noise = np.random.default_rng(1).normal(0, 4, after.shape)
    after = np.clip(0.8 * after + 15 + noise, 0, 255).astype(np.uint8)
    found = align(before, after)
    height, width = before.shape[:2]
    places = np.array([[[x * width, y * height]] for x in (0.3, 0.5, 0.7) for y in (0.3, 0.5, 0.7)])
    there = cv2.perspectiveTransform(places, matrix)
    back = cv2.perspectiveTransform(there, found.to_before)
    assert np.linalg.norm(back - places, axis=2).max() < 1.0
    assert found.agreeing >= 25
    assert 0.9 < found.likeness
    assert found.told.startswith(f"{found.agreeing} of {found.alike} features agree within")


@pytest.mark.parametrize(
    ("first", "second"), [("coffee", "chelsea"), ("astronaut", "coffee"), ("rocket", "chelsea")]
)
def test_two_different_things_are_refused(first: str, second: str) -> None:
    """Pictures of different things are never laid over each other."""
    with pytest.raises(InputError, match="cannot be laid over each other"):
        align(getattr(data, first)(), getattr(data, second)())


def test_a_mirrored_picture_is_refused() -> None:
    """A part does not turn into its mirror image."""
    with pytest.raises(InputError, match="cannot be laid over each other"):
        align(data.coffee(), np.ascontiguousarray(data.coffee()[:, ::-1]))


def test_a_plain_picture_is_refused() -> None:
    """Without detail there is nothing to lay over."""
    with pytest.raises(InputError, match="0 features look alike"):
        align(data.coffee(), np.full((300, 400, 3), 120, dtype=np.uint8))


def test_pair_has_one_scale_and_one_white() -> None:
    """A yellow cast and a change in one place: only the change is left in the difference."""
    before = data.coffee()
    changed = before.copy()
    cv2.circle(changed, (300, 200), 25, (10, 10, 10), -1)
    after, _ = seen_from(changed, turn_deg=6, scale=0.95, lean=0.05)
    after = np.clip(after * np.array([1.0, 0.95, 0.7]), 0, 255).astype(np.uint8)
    first, second, seen = pair(before, after, align(before, after))
    assert first.shape == second.shape
    off = 255 - difference(first, second, seen).astype(int)
    rows, columns = np.mgrid[0 : off.shape[0], 0 : off.shape[1]]
    spot = np.hypot(columns - 300, rows - 200) < 18
    clear = (
        (np.hypot(columns - 300, rows - 200) > 40)
        & (rows > 60)
        & (rows < 340)
        & (columns > 60)
        & (columns < 540)
    )
    assert off[spot].mean() > 60
    assert not seen.all()
    assert (255 - UNSEEN == off[~seen]).all()
    assert off[clear].mean() < 8
    assert blend(first, second).shape == first.shape
