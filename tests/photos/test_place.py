"""The place a camera wrote is overwritten; the picture and its time stay."""

from __future__ import annotations

import io
import struct
from datetime import datetime

import numpy as np
import pillow_heif
import pytest
from PIL import Image

from saywright.photos.intake import read_photo
from saywright.photos.place import without_place

PIXELS = np.random.default_rng(4).integers(0, 255, (40, 60, 3), dtype=np.uint8)


def exif(*, place: bool) -> Image.Exif:
    """EXIF with a time and, if wanted, a place."""
    tags = Image.Exif()
    tags[0x010F] = "Invented"
    tags.get_ifd(0x8769)[0x9003] = "2026:09:14 09:04:20"
    if place:
        where = tags.get_ifd(0x8825)
        where[1], where[2], where[3], where[4] = "N", (54.0, 10.0, 31.0), "E", (12.0, 5.0, 17.0)
        where[29] = "2026:09:14"
    return tags


def picture_file(image_format: str, *, place: bool) -> bytes:
    """A picture in this format."""
    out = io.BytesIO()
    image = Image.fromarray(PIXELS)
    if image_format == "HEIF":
        pillow_heif.from_pillow(image).save(out, quality=90, exif=exif(place=place).tobytes())
    else:
        image.save(out, image_format, exif=exif(place=place).tobytes())
    return out.getvalue()


def place_of(data: bytes) -> dict[int, object]:
    """What a reader finds as place."""
    return dict(Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825))


@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP", "TIFF", "HEIF"])
def test_place_is_gone_and_nothing_else(image_format: str) -> None:
    """In every format: no place, the same pixels, the same time, the same length."""
    data = picture_file(image_format, place=True)
    assert place_of(data)
    before, kept = read_photo(data), without_place(data)
    after = read_photo(kept)
    assert {} == place_of(kept)
    assert kept == before.kept
    assert before.sha256 != before.kept_sha256
    assert len(data) == len(kept)
    assert (before.pixels == after.pixels).all()
    assert datetime(2026, 9, 14, 9, 4, 20) == after.taken_at
    for order in "<>":
        seconds = struct.pack(order + "II", 31, 1)
        assert seconds not in kept


@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP", "TIFF", "HEIF"])
def test_without_place_is_untouched(image_format: str) -> None:
    """A file without a place comes back as it is."""
    data = picture_file(image_format, place=False)
    assert without_place(data) is data


def test_place_in_xmp_text() -> None:
    """A place told as text is blanked, both as attribute and as element."""
    text = b'<x exif:GPSLatitude="54,10.5N" a="1"><exif:GPSLongitude>12,5.2E</exif:GPSLongitude></x>'
    expected = b'<x exif:GPSLatitude="        " a="1"><exif:GPSLongitude>       </exif:GPSLongitude></x>'
    assert expected == without_place(text)


@pytest.mark.parametrize("seed", range(40))
def test_damaged_exif_raises_nothing(seed: int) -> None:
    """Bytes flipped anywhere in the block never raise and never change the length."""
    rng = np.random.default_rng(seed)
    data = bytearray(picture_file("JPEG", place=True))
    for place in rng.integers(0, 260, 6):
        data[place] = rng.integers(0, 256)
    assert len(data) == len(without_place(bytes(data)))
