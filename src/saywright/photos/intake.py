"""Image file → pixels, hash, time taken. Nothing else reads image files.

The bytes are kept as they came. What leaves the program goes through `derived_jpeg`, which writes pixels and
nothing else, so that neither a place nor a serial number nor any other tag goes along. What is read of the
tags is in `saywright.photos.tags`.
"""

from __future__ import annotations

import hashlib
import io
import stat
import warnings
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageCms, UnidentifiedImageError
from pillow_heif import register_heif_opener  # type: ignore[import-untyped,unused-ignore]

from saywright.errors import ImageError
from saywright.photos.tags import DAMAGE, Odd, bits_in, date_of, exif_of, frames_in, orientation

Pixels = npt.NDArray[np.uint8]

MAX_PIXELS = 60_000_000  # decoded, 180 MB; twice the sensor of a good camera
MAX_BYTES = 200_000_000  # of the file


# Formats that run an interpreter or fetch other files (EPS, WMF) are not among them.
_FORMATS = ("JPEG", "PNG", "WEBP", "HEIF", "TIFF", "GIF", "BMP")
_KINDS = "JPEG, HEIC, PNG or WebP"

# EXIF 2.32 (CIPA DC-008), tag 0x0112: what to do to the stored pixels to see the picture upright.
_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}

register_heif_opener()


@dataclass(frozen=True, slots=True, eq=False)
class IntakeResult:
    """One picture as it came in."""

    sha256: str  # of the original bytes, hex
    original: bytes  # as they came
    pixels: Pixels  # (height_px, width_px, 3) uint8 RGB, upright, not to be written to
    width_px: int
    height_px: int
    format: str  # "JPEG", "PNG", "HEIF", "WEBP", …
    taken_at: datetime | None  # naive, by the camera's own clock; None without a usable EXIF time
    file_time: datetime | None  # UTC, when the file was last written; None where bytes were given
    odd: Odd


def read_photo(source: Path | str | bytes, *, name: str = "") -> IntakeResult:
    """The picture in *source*, a path or the bytes of a file; *name* is used in errors about bytes.

    Of several frames the first is given; that and the like is told in `odd`. Raises ImageError for anything
    that is not a whole picture.
    """
    file_time: datetime | None = None
    if isinstance(source, bytes):
        data, where = source, name or "picture"
    else:
        path = Path(source)
        where = name or path.name
        data, file_time = _read_bytes(path, where)
    if not data:
        raise ImageError("the file is empty", where=where, to_do="Copy it from the camera again")
    pixels, image_format, taken_at, odd = _decode(data, where)
    height_px, width_px = pixels.shape[:2]
    if min(height_px, width_px) < 2:
        raise ImageError(
            f"a picture of {width_px} × {height_px} pixels shows nothing", where=where, to_do="Give another"
        )
    return IntakeResult(
        sha256=hashlib.sha256(data).hexdigest(),
        original=data,
        pixels=pixels,
        width_px=width_px,
        height_px=height_px,
        format=image_format,
        taken_at=taken_at,
        file_time=file_time,
        odd=odd,
    )


def _read_bytes(path: Path, where: str) -> tuple[bytes, datetime]:
    try:
        found = path.stat()
        if path.is_dir():
            raise ImageError("this is a folder", where=where, to_do="Name the picture files in it")
        if not stat.S_ISREG(found.st_mode):  # a pipe would be waited for without end
            raise ImageError(
                "this is a device or a pipe, no file", where=where, to_do="Name the picture files"
            )
        if found.st_size > MAX_BYTES:
            raise ImageError(
                f"the file has {found.st_size / 1e6:.0f} MB, more than the {MAX_BYTES / 1e6:.0f} MB taken",
                where=where,
                to_do="Save it smaller",
            )
        return path.read_bytes(), datetime.fromtimestamp(found.st_mtime, UTC)
    except FileNotFoundError:
        raise ImageError("there is no such file", where=where, to_do="Check the name") from None
    except (OSError, OverflowError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise ImageError(
            f"the file cannot be read ({reason})", where=where, to_do="Check the name and its rights"
        ) from None


def _decode(data: bytes, where: str) -> tuple[Pixels, str, datetime | None, Odd]:
    with warnings.catch_warnings():
        # Pillow warns of odd tags, which harm nothing, and of large pictures, which are refused here.
        warnings.simplefilter("ignore")
        image = _open(data, where)
        width_px, height_px = image.size
        if width_px * height_px > MAX_PIXELS:
            raise _too_large(where, f"{width_px * height_px / 1e6:.0f} million pixels")
        try:
            image.load()
        except MemoryError:
            raise _too_large(where, "more than fits in memory") from None
        except DAMAGE as error:
            raise _damaged(where, error) from None
        exif = exif_of(image)
        turn = None if image.format == "HEIF" else _UPRIGHT.get(orientation(exif))  # HEIF comes upright
        try:
            plain = _rgb(image, where)
        except DAMAGE as error:
            raise ImageError(
                f"its colours cannot be read ({_short(error)})", where=where, to_do=f"Save it as {_KINDS}"
            ) from None
        # Taken out before the frames are counted, which turns the pages of the open file.
        pixels = np.asarray(plain if turn is None else plain.transpose(turn), dtype=np.uint8)
        taken_at, odd_date = date_of(exif)
        odd = Odd(
            print_colours=image.mode == "CMYK",
            bits=bits_in(image, data),
            frames=frames_in(image),
            date=odd_date,
        )
        return pixels, image.format or "", taken_at, odd


def _open(data: bytes, where: str) -> Image.Image:
    try:
        return Image.open(io.BytesIO(data), formats=_FORMATS)
    except Image.DecompressionBombError:
        raise _too_large(where, "far too many pixels") from None
    except UnidentifiedImageError:
        raise ImageError(
            "this is not a picture, whatever its name says", where=where, to_do=f"Give a {_KINDS} file"
        ) from None
    except DAMAGE as error:
        raise _damaged(where, error) from None


def _damaged(where: str, error: BaseException) -> ImageError:
    return ImageError(
        f"the picture is cut off or damaged ({_short(error)})",
        where=where,
        to_do="Copy it from the camera again",
    )


def _too_large(where: str, found: str) -> ImageError:
    return ImageError(
        f"the picture is too large ({found}); up to {MAX_PIXELS / 1e6:.0f} million pixels are taken",
        where=where,
        to_do="Save it smaller",
    )


def _short(error: BaseException) -> str:
    """The first line of a decoder's complaint."""
    text = str(error).strip().splitlines()
    return text[0][:80] if text else type(error).__name__


def _rgb(image: Image.Image, where: str) -> Image.Image:
    """*image* as 8-bit RGB in sRGB colours, transparency over white."""
    if image.mode.startswith("I"):  # 16-bit grey; convert() would clip it at 255
        grey = np.asarray(image).astype(np.int64)
        return Image.fromarray((np.clip(grey, 0, 65535) >> 8).astype(np.uint8)).convert("RGB")
    if image.mode == "F":
        raise ImageError("its pixels are fractions, not colours", where=where, to_do=f"Save it as {_KINDS}")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        with_alpha = image.convert("RGBA")
        paper = Image.new("RGBA", image.size, (255, 255, 255, 255))
        return Image.alpha_composite(paper, with_alpha).convert("RGB")
    return _in_srgb(image)


def _in_srgb(image: Image.Image) -> Image.Image:
    """Colours of a phone's wide-gamut profile told in sRGB; without a usable profile as they are."""
    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "CMYK"):
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            changed = ImageCms.profileToProfile(image, source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, *DAMAGE):
            changed = None
        if changed is not None:
            return changed
    return image if image.mode == "RGB" else image.convert("RGB")  # it would copy what is RGB already
