"""Is the part sharp, was the camera still, is it rightly exposed, does glare hide it.

All is told of the region of interest (`saywright.photos.region`), or of a box that a person gives, at one
working size, so that the camera's pixel count does not matter.

Focus is the variance of the Laplacian (Pech-Pacheco and others, ICPR 2000, vol. 3, pp. 314–317), taken
tile by tile and divided by the tile's own variance, so that it depends neither on contrast nor on exposure.
Sensor noise, which looks sharp, is estimated from the quietest tiles (Immerkaer, Computer Vision and Image
Understanding 64(2), 1996) and taken off; tiles that stand out little from it do not count. The tile at two
thirds of the way from soft to sharp decides; tiles in the middle and tiles rich in contrast weigh more.

The limits were chosen on pictures made from those that scikit-image ships, each with a known fault; the
curves are in docs/photos.md and come from tools/focus_curve.py.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import cv2
import numpy as np
import numpy.typing as npt

from saywright.photos.burst import likeness
from saywright.photos.card_seen import seen_card
from saywright.photos.motion import motion
from saywright.photos.region import Box, cut_out, grown, region
from saywright.photos.shrink import shrunk
from saywright.record.types import PhotoChecks

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float32]

WORKING_PX = 1024  # longer side while measuring; smaller pictures are not enlarged
BLURRED = 0.12  # sharpness below which a picture is called blurred
MIDDLE: Box = (0.35, 0.35, 0.3, 0.3)
MIDDLE_BLURRED = 0.08  # the same for the middle of the picture, where no person and no card shows the part
DARK_MEAN, DARK_TOP = 0.28, 0.5  # of the part, mean and 95th percentile of lightness: dark below both
LIGHT_SEEN = 0.7  # lightness of the picture's 95th percentile: paper in view tells that the part is black
BRIGHT_MEAN, BRIGHT_CLIPPED = 0.72, 0.25  # of the part, and of the whole picture: bright above both
CLIPPED_AT = 250  # of 255, in each of the three colours
GLARE_SHARE = 0.02  # of the region: highlights where all detail is gone
GLARE_AT = 250  # of 255, in two of the three colours: brass clips in red and green first
MOTION_PX = 256  # sides of what is looked at for motion, at least
FAR_PX_PER_MM = 8.0  # fewer, and a bore of 1.5 mm has less than the 12 pixels that a circle needs
LEAST_PART = 0.001  # of what is looked at; less beside the white, and all of it counts
GLARE_MEAN = 0.6  # lightness of the rest: white paper is no glare

_PRESMOOTH_PX = 0.8  # sigma; the bare Laplacian sees little but noise
_TILES_ACROSS = 10  # the region's shorter side
_NOISE_TILES = 12  # the picture's
_LEAST_CONTRAST = 8.0  # standard deviation, of 255; plainer tiles say nothing about focus
_OVER_NOISE = 8.0  # a tile's variance must be so many times the noise's
_FEWEST_TILES = 3
_TOP_SHARE = 0.35
_CENTRE_SPREAD = 0.2  # of the region's sides
# Variance of white noise of variance 1 after the smoothing, and after smoothing and Laplacian.
_NOISE_SMOOTHED, _NOISE_LAPLACIAN = 0.125, 0.371
_NOISE_KERNEL = np.array([[1, -2, 1], [-2, 4, -2], [1, -2, 1]], dtype=np.float32)  # blind to edges; gain 36


def check_picture(pixels: Pixels, box: Box | None = None) -> PhotoChecks:
    """Focus, motion and exposure of *pixels*, (height, width, 3) uint8 RGB, upright.

    *box* is what to look at, where a person shows it; else it is found.
    """
    small = shrunk(pixels, WORKING_PX)
    plain = np.asarray(cv2.cvtColor(small, cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    grey, card = plain.astype(np.float32), seen_card(plain)
    looked_at = box or region(grey, None if card is None else card.window)
    sharp = _sharpness(grey, looked_at) if box or card else _sharpness_found(grey, looked_at)
    # A camera that moves blurs the bench as well, and a small box has too few directions to tell by.
    motion_seen = motion(cut_out(grey, grown(looked_at, grey.shape, MOTION_PX)), sensor_noise(grey))
    light = lightness(small)
    clipped = _channels_at(small, CLIPPED_AT) == 3
    exposure = _exposure(cut_out(clipped, looked_at), cut_out(light, looked_at))
    height_px, width_px = pixels.shape[:2]
    blurred = sharp is not None and sharp < BLURRED
    moved = motion_seen is not None and motion_seen.moved
    hidden = _glare(cut_out(small, looked_at), cut_out(light, looked_at))
    scale = None if card is None else card.px_per_mm * max(width_px, height_px) / max(small.shape[:2])
    return PhotoChecks(
        sharpness=None if sharp is None else round(sharp, 3),
        exposure=round(exposure.mean, 3),
        clipped_share=round(float(clipped.mean()), 4),
        blurred=blurred,
        dark=exposure.mean < DARK_MEAN
        and exposure.top < DARK_TOP
        and float(np.percentile(light, 95)) < LIGHT_SEEN,
        # A white ground alone does not make it too bright: what lies on it must be light too.
        bright=exposure.mean > BRIGHT_MEAN and float(clipped.mean()) > BRIGHT_CLIPPED,
        width_px=width_px,
        height_px=height_px,
        likeness=likeness(small),
        region=tuple(round(side, 3) for side in looked_at),
        moved=moved,
        glare=hidden >= GLARE_SHARE,
        glare_share=round(hidden, 4),
        px_per_mm=None if scale is None else round(scale, 2),
        far=None if scale is None else scale < FAR_PX_PER_MM,
    )


def lightness(pixels: Pixels) -> Floats:
    """CIE lightness L* / 100 (CIE 15) of sRGB *pixels* (height, width, 3), 0…1, (height, width)."""
    coded = pixels.astype(np.float32) / 255
    linear = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)  # IEC 61966-2-1
    luminance = linear @ np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)
    cubed = np.cbrt(luminance)
    scaled = np.where(luminance > (6 / 29) ** 3, 1.16 * cubed - 0.16, luminance * (29 / 3) ** 3 / 100)
    return np.asarray(np.clip(scaled, 0, 1), dtype=np.float32)


def sharpness(pixels: Pixels, box: Box | None = None) -> float | None:
    """0 (nothing but blur) … 1 (as sharp as pixels allow); None where the picture has no detail to judge."""
    grey = np.asarray(cv2.cvtColor(shrunk(pixels, WORKING_PX), cv2.COLOR_RGB2GRAY), dtype=np.float32)
    return _sharpness(grey, box) if box else _sharpness_found(grey, region(grey))


def _sharpness_found(grey: Floats, found: Box) -> float | None:
    """Of the region found, or of the middle where that has all but lost its detail.

    What is left of the texture of a part far out of focus is fainter than the bench beside it, so the region
    found may be the bench.
    """
    sharp, middle = _sharpness(grey, found), _sharpness(grey, MIDDLE)
    if middle is not None and middle < MIDDLE_BLURRED:
        return middle if sharp is None else min(sharp, middle)
    return sharp


def _sharpness(grey: Floats, box: Box) -> float | None:
    looked_at = cut_out(grey, box)
    smooth = cv2.GaussianBlur(looked_at, (0, 0), _PRESMOOTH_PX)
    tile_px = max(16, min(looked_at.shape) // _TILES_ACROSS)
    if min(looked_at.shape) < tile_px:
        return None
    noise_variance = sensor_noise(grey)
    edges = _tiles(cv2.Laplacian(smooth, cv2.CV_32F) ** 2, tile_px).mean(axis=1)
    edges = np.maximum(0, edges - _NOISE_LAPLACIAN * noise_variance)
    contrast = _tiles(smooth, tile_px).var(axis=1) - _NOISE_SMOOTHED * noise_variance
    telling = contrast > max(_LEAST_CONTRAST**2, _OVER_NOISE * noise_variance)
    if telling.sum() < _FEWEST_TILES:
        return None
    ratios = np.sqrt(edges[telling] / contrast[telling])
    central = _centre_weights(looked_at.shape[0] // tile_px, looked_at.shape[1] // tile_px)
    weights = central[telling] * np.sqrt(contrast[telling])
    order = np.argsort(ratios)
    reached = np.cumsum(weights[order]) / weights.sum()
    place = min(int(np.searchsorted(reached, 1 - _TOP_SHARE)), order.size - 1)
    return float(min(1.0, ratios[order][place]))


def sensor_noise(grey: Floats) -> float:
    """Of the sensor's noise, from the quietest tiles of the whole picture."""
    tile_px = max(16, min(grey.shape) // _NOISE_TILES)
    if min(grey.shape) < tile_px:
        return 0.0
    noise = _tiles(cv2.filter2D(grey, cv2.CV_32F, _NOISE_KERNEL) ** 2, tile_px).mean(axis=1) / 36
    return float(np.percentile(noise, 10))


class _Exposure(NamedTuple):
    """Light on what is looked at, less the paper or cloth that it lies on."""

    mean: float  # lightness, 0…1
    top: float  # lightness of the 95th percentile


def _exposure(clipped: npt.NDArray[np.bool_], light: Floats) -> _Exposure:
    part = light[~_at_rim(clipped)]
    seen = part if part.size >= LEAST_PART * light.size else light
    return _Exposure(float(seen.mean()), float(np.percentile(seen, 95)))


def _glare(pixels: Pixels, light: Floats) -> float:
    """Share of *pixels* in highlights without detail; 0 where the rest is as light as paper.

    What reaches the rim of the region is the paper or cloth that the part lies on.
    """
    clipped = _channels_at(pixels, GLARE_AT) >= 2
    if clipped.all() or float(light[~clipped].mean()) > GLARE_MEAN:
        return 0.0
    opened = cv2.morphologyEx(clipped.astype(np.uint8), cv2.MORPH_OPEN, np.ones((3, 3), np.uint8)) > 0
    return float((opened & ~_at_rim(opened)).mean())


def _at_rim(mask: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Those of *mask* (height, width) that hang together with its rim."""
    _, found = cv2.connectedComponents(mask.astype(np.uint8))
    labels = np.asarray(found)
    outside = np.zeros(int(labels.max()) + 1, dtype=bool)
    outside[np.concatenate([labels[0], labels[-1], labels[:, 0], labels[:, -1]])] = True
    outside[0] = False
    return np.asarray(outside[labels])


def _channels_at(pixels: Pixels, level: int) -> npt.NDArray[np.uint8]:
    """In how many of its colours each pixel reaches *level*, (height, width)."""
    red, green, blue = (pixels[..., number] >= level for number in range(3))
    return np.add(red, green, dtype=np.uint8) + blue


def _tiles(plane: npt.NDArray[Any], tile_px: int) -> npt.NDArray[Any]:
    """*plane* (height, width) as (n_tiles, tile_px²), row by row; what does not fill a tile is left out."""
    rows, columns = plane.shape[0] // tile_px, plane.shape[1] // tile_px
    cut = plane[: rows * tile_px, : columns * tile_px]
    return cut.reshape(rows, tile_px, columns, tile_px).transpose(0, 2, 1, 3).reshape(rows * columns, -1)


def _centre_weights(rows: int, columns: int) -> npt.NDArray[np.float64]:
    y, x = np.mgrid[0:rows, 0:columns]
    distance = np.hypot((y.ravel() + 0.5) / rows - 0.5, (x.ravel() + 0.5) / columns - 0.5)
    return np.asarray(np.exp(-0.5 * (distance / _CENTRE_SPREAD) ** 2), dtype=np.float64)
