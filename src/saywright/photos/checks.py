"""Is the picture sharp, and is it rightly exposed.

Focus is the variance of the Laplacian (Pech-Pacheco and others, ICPR 2000, vol. 3, pp. 314–317), taken
tile by tile and divided by the tile's own variance, so that it does not depend on contrast, on
exposure or on how much of the picture is plain. Sensor noise, which looks sharp, is estimated from the
quietest tiles (Immerkaer, Computer Vision and Image Understanding 64(2), 1996) and taken off; tiles
that stand out little from it do not count. The sharpest tenth decides, tiles at the centre and tiles rich
in contrast weighing more: a close-up with its background out of focus is a sharp picture. All at one
working size, so that the camera's pixel count does not matter.

How the limits were chosen. Sixteen pictures shipped with scikit-image 0.26 score 0.33 to 1.0 as shipped,
but for one soft low-contrast picture of a retina (0.17). Blurred with sigma 4 pixels none passes 0.12, with
noise on top 0.15; sigma 2 lies between. Of the demo's rendered pictures the blurred one scores 0.09, those
meant to be sharp 0.22 and more. For exposure the same pictures were used: a usable picture has something
lighter than middle grey in it, or is not dark on the whole.
"""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from saywright.photos.burst import likeness
from saywright.record.types import PhotoChecks

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float32]

WORKING_PX = 1024  # longer side while measuring; smaller pictures are not enlarged
BLURRED = 0.15  # sharpness below which a picture is called blurred
DARK_MEAN, DARK_TOP = 0.28, 0.5  # mean lightness, and lightness of the 95th percentile: dark below both
BRIGHT_MEAN, BRIGHT_CLIPPED = 0.75, 0.25  # bright above both
CLIPPED_AT = 250  # of 255, in each of the three colours

_PRESMOOTH_PX = 0.8  # sigma; the bare Laplacian sees little but noise
_TILES_ACROSS = 12  # the shorter side
_LEAST_CONTRAST = 8.0  # standard deviation, of 255; plainer tiles say nothing about focus
_OVER_NOISE = 8.0  # a tile's variance must be so many times the noise's
_FEWEST_TILES = 3
_TOP_SHARE = 0.1
_CENTRE_SPREAD = 0.35  # of the picture's side
# Variance of white noise of variance 1 after the smoothing, and after smoothing and Laplacian.
_NOISE_SMOOTHED, _NOISE_LAPLACIAN = 0.125, 0.371
_NOISE_KERNEL = np.array([[1, -2, 1], [-2, 4, -2], [1, -2, 1]], dtype=np.float32)  # blind to edges; gain 36


def check_picture(pixels: Pixels) -> PhotoChecks:
    """Focus and exposure of *pixels*, (height, width, 3) uint8 RGB, upright."""
    small = _working_size(pixels)
    sharp = sharpness(small)
    light = lightness(small)
    mean = float(light.mean())
    top = float(np.percentile(light, 95))
    clipped = float((small.min(axis=2) >= CLIPPED_AT).mean())
    height_px, width_px = pixels.shape[:2]
    return PhotoChecks(
        sharpness=None if sharp is None else round(sharp, 3),
        exposure=round(mean, 3),
        clipped_share=round(clipped, 4),
        blurred=sharp is not None and sharp < BLURRED,
        dark=mean < DARK_MEAN and top < DARK_TOP,
        bright=mean > BRIGHT_MEAN and clipped > BRIGHT_CLIPPED,
        width_px=width_px,
        height_px=height_px,
        likeness=likeness(small),
    )


def lightness(pixels: Pixels) -> Floats:
    """CIE lightness L* / 100 (CIE 15) of sRGB *pixels* (height, width, 3), 0…1, (height, width)."""
    coded = pixels.astype(np.float32) / 255
    linear = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)  # IEC 61966-2-1
    luminance = linear @ np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)
    cubed = np.cbrt(luminance)
    scaled = np.where(luminance > (6 / 29) ** 3, 1.16 * cubed - 0.16, luminance * (29 / 3) ** 3 / 100)
    return np.asarray(np.clip(scaled, 0, 1), dtype=np.float32)


def sharpness(pixels: Pixels) -> float | None:
    """0 (nothing but blur) … 1 (as sharp as pixels allow); None where the picture has no detail to judge."""
    grey = cv2.cvtColor(_working_size(pixels), cv2.COLOR_RGB2GRAY).astype(np.float32)
    smooth = cv2.GaussianBlur(grey, (0, 0), _PRESMOOTH_PX)
    tile_px = max(16, min(grey.shape) // _TILES_ACROSS)
    if min(grey.shape) < tile_px:
        return None
    noise = _tiles(cv2.filter2D(grey, cv2.CV_32F, _NOISE_KERNEL) ** 2, tile_px).mean(axis=1) / 36
    noise_variance = float(np.percentile(noise, 10))
    edges = _tiles(cv2.Laplacian(smooth, cv2.CV_32F) ** 2, tile_px).mean(axis=1)
    edges = np.maximum(0, edges - _NOISE_LAPLACIAN * noise_variance)
    contrast = _tiles(smooth, tile_px).var(axis=1) - _NOISE_SMOOTHED * noise_variance
    telling = contrast > max(_LEAST_CONTRAST**2, _OVER_NOISE * noise_variance)
    if telling.sum() < _FEWEST_TILES:
        return None
    ratios = np.sqrt(edges[telling] / contrast[telling])
    central = _centre_weights(grey.shape[0] // tile_px, grey.shape[1] // tile_px)
    weights = central[telling] * np.sqrt(contrast[telling])
    order = np.argsort(ratios)
    reached = np.cumsum(weights[order]) / weights.sum()
    place = min(int(np.searchsorted(reached, 1 - _TOP_SHARE)), order.size - 1)
    return float(min(1.0, ratios[order][place]))


def _working_size(pixels: Pixels) -> Pixels:
    height_px, width_px = pixels.shape[:2]
    scale = WORKING_PX / max(height_px, width_px)
    if scale >= 1:
        return pixels
    size = (max(1, round(width_px * scale)), max(1, round(height_px * scale)))
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)


def _tiles(plane: npt.NDArray[Any], tile_px: int) -> npt.NDArray[Any]:
    """*plane* (height, width) as (n_tiles, tile_px²), row by row; what does not fill a tile is left out."""
    rows, columns = plane.shape[0] // tile_px, plane.shape[1] // tile_px
    cut = plane[: rows * tile_px, : columns * tile_px]
    return cut.reshape(rows, tile_px, columns, tile_px).transpose(0, 2, 1, 3).reshape(rows * columns, -1)


def _centre_weights(rows: int, columns: int) -> npt.NDArray[np.float64]:
    y, x = np.mgrid[0:rows, 0:columns]
    distance = np.hypot((y.ravel() + 0.5) / rows - 0.5, (x.ravel() + 0.5) / columns - 0.5)
    return np.asarray(np.exp(-0.5 * (distance / _CENTRE_SPREAD) ** 2), dtype=np.float64)
