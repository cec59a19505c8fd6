"""Small picture files made for tests, and what a user is told about one."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from saywright.errors import ImageError
from saywright.photos.intake import read_photo


def corners() -> np.ndarray:
    """Four plain quarters, so that each turn of the picture can be told: red, green, blue, white."""
    pixels = np.zeros((60, 80, 3), dtype=np.uint8)
    pixels[:30, :40] = (220, 20, 20)
    pixels[:30, 40:] = (20, 200, 20)
    pixels[30:, :40] = (20, 20, 220)
    pixels[30:, 40:] = (240, 240, 240)
    return pixels


def exif_of(*, orientation: int = 1, taken: str = "2026:09:14 09:04:20", place: bool = False) -> bytes:
    """An EXIF block as cameras write it, with a serial number, and a place if wanted."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = "Invented"
    exif[0x0132] = "2031:01:01 00:00:00"
    tags = exif.get_ifd(0x8769)
    tags[0x9003] = taken
    tags[0xA431] = "SERIAL-4711"
    if place:
        gps = exif.get_ifd(0x8825)
        gps[1], gps[2], gps[3], gps[4] = "N", (54.0, 10.0, 30.0), "E", (12.0, 5.0, 0.0)
    return exif.tobytes()


def encoded(pixels: np.ndarray, image_format: str = "JPEG", **options: object) -> bytes:
    """*pixels* as a file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, image_format, **options)
    return out.getvalue()


def error_line(data: bytes, name: str = "x.jpg") -> str:
    """What the user is told about *data*."""
    with pytest.raises(ImageError) as caught:
        read_photo(data, name=name)
    return str(caught.value)
