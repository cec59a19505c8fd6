"""What an image file tells of itself besides its pixels: time, orientation, frames, depth.

Nothing else is read of its tags, so that neither a place nor a serial number goes along.
"""

from __future__ import annotations

import re
import struct
from dataclasses import dataclass
from datetime import datetime

from PIL import Image, TiffImagePlugin

FIRST_YEAR, LAST_YEAR = 1995, 2099  # a camera's date outside is a clock that was never set

_EXIF_IFD = 0x8769
_ORIENTATION = 0x0112
_TIME_TAGS = ((0x9003, 0x9291), (0x9004, 0x9292))  # original, digitised: each with its sub-second tag
_EXIF_TIME = re.compile(r"(\d{4})[:-](\d\d)[:-](\d\d)[ T](\d\d):(\d\d):(\d\d)")
_ODD_DATE_SIGNS = 30  # shown of what is no date; a date has 19

_PNG_DEPTH_AT = 24  # byte of the file: signature 8, length and name 8, width and height 8 (PNG 1.2, IHDR)
_BITS_PER_SAMPLE = 258  # TIFF 6.0

# What Pillow and its decoders raise on damaged data.
DAMAGE = (
    OSError,
    ValueError,
    SyntaxError,
    EOFError,
    struct.error,
    IndexError,
    KeyError,
    TypeError,
    RuntimeError,
)


@dataclass(frozen=True, slots=True)
class Odd:
    """What of the file is not shown as it is, or is of no use."""

    frames: int | None = None  # in the file, 2 and more; one is shown
    print_colours: bool = False  # CMYK
    bits: int | None = None  # a channel, more than the 8 shown
    date: str | None = None  # what stands where the date should; None for a date, or for nothing at all


def exif_of(image: Image.Image) -> Image.Exif | None:
    """The EXIF block; None where it is damaged."""
    try:
        return image.getexif()
    except DAMAGE:
        return None


def orientation(exif: Image.Exif | None) -> int:
    """How the stored pixels lie, 1…8 (EXIF 2.32, tag 0x0112); 1 where it is not told."""
    value = exif.get(_ORIENTATION) if exif is not None else None
    return value if isinstance(value, int) else 1


def frames_in(image: Image.Image) -> int | None:
    """How many the file holds, where they are several.

    A phone's JPEG that carries a map of its lights beside the picture (MPO) holds no second picture.
    """
    if image.format == "MPO":
        return None
    try:
        count = int(getattr(image, "n_frames", 1))
    except DAMAGE:  # a later frame is cut off; the one shown is whole
        return None
    return count if count > 1 else None


def bits_in(image: Image.Image, data: bytes) -> int | None:
    """Bits of a channel where a PNG or TIFF has more than 8; *data* is the file.

    The 10 that phones put into HEIC are usual, and not told.
    """
    if image.format == "PNG":
        bits = data[_PNG_DEPTH_AT] if len(data) > _PNG_DEPTH_AT else 8
    elif isinstance(image, TiffImagePlugin.TiffImageFile):
        told = image.tag_v2.get(_BITS_PER_SAMPLE, (8,))
        bits = max(told) if isinstance(told, tuple) else int(told)
    else:
        return None
    return bits if bits > 8 else None


def date_of(exif: Image.Exif | None) -> tuple[datetime | None, str | None]:
    """When the shutter was pressed, by the camera; else what stands there instead.

    The plain DateTime tag is not used: editors set it. Blanks mean "not known" (EXIF 2.32) and are not odd.
    """
    if exif is None:
        return None, None
    try:
        tags = exif.get_ifd(_EXIF_IFD)
    except DAMAGE:
        return None, None
    odd: str | None = None
    for time_tag, fraction_tag in _TIME_TAGS:
        found = parse_exif_time(tags.get(time_tag), tags.get(fraction_tag))
        if found is not None:
            return found, None
        shown = "".join(sign for sign in _text(tags.get(time_tag)) if sign.isprintable())[:_ODD_DATE_SIGNS]
        odd = odd or (shown if shown.strip(": ") else None)
    return None, odd


def parse_exif_time(text: object, fraction: object = None) -> datetime | None:
    """An EXIF time ("2026:09:14 09:12:00", with its sub-second digits) as naive datetime.

    None for what is no date or lies before 1995 or after 2099: a clock that was never set.
    """
    match = _EXIF_TIME.match(_text(text))
    if match is None:
        return None
    digits = re.match(r"\d+", _text(fraction))
    micro_s = int((digits.group() + "000000")[:6]) if digits else 0
    try:
        year, month, day, hour, minute, second = (int(part) for part in match.groups())
        found = datetime(year, month, day, hour, minute, second, micro_s)
    except ValueError:
        return None
    return found if FIRST_YEAR <= found.year <= LAST_YEAR else None


def _text(value: object) -> str:
    if isinstance(value, bytes):
        return value.decode("ascii", "replace").strip("\0 ")
    return value.strip("\0 ") if isinstance(value, str) else ""
