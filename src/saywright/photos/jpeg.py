"""Pixels → JPEG bytes: what is shown, and what the program itself took."""

from __future__ import annotations

import io
from datetime import datetime

import numpy as np
import numpy.typing as npt
from PIL import Image

from saywright.photos.shrink import shrunk

Pixels = npt.NDArray[np.uint8]

_EXIF_IFD = 0x8769
_TAKEN, _TAKEN_FRACTION = 0x9003, 0x9291  # EXIF 2.32, DateTimeOriginal and its sub-seconds


def derived_jpeg(pixels: Pixels, max_px: int = 1600, quality: int = 85) -> bytes:
    """*pixels* (height, width, 3) uint8 as JPEG, its longer side at most *max_px*, without any metadata.

    *quality* is 1…95. No tag of the original can get in, since only pixels are given.
    """
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(shrunk(pixels, max_px))).save(
        out, "JPEG", quality=max(1, min(95, quality)), optimize=True
    )
    return out.getvalue()


def original_jpeg(pixels: Pixels, taken_at: datetime) -> bytes:
    """A picture that this program took, as the file that is kept, with the time it was taken at."""
    exif = Image.Exif()
    told = exif.get_ifd(_EXIF_IFD)
    told[_TAKEN], told[_TAKEN_FRACTION] = f"{taken_at:%Y:%m:%d %H:%M:%S}", f"{taken_at:%f}"
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(pixels)).save(out, "JPEG", quality=95, exif=exif)
    return out.getvalue()
