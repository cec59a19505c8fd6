"""A small renderer for close-ups: a height field seen from above, lit by a bench lamp and a window.

A scene is a set of planes of the same size: height, colour, how metallic, how rough. Metal mirrors an
invented workshop, everything else scatters. Shadows are cast by marching the height field towards the
lamp; then depth of field, tone curve, vignette, sensor noise. Lengths are in pixels of the finished
picture, whose middle is (0, 0), x right, y down, height towards the camera.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import cv2
import numpy as np
import numpy.typing as npt
from lens import HEIGHT_PX, WIDTH_PX, Camera, Plane, depth_of_field, develop, step
from PIL import Image, ImageDraw, ImageFont

OVER = 2  # rendered so many times larger, then reduced

BRASS = (0.80, 0.53, 0.18)
OLD_BRASS = (0.58, 0.37, 0.13)
STEEL = (0.62, 0.61, 0.59)
ALUMINIUM = (0.80, 0.80, 0.79)


def grid() -> tuple[Plane, Plane]:
    """x and y of each pixel, both (HEIGHT_PX · OVER, WIDTH_PX · OVER)."""
    x = (np.arange(WIDTH_PX * OVER, dtype=np.float32) + 0.5) / OVER - WIDTH_PX / 2
    y = (np.arange(HEIGHT_PX * OVER, dtype=np.float32) + 0.5) / OVER - HEIGHT_PX / 2
    return np.meshgrid(x, y)


def noise(seed: int, size: float, *, octaves: int = 4, stretch: float = 1.0, angle: float = 0.0) -> Plane:
    """Fractal noise, mean 0, spread 1; blobs up to *size* pixels, *stretch* times as long along *angle*."""
    rng = np.random.default_rng(seed)
    high, wide = HEIGHT_PX * OVER, WIDTH_PX * OVER
    total = np.zeros((high, wide), dtype=np.float32)
    reach = int(np.hypot(high, wide)) + 4 if angle else 0
    for octave in range(octaves):
        cell = max(size * OVER / 2**octave, 1.0)
        box_high, box_wide = (reach, reach) if angle else (high, wide)
        rows = max(4, round(box_high / cell))
        columns = max(4, round(box_wide / cell / stretch))
        small = rng.normal(0, 1, (rows, columns)).astype(np.float32)
        layer = cv2.resize(small, (box_wide, box_high), interpolation=cv2.INTER_CUBIC)
        if angle:
            turn = cv2.getRotationMatrix2D((reach / 2, reach / 2), angle, 1.0)
            turn[:, 2] += (wide / 2 - reach / 2, high / 2 - reach / 2)
            layer = cv2.warpAffine(layer, turn, (wide, high), borderMode=cv2.BORDER_REFLECT)
        total += layer * 0.55**octave
    spread = float(total.std())
    return np.asarray((total - total.mean()) / (spread or 1.0), dtype=np.float32)


def blur(plane: Plane, sigma: float) -> Plane:
    """Gaussian blur; wide ones on a reduced copy."""
    plane = plane.astype(np.float32)
    sigma_px = sigma * OVER
    if sigma_px > 12:
        factor = max(2, int(sigma_px / 5))
        high, wide = plane.shape[:2]
        small = cv2.resize(plane, (wide // factor, high // factor), interpolation=cv2.INTER_AREA)
        small = cv2.GaussianBlur(small, (0, 0), sigma_px / factor)
        return cv2.resize(small, (wide, high), interpolation=cv2.INTER_LINEAR)
    return cv2.GaussianBlur(plane, (0, 0), max(sigma_px, 0.01))


def stamp(text: str, x: float, y: float, size: float, angle: float = 0.0) -> Plane:
    """*text* as a mask, its middle at (x, y), turned by *angle* degrees."""
    image = Image.new("L", (WIDTH_PX * OVER, HEIGHT_PX * OVER))
    font = ImageFont.load_default(size=round(size * OVER))
    at = ((WIDTH_PX / 2) * OVER, (HEIGHT_PX / 2) * OVER)
    ImageDraw.Draw(image).text(
        at, text, font=font, fill=255, anchor="mm", stroke_width=round(size * OVER / 40)
    )
    turn = cv2.getRotationMatrix2D(at, angle, 1.0)
    turn[:, 2] += (x * OVER, y * OVER)
    return cv2.warpAffine(np.asarray(image, dtype=np.float32) / 255, turn, image.size)


def strokes(points: list[npt.NDArray[np.float64]], width: float) -> Plane:
    """Lines through *points*, each (n, 2) as x, y, as a mask with soft edges."""
    plane = np.zeros((HEIGHT_PX * OVER, WIDTH_PX * OVER), dtype=np.uint8)
    middle = np.array((WIDTH_PX / 2, HEIGHT_PX / 2))
    for line in points:
        pixels = (line + middle) * OVER * 16
        cv2.polylines(
            plane, [pixels.astype(np.int32)], False, 255, max(1, round(width * OVER)), cv2.LINE_AA, shift=4
        )
    return blur(plane.astype(np.float32) / 255, 0.3 * width / 2 + 0.2)


@dataclass
class Scene:
    """The planes of a picture in the making."""

    height: Plane
    colour: npt.NDArray[np.float32]  # (height, width, 3), linear, 0…1
    metal: Plane  # 0 scatters, 1 mirrors
    rough: Plane  # 0 polished … 1 dull
    x: Plane = field(repr=False)
    y: Plane = field(repr=False)

    @classmethod
    def on(cls, height: Plane | float, colour: npt.NDArray[np.float32], rough: float = 0.8) -> Scene:
        """A bare surface."""
        x, y = grid()
        plane = np.zeros_like(x)
        return cls(plane + height, colour.copy(), plane.copy(), plane + rough, x, y)

    def put(
        self,
        mask: Plane,
        height: Plane | float,
        colour: tuple[float, float, float] | npt.NDArray[np.float32],
        *,
        metal: float = 0.0,
        rough: Plane | float = 0.5,
    ) -> None:
        """A body over what is there, where *mask* is 1."""
        self.height = self.height * (1 - mask) + height * mask
        self.paint(mask, colour, metal=metal, rough=rough)

    def paint(
        self,
        mask: Plane,
        colour: tuple[float, float, float] | npt.NDArray[np.float32],
        *,
        metal: float | None = None,
        rough: Plane | float | None = None,
    ) -> None:
        """Another surface where *mask* is 1, its height as it was."""
        self.colour = self.colour * (1 - mask[..., None]) + np.asarray(colour, np.float32) * mask[..., None]
        if metal is not None:
            self.metal = self.metal * (1 - mask) + metal * mask
        if rough is not None:
            self.rough = self.rough * (1 - mask) + rough * mask


def photograph(scene: Scene, camera: Camera) -> npt.NDArray[np.uint8]:
    """The finished picture, (HEIGHT_PX, WIDTH_PX, 3) uint8."""
    scene.height = scene.height.astype(np.float32)
    light = _shade(scene, camera)
    height = cv2.resize(scene.height, (WIDTH_PX, HEIGHT_PX), interpolation=cv2.INTER_AREA)
    light = cv2.resize(light, (WIDTH_PX, HEIGHT_PX), interpolation=cv2.INTER_AREA)
    return develop(depth_of_field(light, height, camera), camera)


def photograph_inlaid(
    scene: Scene, light: npt.NDArray[np.float32], where: Plane, seed: int
) -> npt.NDArray[np.uint8]:
    """The finished picture with *light*, painted apart, showing where *where* is 1."""
    camera = Camera(exposure=0.9, warm=-0.1, seed=seed)
    scene.height = scene.height.astype(np.float32)
    whole = _shade(scene, camera) * (1 - where[..., None]) + light * where[..., None]
    whole = cv2.resize(whole.astype(np.float32), (WIDTH_PX, HEIGHT_PX), interpolation=cv2.INTER_AREA)
    return develop(whole, camera)


def _shade(scene: Scene, camera: Camera) -> npt.NDArray[np.float32]:
    normal = _normals(scene.height)
    lamp = np.array(camera.lamp, np.float32)
    lamp = lamp / np.linalg.norm(lamp)
    lit = _shadow(scene.height, lamp)
    open_sky = _openness(scene.height)
    toward = np.clip(normal @ lamp, 0, 1) * lit * 1.9 * camera.lamp_power
    fill = np.clip(normal @ _unit(0.7, 0.2, 0.7), 0, 1) * 0.22
    scatter = toward + (fill + 0.30 * (0.6 + 0.4 * normal[..., 2])) * open_sky
    view = _view(scene.x, scene.y)
    mirror = 2 * (normal * view).sum(axis=2, keepdims=True) * normal - view
    shine = _workshop(mirror, scene.rough) * (0.35 + 0.65 * open_sky) * (0.45 + 0.55 * lit)
    edge = (1 - np.clip((normal * view).sum(axis=2), 0, 1)) ** 5
    metal_tint = scene.colour + (1 - scene.colour) * edge[..., None] * 0.6
    as_metal = metal_tint * (shine[..., None] * 0.9 + scatter[..., None] * 0.18)
    gloss = (0.03 + 0.5 * edge) * (1 - scene.rough) * shine
    as_matter = scene.colour * scatter[..., None] * 0.62 + gloss[..., None]
    metal = scene.metal[..., None]
    return np.asarray(as_metal * metal + as_matter * (1 - metal), dtype=np.float32)


def _unit(*parts: float) -> npt.NDArray[np.float32]:
    vector = np.array(parts, np.float32)
    return vector / np.linalg.norm(vector)


def _view(x: Plane, y: Plane) -> npt.NDArray[np.float32]:
    """Unit vectors to the camera, 2400 px above the middle and a little towards the viewer."""
    view = np.stack([-x, 250 - y, np.full_like(x, 2400)], axis=2)
    return np.asarray(view / np.linalg.norm(view, axis=2, keepdims=True), dtype=np.float32)


def _normals(height: Plane) -> npt.NDArray[np.float32]:
    along_x = cv2.Sobel(height, cv2.CV_32F, 1, 0, ksize=3, scale=OVER / 8)
    along_y = cv2.Sobel(height, cv2.CV_32F, 0, 1, ksize=3, scale=OVER / 8)
    normal = np.stack([-along_x, -along_y, np.ones_like(height)], axis=2)
    return np.asarray(normal / np.linalg.norm(normal, axis=2, keepdims=True), dtype=np.float32)


def _shadow(height: Plane, lamp: npt.NDArray[np.float32]) -> Plane:
    """1 in the light … 0 in shadow, softer the farther the edge that casts it."""
    high, wide = height.shape
    small = cv2.resize(height, (wide // 2, high // 2), interpolation=cv2.INTER_AREA)
    scale = OVER / 2
    flat = float(np.hypot(lamp[0], lamp[1]))
    lit = np.ones_like(small)
    for distance in np.geomspace(2.0, 700.0, 56):
        shift = np.float32(
            [[1, 0, -lamp[0] / flat * distance * scale], [0, 1, -lamp[1] / flat * distance * scale]]
        )
        ahead = cv2.warpAffine(
            small, shift, (small.shape[1], small.shape[0]), borderMode=cv2.BORDER_REPLICATE
        )
        above = ahead - small - distance * lamp[2] / flat
        lit = np.minimum(lit, 1 - np.clip(above / (0.22 * distance + 2.0) + 0.35, 0, 1))
    lit = cv2.GaussianBlur(lit, (0, 0), 1.5)
    return cv2.resize(lit, (wide, high), interpolation=cv2.INTER_LINEAR)


def _openness(height: Plane) -> Plane:
    """How much of the sky a place sees, from how far it lies below its surroundings at several scales."""
    below = np.zeros_like(height)
    for sigma in (4.0, 12.0, 36.0, 90.0):
        below += np.clip(blur(height, sigma) - height, 0, None) / sigma
    return np.asarray(np.exp(-0.75 * below), dtype=np.float32)


def _workshop(mirror: npt.NDArray[np.float32], rough: Plane) -> Plane:
    """Light that comes from the direction *mirror*: window, tube lamp, ceiling, dark walls, the person."""
    across, down, up = mirror[..., 0], mirror[..., 1], mirror[..., 2]
    soft = 0.03 + 0.30 * rough
    dim = 1 / (1 + 2.2 * rough)
    base = 0.16 + 0.42 * np.clip(up, 0, 1) ** 1.5 + 0.10 * across
    window = step(0.30 - np.abs(across + 0.52), soft) * step(0.24 - np.abs(down + 0.48), soft)
    bar = 1 - 0.7 * step(0.018 - np.abs(across + 0.52), 0.02 + 0.3 * rough)
    turned_a, turned_b = 0.87 * across + 0.5 * down, -0.5 * across + 0.87 * down
    tube = step(0.55 - np.abs(turned_a - 0.25), soft) * step(0.045 - np.abs(turned_b - 0.36), soft * 0.7)
    far = step(0.16 - np.abs(across - 0.1), soft) * step(0.1 - np.abs(down - 0.82), soft)
    person = step(0.16 - np.hypot(across, down * 0.8 - 0.05), 0.05 + 0.25 * rough)
    light = base * (1 - 0.55 * person) + dim * (3.6 * window * bar + 3.0 * tube + 1.2 * far)
    return np.asarray(np.where(up < 0.0, 0.10 + 0.25 * light, light), dtype=np.float32)
