"""How the limits of the picture checks were chosen: curves over pictures with a known fault.

Each shipped picture as a part on two others as benches, with noise; blur, motion and glare in steps. Printed
is how many are told at each limit, beside the variance of the Laplacian of the whole picture at its best.

Usage: python tools/focus_curve.py
"""

# mypy: disallow-untyped-calls=False

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from photo_faults import NAMES, Pixels, glaring, moved, noisy, pairs, part_on_bench, shipped, soft
from skimage import data

from saywright.photos.checks import (
    BLURRED,
    GLARE_SHARE,
    MOTION_PX,
    WORKING_PX,
    check_picture,
    sensor_noise,
    sharpness,
)
from saywright.photos.intake import read_photo
from saywright.photos.motion import FITS, LEAST_SHARE, LEAST_STRENGTH, MOST_SHARE, Motion, motion
from saywright.photos.region import cut_out, grown, region
from saywright.photos.shrink import shrunk

DEMO = Path(__file__).parent.parent / "demo_images"
Scores = dict[tuple[float, float], npt.NDArray[Any]]  # blur of the part and of the bench → scores

BLURS_PX = (0.0, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0)
BENCH_BLURS_PX = (0.0, 6.0)
LIMITS = (0.08, 0.10, 0.12, 0.15, 0.18)
LENGTHS_PX = (3, 5, 9, 15, 25)
WAYS_DEG = (0, 35, 70, 110, 150)
GLARES = (0.0, 0.02, 0.05, 0.1, 0.2)
NOISE = 2.0


def parts(part_px: float, bench_px: float) -> list[Pixels]:
    """Every part on its benches, with these blurs."""
    kept = {name: shipped(name) for name in NAMES}
    return [
        noisy(part_on_bench(soft(kept[part], part_px), soft(kept[bench], bench_px)), NOISE, seed)
        for seed, (part, bench) in enumerate(pairs())
    ]


def bare(pixels: Pixels) -> float:
    """Variance of the Laplacian of the whole picture."""
    return float(cv2.Laplacian(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), cv2.CV_64F).var())


def focus() -> None:
    """Share of pictures called blurred over the part's blur, by limit; then what the global measure does."""
    sets = {key: parts(*key) for key in itertools.product(BLURS_PX, BENCH_BLURS_PX)}
    ours = {key: _scores(sharpness, pictures) for key, pictures in sets.items()}
    theirs = {key: _scores(bare, pictures) for key, pictures in sets.items()}
    print(f"share called blurred, %, of {len(sets[0.0, 0.0])} pictures each")
    print("bench   limit " + "".join(f"{f'blur {b:g}':>9}" for b in BLURS_PX))
    for bench_px in BENCH_BLURS_PX:
        name = "sharp" if bench_px == 0 else "soft"
        for limit in LIMITS:
            _row(f"{name:6}  {limit:.2f}{'*' if limit == BLURRED else ' '}", ours, bench_px, limit)
        sharp, blurred = theirs[0.0, bench_px], theirs[4.0, bench_px]
        best = max(sorted({*sharp, *blurred}), key=lambda x: (blurred < x).mean() - (sharp < x).mean())
        _row(f"{name:6}  global", theirs, bench_px, float(best))


def _scores(measure: Callable[[Pixels], float | None], pictures: Sequence[Pixels]) -> npt.NDArray[Any]:
    return np.array([score for picture in pictures if (score := measure(picture)) is not None])


def _row(
    head: str, scores: dict[tuple[float, float], npt.NDArray[Any]], bench_px: float, limit: float
) -> None:
    shares = [100 * float((scores[blur_px, bench_px] < limit).mean()) for blur_px in BLURS_PX]
    print(f"{head:14}" + "".join(f"{share:9.0f}" for share in shares))


def shaken() -> None:
    """Share told as moved: of still pictures, sharp and out of focus, then over the length of the way."""
    kept = {name: shipped(name) for name in NAMES}
    sharp, unsharp = (
        [
            _motion(noisy(soft(pixels, blur_px), NOISE, seed))
            for seed, pixels in enumerate(kept.values())
            for blur_px in blurs_px
        ]
        for blurs_px in ((0.0, 0.7), (1.5, 2.0, 4.0))
    )
    gone = {
        length_px: [
            (way, _motion(noisy(moved(pixels, length_px, way), NOISE, seed)))
            for seed, pixels in enumerate(kept.values())
            for way in WAYS_DEG
        ]
        for length_px in LENGTHS_PX
    }
    print("\nshare told as moved, %")
    print("fit    share   sharp  unsharp " + "".join(f"{f'{length} px':>8}" for length in LENGTHS_PX))
    for fit, least in itertools.product((0.5, 0.6, 0.7), (0.03, 0.06, 0.12)):
        star = "*" if (fit, least) == (FITS, LEAST_SHARE) else " "
        false = [100 * np.mean([_told(one, fit, least) for one in still]) for still in (sharp, unsharp)]
        right = [100 * np.mean([_told(one, fit, least) for _, one in gone[length]]) for length in LENGTHS_PX]
        print(
            f"{fit:.2f}{star} {least:6.2f} {false[0]:7.0f} {false[1]:8.0f} "
            + "".join(f"{share:8.0f}" for share in right)
        )
    off = [_off(way, one.way_deg) for way, one in gone[15] if one is not None and one.moved]
    print(f"its way at 15 px: median error {np.median(off):.1f}°, 95 % within {np.percentile(off, 95):.1f}°")


def unseen() -> None:
    """The same on pictures by which no limit was chosen: two shipped ones and the demo's rendered parts."""
    stills = [shipped("moon"), np.ascontiguousarray(data.stereo_motorcycle()[0][:480, :640])]
    demo = sorted(path for path in DEMO.iterdir() if path.suffix in {".jpg", ".png", ".heic"})
    stills += [shrunk(read_photo(path).pixels, WORKING_PX) for path in demo]
    told = [_is_moved(noisy(pixels, NOISE, seed)) for seed, pixels in enumerate(stills)]
    print(f"\nunseen pictures told as moved: {sum(told)} of {len(told)} as they are", end="")
    for length_px in LENGTHS_PX[1:]:
        gone = [
            _is_moved(noisy(moved(pixels, length_px, way), NOISE, seed))
            for seed, pixels in enumerate(stills)
            for way in WAYS_DEG
        ]
        print(f"; {100 * np.mean(gone):.0f} % at {length_px} px", end="")
    print()


def _is_moved(pixels: Pixels) -> bool:
    found = _motion(pixels)
    return found is not None and found.moved


def _motion(pixels: Pixels) -> Motion | None:
    grey = np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), dtype=np.float32)
    return motion(cut_out(grey, grown(region(grey), grey.shape, MOTION_PX)), sensor_noise(grey))


def _told(one: Motion | None, fit: float, least: float) -> bool:
    if one is None or one.strength < LEAST_STRENGTH:
        return False
    return one.fit >= fit and least <= one.share <= MOST_SHARE


def _off(way_deg: float, found_deg: float) -> float:
    apart = abs(way_deg - found_deg) % 180
    return float(min(apart, 180 - apart))


def glare() -> None:
    """Share told as glaring over the share of the middle that highlights cover."""
    print(f"\nglare: limit {100 * GLARE_SHARE:g} % of the region")
    print("covered % of the middle ninth   told %   median share of the region %")
    for share in GLARES:
        found = [
            check_picture(noisy(glaring(shipped(name), share, seed), NOISE, seed)).glare_share or 0.0
            for seed, name in enumerate(NAMES)
        ]
        told = 100 * np.mean([one >= GLARE_SHARE for one in found])
        print(f"{100 * share:29.0f} {told:8.0f} {100 * np.median(found):16.1f}")


def main() -> None:
    """Print the curves."""
    focus()
    shaken()
    unseen()
    glare()


if __name__ == "__main__":
    main()
