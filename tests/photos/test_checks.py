"""Focus and exposure, against published order facts on pictures that scikit-image ships."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from skimage import data

from saywright.photos.checks import BLURRED, check_picture, lightness, sharpness

SHIPPED = ["camera", "coins", "gravel", "page", "clock", "moon", "brick", "grass", "coffee", "chelsea"]


def picture(name: str) -> np.ndarray:
    """A shipped picture as (height, width, 3) uint8."""
    loaded = getattr(data, name)()
    return loaded[..., :3] if loaded.ndim == 3 else np.repeat(loaded[..., None], 3, axis=2)


def blurred(pixels: np.ndarray, sigma_px: float) -> np.ndarray:
    """*pixels* with Gaussian blur."""
    return cv2.GaussianBlur(pixels, (0, 0), sigma_px)


def noisy(pixels: np.ndarray, spread: float) -> np.ndarray:
    """*pixels* with sensor noise from a seeded generator."""
    noise = np.random.default_rng(0).normal(0, spread, pixels.shape[:2])[..., None]
    return np.clip(pixels + noise, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("name", SHIPPED)
def test_falls_with_defocus(name: str) -> None:
    """Sharpness falls at each step of a blur ladder: a focus function has one maximum, at best focus.

    J. Biomed. Opt. 17(3) 036008 (2012); measure of Pech-Pacheco et al., ICPR 2000, pp. 314-317.
    """
    ladder = [sharpness(picture(name))] + [sharpness(blurred(picture(name), s)) for s in (1, 2, 4)]
    assert None not in ladder
    assert sorted(ladder, reverse=True) == ladder
    assert len(set(ladder)) == 4


def test_order_of_the_bare_measure() -> None:
    """Variance of the Laplacian falls along the ladder too (values by running OpenCV 5.0)."""
    expected = {"camera": (1133.16, 49.90, 7.45, 1.70), "coins": (1911.65, 85.65, 10.97, 2.58)}
    for name, values in expected.items():
        grey = getattr(data, name)()
        bare = [cv2.Laplacian(grey, cv2.CV_64F).var()]
        bare += [cv2.Laplacian(cv2.GaussianBlur(grey, (0, 0), s), cv2.CV_64F).var() for s in (1, 2, 4)]
        assert pytest.approx(values, rel=0.05) == bare


@pytest.mark.parametrize("name", SHIPPED)
def test_as_shot_is_not_called_blurred(name: str) -> None:
    """A picture as shipped passes; with a blur of sigma 4 pixels it does not."""
    assert not check_picture(picture(name)).blurred
    assert check_picture(blurred(picture(name), 4)).blurred


@pytest.mark.parametrize("name", ["camera", "moon", "coffee", "clock"])
def test_noise_does_not_look_sharp(name: str) -> None:
    """Sensor noise on a blurred picture does not lift it over the limit."""
    assert sharpness(noisy(blurred(picture(name), 4), 3)) < BLURRED


def test_small_sharp_subject_counts() -> None:
    """A close-up with its background out of focus is judged by the part in focus."""
    pixels = blurred(picture("camera"), 6)
    pixels[160:352, 160:352] = picture("camera")[160:352, 160:352]
    assert not check_picture(pixels).blurred


def test_pixel_count_does_not_matter() -> None:
    """The same picture at two and four times the working size gets the same answer."""
    pixels = cv2.resize(picture("coffee"), (1024, 682), interpolation=cv2.INTER_CUBIC)
    larger = [cv2.resize(pixels, None, fx=f, fy=f, interpolation=cv2.INTER_CUBIC) for f in (2, 4)]
    assert pytest.approx([sharpness(pixels)] * 2, rel=0.15) == [sharpness(p) for p in larger]


def test_contrast_does_not_matter() -> None:
    """A flat, dim print of a scene keeps its sharpness within a third; its plainest tiles fall out."""
    pixels = picture("camera")
    dim = (pixels * 0.4 + 20).astype(np.uint8)
    assert pytest.approx(sharpness(pixels), rel=0.33) == sharpness(dim)


def test_plain_picture_is_not_judged() -> None:
    """A picture without detail has no sharpness and is not called blurred."""
    checks = check_picture(np.full((400, 600, 3), 128, dtype=np.uint8))
    assert checks.sharpness is None
    assert not checks.blurred


@pytest.mark.parametrize(("coded", "expected"), [(0, 0.0), (119, 0.50), (188, 0.76), (255, 1.0)])
def test_lightness_of_greys(coded: int, expected: float) -> None:
    """Grey sRGB 119 is L* 50 (CIE 15 with IEC 61966-2-1; from memory, recomputed)."""
    assert pytest.approx(expected, abs=0.005) == float(lightness(np.full((2, 2, 3), coded, np.uint8)).mean())


def test_dark_and_bright() -> None:
    """A picture at a tenth of its light is dark, one mostly burnt out is bright, as shot neither."""
    pixels = picture("coffee")
    assert check_picture((pixels * 0.18).astype(np.uint8)).dark
    burnt = check_picture(np.clip(pixels.astype(int) * 4 + 60, 0, 255).astype(np.uint8))
    assert burnt.bright
    plain = check_picture(pixels)
    assert (False, False) == (plain.dark, plain.bright)


def test_size_is_told() -> None:
    """Width and height are those of the picture given."""
    checks = check_picture(picture("coffee"))
    assert (600, 400) == (checks.width_px, checks.height_px)


@pytest.mark.parametrize("shape", [(1, 1, 3), (3, 900, 3), (900, 2, 3)])
def test_tiny_pictures_are_not_judged(shape: tuple[int, int, int]) -> None:
    """A sliver has no sharpness and raises nothing."""
    assert check_picture(np.zeros(shape, np.uint8)).sharpness is None
