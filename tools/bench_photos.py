"""How true and how fast the work on pictures is.

Bores of known diameter on the marker card, rendered at 20 pixels a millimetre, measured over tilt, light and
blur: bias and spread in per cent, and the share of errors within twice the stated uncertainty. Then grains of
known size on rendered cloths: how many are found, and how true their maximum Feret diameters are.

Usage: python tools/bench_photos.py
"""

from __future__ import annotations

import itertools
import math
import statistics
from collections.abc import Iterator

import numpy as np
from photo_cloths import cloth, grains
from photo_scenes import Bore, View, scene

from saywright.errors import InputError
from saywright.photos.debris import find_debris
from saywright.photos.measure import circle
from saywright.photos.scale import Print, card_scale, two_point_scale

TILTS_DEG = (0.0, 10.0, 20.0, 30.0)
LIGHTS = (0.45, 1.0)
BLURS_PX = (0.6, 1.2, 2.0)
BORES = (Bore(30, 30, 1.5, 4), Bore(44, 52, 2.0, 5), Bore(60, 36, 3.0, 8), Bore(78, 54, 6.0, 12))
PX_PER_MM = 20.0
CLOTH_PX = (1600, 1200)


def errors(tilt_deg: float, light: float, blur_px: float, seed: int) -> Iterator[tuple[float, float, bool]]:
    """For each bore: its diameter, the error in per cent, whether it lies within twice the uncertainty."""
    view = View(
        px_per_mm=PX_PER_MM,
        tilt_deg=tilt_deg,
        tilt_axis_deg=37.0 * seed,
        light=light,
        blur_px=blur_px,
        seed=seed,
        subsamples=2,
    )
    pixels, forward = scene(BORES, view)
    scale = card_scale(pixels, Print())
    shaken = np.random.default_rng(seed).uniform(-0.12, 0.12, (len(BORES), 2))  # diameters
    for bore, (across, down) in zip(BORES, shaken, strict=True):
        x, y, w = forward @ np.array([bore.x_mm, bore.y_mm, 1.0])
        wide_px = bore.diameter_mm * PX_PER_MM
        shown = (float(x / w) + across * wide_px, float(y / w) + down * wide_px)
        found = circle(pixels, scale, shown, 0.55 * wide_px)
        off_mm = found.value - bore.diameter_mm
        yield bore.diameter_mm, 100 * off_mm / bore.diameter_mm, abs(off_mm) <= 2 * found.u


def bores() -> None:
    """Print the table of bias and spread."""
    print(
        f"bores of {', '.join(f'{b.diameter_mm:g}' for b in BORES)} mm at {PX_PER_MM:g} pixels a millimetre"
    )
    print("tilt °  light  blur px   bias %  spread %  largest %  within 2u")
    every: list[tuple[float, float, bool]] = []
    for number, (tilt, light, blur) in enumerate(itertools.product(TILTS_DEG, LIGHTS, BLURS_PX)):
        try:
            found = list(errors(tilt, light, blur, number))
        except InputError as error:
            print(f"{tilt:6.0f}  {light:5.2f}  {blur:7.1f}   {error}")
            continue
        every += found
        _row(f"{tilt:6.0f}  {light:5.2f}  {blur:7.1f}", found)
    for bore in BORES:
        _row(
            f"bore {bore.diameter_mm:g} mm, all".ljust(22),
            [row for row in every if row[0] == bore.diameter_mm],
        )
    _row("all".ljust(22), every)


def _row(head: str, found: list[tuple[float, float, bool]]) -> None:
    off = [row[1] for row in found]
    inside = sum(row[2] for row in found)
    print(
        f"{head}   {statistics.mean(off):+6.2f}  {statistics.stdev(off):8.2f}  {max(map(abs, off)):9.2f}"
        f"  {inside} of {len(found)}"
    )


def cloths() -> None:
    """Print how many rendered grains are found and how true their Feret diameters are."""
    scale = two_point_scale((0.0, 0.0), (1000.0, 0.0), 10.0, u_mm=0.0)
    print("\ngrains on a cloth, 10 µm a pixel, 12 pixels and more")
    print("blur px  grains  found  none there   bias px  spread px  largest px")
    for blur_px in BLURS_PX:
        off: list[float] = []
        wanted = stray = 0
        for seed in range(6):
            truth = grains(80, CLOTH_PX, longest_px=70, seed=seed)
            found = find_debris(cloth(CLOTH_PX, list(truth), blur_px=blur_px, seed=seed), scale).particles
            places = [(p.shape.left + p.shape.width / 2, p.shape.top + p.shape.height / 2) for p in found]
            stray += sum(all(math.hypot(x - g.x_px, y - g.y_px) > 4 for g in truth) for x, y in places)
            for grain in (g for g in truth if g.long_px >= 12):
                wanted += 1
                near = [
                    one.feret_max_um / 10 - grain.long_px
                    for one, (x, y) in zip(found, places, strict=True)
                    if math.hypot(x - grain.x_px, y - grain.y_px) < 4
                ]
                off += near[:1]
        print(
            f"{blur_px:7.1f}  {wanted:6}  {len(off):5}  {stray:10}   {statistics.mean(off):+7.2f}"
            f"  {statistics.stdev(off):9.2f}  {max(map(abs, off)):10.2f}"
        )


def main() -> None:
    """Print every table."""
    bores()
    cloths()


if __name__ == "__main__":
    main()
