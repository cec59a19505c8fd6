"""Image files in, upright pixels and times out; bad files give one clear line."""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import struct
import subprocess
import zlib
from datetime import datetime
from pathlib import Path

import numpy as np
import pillow_heif
import pytest
from PIL import Image

from image_files import corners, encoded, error_line, exif_of
from saywright.errors import ImageError
from saywright.photos.intake import MAX_PIXELS, read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.tags import parse_exif_time

# How EXIF 2.32 (CIPA DC-008, tag 0x0112) says row 0 and column 0 are stored, as turns of an array.
STORED_AS = {
    1: lambda p: p,
    2: lambda p: p[:, ::-1],
    3: lambda p: p[::-1, ::-1],
    4: lambda p: p[::-1],
    5: lambda p: p.transpose(1, 0, 2),
    6: lambda p: np.rot90(p, 1),
    7: lambda p: p[::-1, ::-1].transpose(1, 0, 2),
    8: lambda p: np.rot90(p, -1),
}


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP"])
def test_all_orientations_come_upright(orientation: int, image_format: str) -> None:
    """Each of the eight EXIF orientations gives the same upright picture."""
    stored = np.ascontiguousarray(STORED_AS[orientation](corners()))
    result = read_photo(encoded(stored, image_format, exif=exif_of(orientation=orientation)))
    assert (80, 60) == (result.width_px, result.height_px)
    assert np.abs(corners().astype(int) - result.pixels).mean() < 6


@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_time_by_the_camera(image_format: str) -> None:
    """The original time is taken, not the time of the last edit."""
    result = read_photo(encoded(corners(), image_format, exif=exif_of()))
    assert datetime(2026, 9, 14, 9, 4, 20) == result.taken_at


def test_heic() -> None:
    """HEIC gives pixels and time."""
    out = io.BytesIO()
    picture = pillow_heif.from_pillow(Image.fromarray(corners()))
    picture.save(out, quality=90, exif=exif_of())
    result = read_photo(out.getvalue(), name="x.heic")
    assert ("HEIF", 80, 60) == (result.format, result.width_px, result.height_px)
    assert datetime(2026, 9, 14, 9, 4, 20) == result.taken_at


@pytest.mark.parametrize(
    ("text", "fraction", "expected"),
    [
        ("2026:09:14 09:04:20", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("2026:09:14 09:04:20", "25", datetime(2026, 9, 14, 9, 4, 20, 250_000)),
        (b"2026:09:14 09:04:20\0", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("2026-09-14T09:04:20", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("0000:00:00 00:00:00", None, None),
        ("1980:01:01 00:00:00", None, None),
        ("2026:13:41 25:61:00", None, None),
        ("2107:01:01 00:00:00", None, None),
        ("    :  :     :  :  ", None, None),
        ("", None, None),
        (None, None, None),
        (17, None, None),
    ],
)
def test_exif_times(text: object, fraction: object, expected: datetime | None) -> None:
    """A date that no working clock shows counts as none."""
    assert expected == parse_exif_time(text, fraction)


def test_original_is_named_by_its_bytes(tmp_path: Path) -> None:
    """The bytes come as they are, a place among them, under their hash; the file's time too, in UTC."""
    data = encoded(corners(), exif=exif_of(place=True))
    path = tmp_path / "a.jpg"
    path.write_bytes(data)
    result = read_photo(path)
    assert hashlib.sha256(data).hexdigest() == result.sha256
    assert data == result.original
    assert result.file_time is not None
    assert result.file_time.utcoffset() is not None


def test_place_and_serial_number_do_not_leave() -> None:
    """The derived JPEG holds no EXIF, no place, no maker, no serial number."""
    data = encoded(corners(), exif=exif_of(place=True))
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    derived = derived_jpeg(read_photo(data).pixels, 40, 80)
    image = Image.open(io.BytesIO(derived))
    assert (40, 30) == image.size
    assert {} == dict(image.getexif())
    assert not {"exif", "icc_profile", "comment", "xmp", "photoshop"} & set(image.info)
    for secret in (b"Exif", b"SERIAL-4711", b"Invented", b"GPS"):
        assert secret not in derived


def test_derived_is_not_enlarged() -> None:
    """A picture smaller than asked for keeps its size."""
    assert (80, 60) == Image.open(io.BytesIO(derived_jpeg(corners(), 1600, 85))).size


def test_text_named_jpg() -> None:
    """A text file is told as no picture."""
    expected = "x.jpg: this is not a picture, whatever its name says. Give a JPEG, HEIC, PNG or WebP file"
    assert expected == error_line(b"float height is eighteen point four two\n")


def test_empty_file() -> None:
    """A file of zero bytes is told as empty."""
    assert "x.jpg: the file is empty. Copy it from the camera again" == error_line(b"")


@pytest.mark.parametrize(
    ("image_format", "share"), [("JPEG", 0.6), ("JPEG", 0.02), ("PNG", 0.7), ("WEBP", 0.5), ("TIFF", 0.5)]
)
def test_cut_off_files_are_refused(image_format: str, share: float) -> None:
    """A file cut off anywhere is refused in one line, never shown in part."""
    rng = np.random.default_rng(1)
    whole = encoded(rng.integers(0, 255, (200, 300, 3), dtype=np.uint8), image_format)
    line = error_line(whole[: int(len(whole) * share)])
    assert line.startswith("x.jpg: ")
    assert "\n" not in line


def test_cut_off_jpeg_line() -> None:
    """The line about a truncated JPEG says what to do."""
    whole = encoded(np.random.default_rng(1).integers(0, 255, (200, 300, 3), dtype=np.uint8))
    line = error_line(whole[: len(whole) // 2])
    assert line.startswith("x.jpg: the picture is cut off or damaged (")
    assert line.endswith("). Copy it from the camera again")


def test_cut_off_heic() -> None:
    """A HEIC file cut off is refused in one line."""
    out = io.BytesIO()
    noise = np.random.default_rng(1).integers(0, 255, (64, 64, 3), dtype=np.uint8)
    pillow_heif.from_pillow(Image.fromarray(noise)).save(out)
    assert "x.heic" in error_line(out.getvalue()[: len(out.getvalue()) // 2], "x.heic")


def huge_png(side_px: int) -> bytes:
    """A PNG that says it is *side_px* square, with hardly any data behind."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", side_px, side_px, 8, 2, 0, 0, 0)
    body = zlib.compress(bytes(1000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side_px", [int(MAX_PIXELS**0.5) + 1, 10_000, 60_000])
def test_bombs_are_refused_before_decoding(side_px: int) -> None:
    """A small file that unpacks to a huge picture is refused."""
    assert "up to 60 million pixels are taken. Save it smaller" in error_line(huge_png(side_px))


def test_one_pixel() -> None:
    """A picture of one pixel is refused."""
    assert "x.jpg: a picture of 1 × 1 pixels shows nothing. Give another" == error_line(
        encoded(np.zeros((1, 1, 3), np.uint8), "PNG")
    )


def test_missing_file_and_folder(tmp_path: Path) -> None:
    """A path that is no file is told as such."""
    with pytest.raises(ImageError, match=r"^gone\.jpg: there is no such file\. Check the name$"):
        read_photo(tmp_path / "gone.jpg")
    os.mkfifo(tmp_path / "pipe.jpg")
    with pytest.raises(ImageError, match="this is a device or a pipe, no file"):
        read_photo(tmp_path / "pipe.jpg")  # and is not waited for
    with pytest.raises(ImageError, match="this is a folder"):
        read_photo(tmp_path)


def test_broken_exif_is_no_time() -> None:
    """A damaged EXIF block costs the time, not the picture."""
    data = encoded(corners(), exif=exif_of())
    spoilt = data.replace(b"MM\0*", b"MM\0\xff").replace(b"II*\0", b"II\xff\0")
    assert spoilt != data
    assert read_photo(spoilt).taken_at is None


@pytest.mark.parametrize("seed", range(60))
def test_flipped_bytes_never_give_a_traceback(seed: int) -> None:
    """Random damage either still is a picture or gets an ImageError; warnings would fail the test."""
    rng = np.random.default_rng(seed)
    image_format = ["JPEG", "PNG", "WEBP", "TIFF", "GIF"][seed % 5]
    data = bytearray(
        encoded(corners(), image_format, **({} if image_format == "GIF" else {"exif": exif_of()}))
    )
    for place in rng.integers(0, len(data), 12):
        data[place] = rng.integers(0, 256)
    try:
        kept, line = read_photo(bytes(data)).pixels.shape[2], ""
    except ImageError as error:
        kept, line = 3, str(error)
    assert kept == 3
    assert "\n" not in line


@pytest.mark.skipif(shutil.which("ffprobe") is None, reason="ffprobe is not installed")
@pytest.mark.parametrize("taken", ["2026:03:01 09:12:44", "1999:12:31 23:59:59"])
def test_the_time_by_a_second_reader(tmp_path: Path, taken: str) -> None:
    """FFmpeg's own EXIF reader finds the same time in the same file."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = taken
    path = tmp_path / "a.jpg"
    Image.effect_noise((80, 60), 90).convert("RGB").save(path, exif=exif)
    command = ["ffprobe", "-v", "error", "-show_frames", "-of", "json", str(path)]
    told = json.loads(subprocess.run(command, capture_output=True, check=True).stdout)["frames"][0]["tags"]
    found = read_photo(path).taken_at
    assert found is not None
    assert told["DateTimeOriginal"].strip() == f"{found:%Y:%m:%d %H:%M:%S}" == taken
