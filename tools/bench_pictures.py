"""How fast pictures are taken in and particles found, beside scikit-image doing the same work.

Each figure is the least of several runs on one thread; memory is the peak of a process of its own.

Usage: python tools/bench_pictures.py
"""

# mypy: disallow-untyped-calls=False

from __future__ import annotations

import contextlib
import hashlib
import io
import os
import pty
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
from photo_cloths import cloth, grains
from PIL import Image
from skimage import color, data, exposure, filters, measure, transform
from skimage import io as skio

from saywright.photos.checks import check_picture
from saywright.photos.debris import find_debris
from saywright.photos.intake import read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.scale import two_point_scale

SIZE_PX = (4000, 3000)
PICTURES = 200


def picture_file(folder: Path) -> Path:
    """A 12-megapixel JPEG with detail and noise."""
    large = np.asarray(Image.fromarray(data.coffee()).resize(SIZE_PX, Image.Resampling.BICUBIC))
    noise = np.random.default_rng(0).normal(0, 3, (*large.shape[:2], 1))
    path = folder / "large.jpg"
    Image.fromarray(np.clip(large + noise, 0, 255).astype(np.uint8)).save(path, quality=92)
    return path


def ours(path: Path) -> None:
    """Decode, hash, checks, two smaller pictures."""
    taken = read_photo(path)
    check_picture(taken.pixels)
    derived_jpeg(taken.pixels, 1600)
    derived_jpeg(taken.pixels, 400)


def theirs(path: Path) -> None:
    """The same with scikit-image: decode, hash, variance of the Laplacian, contrast, two smaller pictures."""
    hashlib.sha256(path.read_bytes()).hexdigest()
    pixels = skio.imread(path)
    grey = color.rgb2gray(pixels)
    filters.laplace(grey).var()
    exposure.is_low_contrast(grey)
    for longer_px in (1600, 400):
        small = transform.resize(pixels, (longer_px * 3 // 4, longer_px), anti_aliasing=True)
        Image.fromarray((small * 255).astype(np.uint8)).save(io.BytesIO(), "JPEG", quality=85)


def their_debris(pixels: npt.NDArray[np.uint8]) -> int:
    """Background, threshold, regions with area and Feret diameters, with scikit-image."""
    grey = pixels[..., 0].astype(np.float32)
    ground = transform.resize(
        filters.median(transform.downscale_local_mean(grey, (8, 8)), np.ones((45, 45))), grey.shape, order=1
    )
    labels = measure.label(np.abs(grey - ground) > 30)
    return sum(r.feret_diameter_max > 10 for r in measure.regionprops(labels) if r.area >= 20)


def least_s(work: Callable[[], object], times: int) -> float:
    """Seconds of the fastest of so many runs."""
    taken = []
    for _ in range(times):
        started = time.perf_counter()
        work()
        taken.append(time.perf_counter() - started)
    return min(taken)


TAKE_IN = "from saywright.wiring.looking import look; look(Path(sys.argv[1])); "
FIND_DEBRIS = (
    "from saywright.wiring.measuring import ScaleBy, debris_of_file; "
    "debris_of_file(Path(sys.argv[1]), ScaleBy(start_px=(0, 0), end_px=(1000, 0), known_mm=20)); "
)


def peak_mb(path: Path, work: str) -> float:
    """Peak memory of a process that does this on one picture."""
    code = (
        f"import sys; from pathlib import Path; {work}"
        "print(Path('/proc/self/status').read_text().split('VmHWM:')[1].split()[0])"  # kB; Linux
    )
    done = subprocess.run([sys.executable, "-c", code, path], capture_output=True, text=True, check=True)
    return int(done.stdout) / 1000


def many(path: Path, folder: Path) -> tuple[float, float]:
    """Seconds in which the command takes in 200 pictures on one core and on two, all of it included."""
    whole = path.read_bytes()
    camera = folder / "camera"
    camera.mkdir()
    for number in range(PICTURES):
        note = b"\xff\xfe\x00\x06%04d" % number  # a comment, so that no two are the same
        (camera / f"{number}.jpg").write_bytes(whole[:2] + note + whole[2:])
    return _take_in(camera, folder / "one", {0}), _take_in(camera, folder / "two", {0, 1})


def _take_in(camera: Path, store: Path, cores: set[int]) -> float:
    """`photos add` on these cores alone, into a job of its own, its progress bar drawn on a terminal."""
    run = [sys.executable, "-m", "saywright", "--data", str(store)]
    new = [*run, "jobs", "new", "--sheet", "outboard-float-carburetor"]
    job = subprocess.run(new, check=True, capture_output=True, text=True).stdout.split()[0]
    screen, terminal = pty.openpty()
    reader = threading.Thread(target=_drain, args=(screen,), daemon=True)
    reader.start()
    started = time.perf_counter()
    subprocess.run(
        [*run, "photos", "add", job, str(camera)],
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=terminal,
        preexec_fn=lambda: os.sched_setaffinity(0, cores),
    )
    taken_s = time.perf_counter() - started
    os.close(terminal)
    return taken_s


def _drain(screen: int) -> None:
    """Read what is drawn until the terminal is shut, so that nothing waits for it."""
    with contextlib.suppress(OSError):
        while os.read(screen, 65536):
            pass


def main() -> None:
    """Print the figures."""
    cv2.setNumThreads(1)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = picture_file(folder)
        _row(
            "intake of a 12-megapixel JPEG", least_s(lambda: ours(path), 5), least_s(lambda: theirs(path), 1)
        )
        print(f"{'its peak memory':32} {peak_mb(path, TAKE_IN):6.0f} MB")
        pixels = cloth(SIZE_PX, list(grains(150, SIZE_PX, longest_px=80, seed=1)))
        scale = two_point_scale((0.0, 0.0), (1000.0, 0.0), 20.0, u_mm=0.0)
        found_s = least_s(lambda: find_debris(pixels, scale), 3)
        _row("debris on 12 megapixels", found_s, least_s(lambda: their_debris(pixels), 1))
        Image.fromarray(pixels).save(folder / "cloth.jpg", quality=92)
        print(f"{'its peak memory':32} {peak_mb(folder / 'cloth.jpg', FIND_DEBRIS):6.0f} MB")
        one_s, two_s = many(path, folder)
        ratio = one_s / two_s
        print(f"{PICTURES} pictures: one core {one_s:.1f} s, two {two_s:.1f} s, {ratio:.2f} times as fast")


def _row(name: str, ours_s: float, theirs_s: float) -> None:
    print(f"{name:32} {1000 * ours_s:6.0f} ms   scikit-image {1000 * theirs_s:6.0f} ms")


if __name__ == "__main__":
    main()
