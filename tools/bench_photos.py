"""How true and how fast the work on pictures is.

Bores of known diameter on the marker card, rendered at 20 pixels a millimetre, measured over tilt, light and
blur: bias and spread in per cent, and the share of errors within twice the stated uncertainty.

Usage: python tools/bench_photos.py
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator

import numpy as np
from photo_scenes import Bore, View, scene

from saywright.errors import InputError
from saywright.photos.measure import circle
from saywright.photos.scale import Print, card_scale

TILTS_DEG = (0.0, 10.0, 20.0, 30.0)
LIGHTS = (0.45, 1.0)
BLURS_PX = (0.6, 1.2, 2.0)
BORES = (Bore(30, 30, 1.5, 4), Bore(44, 52, 2.0, 5), Bore(60, 36, 3.0, 8), Bore(78, 54, 6.0, 12))
PX_PER_MM = 20.0


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


def main() -> None:
    """Print every table."""
    bores()


if __name__ == "__main__":
    main()
