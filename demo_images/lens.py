"""The camera: depth of field, tone curve, vignette, sensor noise, and the word that says what it is."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import cv2
import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

Plane = npt.NDArray[np.float32]

WIDTH_PX, HEIGHT_PX = 1600, 1200


def step(plane: Plane, soft: float = 0.7) -> Plane:
    """0 where *plane* is well below zero, 1 where well above, smooth over *soft* each side."""
    t = np.clip(plane / (2 * soft) + 0.5, 0, 1)
    return np.asarray(t * t * (3 - 2 * t), dtype=np.float32)


@dataclass(frozen=True)
class Camera:
    """How the scene is taken."""

    exposure: float = 1.0
    warm: float = 0.0  # −1 cold … 1 warm
    focus_height: float = 0.0  # in focus at this height in the middle of the picture
    depth_blur: float = 0.02  # blur radius, pixels for each pixel of height out of focus
    tilt: float = 0.0  # the plane in focus rises so much for each pixel of y
    defocus: float = 0.0  # blur radius everywhere, pixels
    noise: float = 1.0
    seed: int = 1
    lamp: tuple[float, float, float] = (-0.55, -0.6, 0.75)
    lamp_power: float = 1.0


def depth_of_field(light: npt.NDArray[np.float32], height: Plane, camera: Camera) -> npt.NDArray[np.float32]:
    y = (np.arange(HEIGHT_PX, dtype=np.float32) - HEIGHT_PX / 2)[:, None]
    out = np.abs(height - camera.focus_height + camera.tilt * y) * camera.depth_blur + camera.defocus
    out = cv2.GaussianBlur(out.astype(np.float32), (0, 0), 3)
    radii = [0.0, 1.5, 3.0, 5.0, 8.0, 12.0, 18.0, 26.0]
    result = light.copy()
    below = light
    for low, radius in pairwise(radii):
        if float(out.max()) <= low:
            break
        above = _disc(light, radius)
        share = np.clip((out - low) / (radius - low), 0, 1)[..., None]
        result = np.where(out[..., None] > low, below * (1 - share) + above * share, result)
        below = above
    return np.asarray(result, dtype=np.float32)


def _disc(light: npt.NDArray[np.float32], radius: float) -> npt.NDArray[np.float32]:
    size = int(np.ceil(radius)) * 2 + 1
    axis = np.arange(size) - size // 2
    kernel = step((radius - np.hypot(*np.meshgrid(axis, axis))).astype(np.float32), 0.8)
    return np.asarray(cv2.filter2D(light, -1, kernel / kernel.sum(), borderType=cv2.BORDER_REFLECT))


def develop(light: npt.NDArray[np.float32], camera: Camera) -> npt.NDArray[np.uint8]:
    """Linear light to a camera's picture: glow, vignette, colour of the lamp, noise, tone curve."""
    rng = np.random.default_rng(camera.seed)
    high, wide = light.shape[:2]
    glow = cv2.GaussianBlur(np.clip(light - 1.0, 0, 3), (0, 0), 14)
    light = cv2.GaussianBlur(light, (0, 0), 0.55) + 0.10 * glow
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    radius = np.hypot((x - wide / 2) / wide, (y - high / 2) / high) * 2
    light = light * (1 - 0.20 * radius**2)[..., None] * camera.exposure
    light = light * np.array([1 + 0.10 * camera.warm, 1.0, 1 - 0.16 * camera.warm], np.float32)
    grain = rng.normal(0, 1, light.shape).astype(np.float32)
    grain = 0.6 * grain + 0.8 * rng.normal(0, 1, (high, wide, 1)).astype(np.float32)
    light = light + grain * camera.noise * (0.0035 + 0.012 * np.sqrt(np.clip(light, 0, 2)))
    light = np.clip(light, 0, None)
    toned = light * (2.51 * light + 0.03) / (light * (2.43 * light + 0.59) + 0.14)
    coded = np.where(
        toned <= 0.0031308, 12.92 * toned, 1.055 * np.clip(toned, 1e-6, None) ** (1 / 2.4) - 0.055
    )
    picture = np.clip(coded * 255 + 0.5, 0, 255).astype(np.uint8)
    return label(picture)


def label(picture: npt.NDArray[np.uint8]) -> npt.NDArray[np.uint8]:
    """The word "rendered", small, in the lower right corner."""
    image = Image.fromarray(picture)
    font = ImageFont.load_default(size=22)
    at = (WIDTH_PX - 18, HEIGHT_PX - 14)
    draw = ImageDraw.Draw(image, "RGBA")
    around = int(picture[-50:, -130:].mean())
    shade = around + 100 if around < 128 else around - 100
    draw.text(at, "rendered", font=font, fill=(shade, shade, shade, 230), anchor="rd")
    return np.array(image)
